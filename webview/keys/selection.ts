/** Keys of the selection; pure. */
import * as l10n from "@vscode/l10n";
import { stepOf, turnOf } from "../look.ts";
import type { Change } from "../selection/change.ts";
import { inSelection } from "../selection/selection.ts";
import type { Action, State } from "../state.ts";
import { nearestIn, type Point } from "../tools/shapes.ts";
import { ARROWS, type Deed, type Key, type KeyRow } from "./key.ts";

/** Not while a stroke is under way, which is meant for what is selected now. */
const idle = (run: (state: State) => Deed) => (state: State) => (state.stroke ? [] : run(state));
const changes = (change: Change) => idle((state) => (isActive(state) ? [{ type: "change", change }] : []));

export const SELECTION_ROWS: readonly KeyRow[] = [
  {
    shown: l10n.t("Shift and arrows"),
    does: l10n.t("select from the pixel cursor"),
    own: { on: "grid", keys: ["Shift+ArrowLeft", "Shift+ArrowRight", "Shift+ArrowUp", "Shift+ArrowDown"] },
  },
  {
    shown: l10n.t("Ctrl+A"),
    does: l10n.t("select all pixels"),
    page: { "Ctrl+a": idle(() => [{ type: "selectAll" }]) },
  },
  {
    shown: "V",
    does: l10n.t("select all pixels of the value under the pixel cursor"),
    page: { v: idle(() => [{ type: "selectLevel" }]) },
  },
  {
    shown: l10n.t("Ctrl and Enter"),
    does: l10n.t("on selected pixels: move a copy of them with the arrows"),
    own: { on: "grid", keys: ["Ctrl+Enter", "Ctrl+ "] },
  },
  {
    shown: l10n.t("Ctrl and arrows"),
    does: l10n.t("shift what is selected by one; what goes out comes in again"),
    own: { on: "grid", keys: ["Ctrl+ArrowLeft", "Ctrl+ArrowRight", "Ctrl+ArrowUp", "Ctrl+ArrowDown"] },
  },
  {
    shown: l10n.t("R, Shift+R"),
    does: l10n.t("turn what is selected right, left"),
    page: { r: changes({ kind: "turn", turn: "right" }), "Shift+r": changes({ kind: "turn", turn: "left" }) },
  },
  {
    shown: l10n.t("U, Shift+U"),
    does: l10n.t("mirror its columns, its rows"),
    page: { u: changes({ kind: "mirror", what: "columns" }), "Shift+u": changes({ kind: "mirror", what: "rows" }) },
  },
  { shown: "I", does: l10n.t("invert it"), page: { i: changes({ kind: "invert" }) } },
  {
    shown: l10n.t("Delete"),
    does: l10n.t("erase it"),
    page: { Delete: changes({ kind: "erase" }), Backspace: changes({ kind: "erase" }) },
  },
  {
    shown: l10n.t("Ctrl+C, X, V"),
    does: l10n.t("copy, cut and paste, as C text and as a picture"),
    own: { on: "clipboard", keys: ["Ctrl+c", "Ctrl+x", "Ctrl+v"] },
  },
];

/** What is done without a selection is done to the whole frame, but only with the tool in hand. */
export function isActive({ selection, float, tool }: State): boolean {
  return selection !== undefined || float !== undefined || tool === "select";
}

/** Keys of the grid that are about the selection; undefined for all others. */
export function selectionGridKey(key: Key, state: State): Action[] | undefined {
  const { shown, float, grip, cursor, tool, selection, stroke } = state;
  if (!shown || key.altKey || stroke) return undefined;
  const far = key.ctrlKey || key.metaKey;
  const arrow = ARROWS[key.key];
  if (arrow) {
    const by = stepOf(arrow, turnOf(shown.bitmap, state.view));
    const to = nearestIn(shown.bitmap, { x: cursor.x + by.x, y: cursor.y + by.y });
    if (grip) return [{ type: "drag", to }];
    if (far) return isActive(state) ? [{ type: "change", change: { kind: "shift", by } }] : undefined;
    if (float) return [{ type: "floatBy", by }];
    return key.shiftKey ? [{ type: "selectTo", to }] : undefined;
  }
  if ((key.key !== "Enter" && key.key !== " ") || key.repeat) return undefined;
  if (float) return [{ type: "putDown" }];
  if (grip) return [{ type: "end" }];
  if (tool !== "select") return undefined;
  const on = selection && inSelection(state, cursor.y * shown.bitmap.width + cursor.x);
  if (on) return [{ type: "lift", copy: far }];
  return far ? undefined : begun(cursor);
}

function begun(at: Point): Action[] {
  return [
    { type: "begin", at },
    { type: "say", note: l10n.t("Select starts here: move and press Space again") },
  ];
}
