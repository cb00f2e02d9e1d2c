/** Keys of the selection; pure. */
import * as l10n from "@vscode/l10n";
import { stepOf, turnOf } from "../look.ts";
import type { Action, State } from "../state.ts";
import { nearestIn, type Point } from "../tools/shapes.ts";
import { ARROWS, type Key } from "../view/arrows.ts";
import type { Change } from "./change.ts";
import { inSelection } from "./selection.ts";

/** What is shown behind the question mark. */
export const SELECTION_KEYS: readonly (readonly [string, string])[] = [
  [l10n.t("Shift and arrows"), l10n.t("select from the pixel cursor; Ctrl+A selects all")],
  ["V", l10n.t("select all pixels of this level")],
  [l10n.t("Enter"), l10n.t("on selected pixels: move them with the arrows; with Ctrl a copy")],
  [l10n.t("Escape"), l10n.t("let the selection go")],
  [l10n.t("R, Shift+R"), l10n.t("turn what is selected right or left")],
  [l10n.t("U, Shift+U"), l10n.t("mirror its columns or its rows")],
  [l10n.t("Ctrl and arrows"), l10n.t("shift it by one; what goes out comes in again")],
  [l10n.t("I, Delete"), l10n.t("invert it, erase it")],
  [l10n.t("Ctrl+C, X, V"), l10n.t("copy, cut and paste, as C text and as a picture")],
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

/** Keys of the whole page that are about the selection. */
export function selectionPageKey(key: Key, state: State): Action | undefined {
  if (!state.shown || key.altKey || state.stroke) return undefined;
  const letter = key.key.toLowerCase();
  if (key.ctrlKey || key.metaKey) return letter === "a" && !key.shiftKey ? { type: "selectAll" } : undefined;
  if (letter === "v") return { type: "selectLevel" };
  if (key.key === "Escape") return state.grip || state.float || state.selection ? { type: "letGo" } : undefined;
  const change = isActive(state) ? changeBy(key.key, letter, key.shiftKey === true) : undefined;
  return change && { type: "change", change };
}

function changeBy(name: string, letter: string, shift: boolean): Change | undefined {
  if (letter === "r") return { kind: "turn", turn: shift ? "left" : "right" };
  if (letter === "u") return { kind: "mirror", what: shift ? "rows" : "columns" };
  if (letter === "i") return { kind: "invert" };
  return !shift && (name === "Delete" || name === "Backspace") ? { kind: "erase" } : undefined;
}
