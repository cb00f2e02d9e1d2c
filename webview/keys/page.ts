/** All keys, as one table in groups: what the page does by it is what it shows behind the question mark; pure. Start here. */
import * as l10n from "@vscode/l10n";
import { earlyText } from "../drawing.ts";
import { pictureOf } from "../picture.ts";
import { replacedFirst } from "../replace.ts";
import type { Action, State } from "../state.ts";
import { amountOf, amountWithin, choiceOf, nextOf } from "../tools/options.ts";
import { TOOL_NAMES, TOOLS, toolOf } from "../tools/tools.ts";
import { stepValue } from "../values.ts";
import { FRAME_ROWS } from "./frames.ts";
import { GRID_ROWS } from "./grid.ts";
import { type Deed, type Key, type KeyRow, namesOf } from "./key.ts";
import { SELECTION_ROWS } from "./selection.ts";

export const KEY_GROUPS: readonly { readonly heading: string; readonly rows: readonly KeyRow[] }[] = [
  {
    heading: l10n.t("Drawing"),
    rows: [
      ...GRID_ROWS,
      {
        shown: l10n.t("Escape"),
        does: l10n.t("drop the stroke under way, or what floats; else let the selection go"),
        page: { Escape: escaped },
      },
      {
        shown: l10n.t("W, Shift+W"),
        does: l10n.t("brush wider, narrower"),
        page: { w: (state) => widened(state, 1), "Shift+w": (state) => widened(state, -1) },
      },
      { shown: "M", does: l10n.t("symmetry: columns, rows, both, off"), page: { m: nextSymmetry } },
      {
        shown: l10n.t("while Text is typed"),
        does: l10n.t("arrows move it, Enter writes it, Escape drops it"),
        own: { on: "text", keys: ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "Enter", "Escape"] },
      },
    ],
  },
  {
    heading: l10n.t("Tools"),
    rows: TOOL_NAMES.map((tool) => {
      const { key, word, does } = TOOLS[tool];
      return { shown: key.toUpperCase(), does: `${word}: ${does}`, page: { [key]: () => [{ type: "tool", tool }] } };
    }),
  },
  {
    heading: l10n.t("Values"),
    rows: [
      {
        shown: l10n.t("[ and ]"),
        does: l10n.t("rung below and above; of a palette the index, of colours those in use"),
        page: { "[": (state) => rung(state, -1), "]": (state) => rung(state, 1) },
      },
      { shown: "#", does: l10n.t("type a level, a colour or an index"), page: { "#": () => "type" } },
      {
        shown: "X",
        does: l10n.t(
          "replace the value under the pixel cursor by the chosen one; only selected pixels, where some are",
        ),
        page: { x: replaceAtCursor },
      },
    ],
  },
  { heading: l10n.t("Selection"), rows: SELECTION_ROWS },
  { heading: l10n.t("Frames"), rows: FRAME_ROWS },
  {
    heading: l10n.t("View"),
    rows: [
      { shown: "A", does: l10n.t("as the display is lit, or as cells"), page: { a: otherView } },
      { shown: "Shift+A", does: l10n.t("light as it is seen, or as it is driven"), page: { "Shift+a": otherLight } },
      { shown: "Y", does: l10n.t("the wiring of the panel"), page: { y: wiringView } },
      {
        shown: l10n.t("+, − and 0"),
        does: l10n.t("closer, farther, fitted; or Ctrl and the wheel"),
        page: {
          "+": () => "closer",
          "=": () => "closer",
          "-": () => "farther",
          "−": () => "farther",
          "0": () => "fit",
        },
      },
    ],
  },
];

const KNOWN = new Map(
  KEY_GROUPS.flatMap(({ rows }) => rows).flatMap(({ page = {}, once }) =>
    Object.entries(page).map(([name, run]) => [name, { run, once }] as const),
  ),
);

/** What a key does wherever nothing is typed; undefined for a key that does nothing now. */
export function pageKey(key: Key, state: State): Deed | undefined {
  if (!state.shown) return undefined;
  const early = earlyText(key, state);
  if (early) return [early];
  const name = namesOf(key).find((one) => KNOWN.has(one));
  const known = name === undefined ? undefined : KNOWN.get(name);
  if (!known || (key.repeat && known.once)) return undefined;
  // Who types words where there are no glyphs for them does not ask for frames.
  const words = toolOf(state.tool).typed && state.sets?.length === 0 && [...key.key].length === 1;
  if (words && FRAME_ROWS.some(({ page = {} }) => name !== undefined && name in page)) return undefined;
  const deed = known.run(state);
  return deed.length === 0 ? undefined : deed;
}

function escaped({ stroke, grip, float, selection, replacing }: State): Action[] {
  if (stroke) return [{ type: "drop" }];
  if (grip || float || selection) return [{ type: "letGo" }];
  return replacing === undefined ? [] : [{ type: "replacing", value: undefined }];
}

/** Each says what it has come to. */
function widened({ options }: State, by: 1 | -1): Action[] {
  const width = amountWithin("width", options.width + by);
  return [{ type: "options", options: { width }, note: `${amountOf("width").label} ${width}` }];
}

function nextSymmetry({ options }: State): Action[] {
  const symmetry = nextOf("symmetry", options.symmetry);
  const { label, words } = choiceOf("symmetry");
  return [{ type: "options", options: { symmetry }, note: `${label} ${words[symmetry]?.[0]}` }];
}

function rung(state: State, by: 1 | -1): Action[] {
  const { shown, frame, level } = state;
  if (!shown) return [];
  return [{ type: "level", level: stepValue(shown.bitmap, pictureOf(state, frame), level, by) }];
}

/** Begins to replace the value under the pixel cursor; one bit has nothing to replace but all of a picture. */
function replaceAtCursor(state: State): Action[] {
  const { shown } = state;
  return !shown || shown.bitmap.kind === "mono" ? [] : [{ type: "replacing", value: replacedFirst(state) }];
}

function otherLight({ shows, shown }: State): Action[] {
  // Dark and lit look alike either way.
  if (shown?.bitmap.kind === "mono") return [];
  return [{ type: "shows", shows: shows === "seen" ? "driven" : "seen" }];
}

function wiringView({ shown, wiring }: State): Action[] {
  return shown?.wiring ? [{ type: "wiring", open: wiring !== true }] : [];
}

function otherView({ view }: State): Action[] {
  return [{ type: "view", view: view === "lit" ? "cells" : "lit" }];
}
