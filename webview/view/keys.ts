/** The keyboard: which key does what, as a table that the page also shows; pure. */
import * as l10n from "@vscode/l10n";
import { earlyText } from "../drawing.ts";
import { stepOf, turnOf } from "../look.ts";
import { pictureOf } from "../picture.ts";
import { SELECTION_KEYS, selectionGridKey, selectionPageKey } from "../selection/keys.ts";
import type { Action, State } from "../state.ts";
import { amountOf, amountWithin, choiceOf, nextOf } from "../tools/options.ts";
import type { Point, Size } from "../tools/shapes.ts";
import { TOOL_NAMES, TOOLS, toolOf } from "../tools/tools.ts";
import { stepValue } from "../values.ts";
import { ARROWS, inside, type Key } from "./arrows.ts";
import { FRAME_KEYS } from "./frameKeys.ts";

/** What is shown behind the question mark. */
export const KEYS: readonly (readonly [string, string])[] = [
  [l10n.t("arrows"), l10n.t("move the pixel cursor")],
  [l10n.t("Home, End"), l10n.t("first and last of the row; with Ctrl first and last pixel")],
  [l10n.t("PageUp, PageDown"), l10n.t("frame before and after")],
  [l10n.t("Space, Enter"), l10n.t("use the tool; Line, Box, Oval and Gradient: press at both ends")],
  [l10n.t("Escape"), l10n.t("drop the stroke under way")],
  [l10n.t("[ and ]"), l10n.t("rung below and above; of a palette the index, of colours those in use")],
  ["J", l10n.t("jump to a character of a glyph set, which is then typed")],
  ["X", l10n.t("replace the value under the pixel cursor by the chosen one")],
  ["#", l10n.t("type a level or colour")],
  [l10n.t("W, Shift+W"), l10n.t("brush wider, narrower")],
  ["M", l10n.t("symmetry: columns, rows, both, off")],
  [l10n.t("while Text is typed"), l10n.t("arrows move it, Enter writes it, Escape drops it")],
  ["A", l10n.t("as the display is lit, or as cells")],
  [l10n.t("+, − and 0"), l10n.t("closer, farther, fitted; or Ctrl and the wheel")],
  ...SELECTION_KEYS,
  ...FRAME_KEYS,
  ...TOOL_NAMES.map((name) => [TOOLS[name].key.toUpperCase(), `${TOOLS[name].word}: ${TOOLS[name].does}`] as const),
];

/** Keys of the grid. */
export function keyAction(key: Key, state: State): Action[] {
  const { shown, stroke, cursor, frame } = state;
  if (!shown || key.altKey) return [];
  const own = selectionGridKey(key, state);
  if (own) return own;
  const text = earlyText(key, state);
  if (text) return [text];
  const to = target(key, cursor, shown.bitmap, turnOf(shown.bitmap, state.view));
  if (to) return [stroke ? { type: "drag", to } : { type: "move", to }];
  if (key.ctrlKey || key.metaKey) return [];
  switch (key.key) {
    case "PageUp":
      return [{ type: "frame", frame: frame - 1 }];
    case "PageDown":
      return [{ type: "frame", frame: frame + 1 }];
    case " ":
    case "Enter":
      if (key.repeat) return [];
      if (stroke) return [{ type: "end" }];
      if (toolOf(state.tool).typed) return [{ type: "begin", at: cursor }];
      // What can't be painted says so itself.
      return toolOf(state.tool).twoPresses && !shown.readOnly && state.why === undefined
        ? [
            { type: "begin", at: cursor },
            { type: "say", note: l10n.t("{0} starts here: move and press Space again", toolOf(state.tool).word) },
          ]
        : [{ type: "begin", at: cursor }, { type: "end" }];
    default:
      return [];
  }
}

/** Keys of the whole page, wherever nothing is typed. */
export function pageKeyAction(key: Key, state: State): Action | undefined {
  const own = selectionPageKey(key, state);
  if (own) return own;
  if (!state.shown || key.ctrlKey || key.metaKey || key.altKey) return undefined;
  if (key.key === "Escape") {
    if (state.stroke) return { type: "drop" };
    return state.replacing === undefined ? undefined : { type: "replacing", value: undefined };
  }
  const by = key.key === "]" ? 1 : key.key === "[" ? -1 : undefined;
  if (by) {
    const level = stepValue(state.shown.bitmap, pictureOf(state, state.frame), state.level, by);
    return { type: "level", level };
  }
  if (key.key.toLowerCase() === "x") return replaceAtCursor(state);
  if (key.key.toLowerCase() === "a") return { type: "view", view: state.view === "lit" ? "cells" : "lit" };
  const option = optionKeyAction(key, state);
  if (option) return option;
  const tool = TOOL_NAMES.find((name) => TOOLS[name].key === key.key.toLowerCase());
  return tool ? { type: "tool", tool } : undefined;
}

/** The key that goes to the field for a character. */
export function jumpKey(key: Key): boolean {
  return !key.ctrlKey && !key.metaKey && !key.altKey && key.key.toLowerCase() === "j";
}

/** Begins to replace the value under the pixel cursor; one bit has nothing to replace but all of a picture. */
function replaceAtCursor(state: State): Action | undefined {
  const { shown, cursor, frame } = state;
  if (!shown || shown.bitmap.kind === "mono") return undefined;
  return { type: "replacing", value: pictureOf(state, frame)[cursor.y * shown.bitmap.width + cursor.x] ?? 0 };
}

/** Keys of the tools' options; each says what it has come to. */
function optionKeyAction({ key, shiftKey }: Key, { options }: State): Action | undefined {
  switch (key.toLowerCase()) {
    case "w": {
      const width = amountWithin("width", options.width + (shiftKey ? -1 : 1));
      return { type: "options", options: { width }, note: `${amountOf("width").label} ${width}` };
    }
    case "m": {
      const symmetry = nextOf("symmetry", options.symmetry);
      const { label, words } = choiceOf("symmetry");
      return { type: "options", options: { symmetry }, note: `${label} ${words[symmetry]?.[0]}` };
    }
    default:
      return undefined;
  }
}

/** Keys that zoom: closer, farther, or 0 to fit. */
export function zoomKey(key: Key): 1 | -1 | 0 | undefined {
  if (key.ctrlKey || key.metaKey || key.altKey) return undefined;
  if (key.key === "+" || key.key === "=") return 1;
  if (key.key === "-" || key.key === "−") return -1;
  return key.key === "0" ? 0 : undefined;
}

/** Arrows go where they point on the screen, also where the display is turned. */
function target(key: Key, at: Point, size: Size, turn: number): Point | undefined {
  const far = key.ctrlKey || key.metaKey;
  const go = (x: number, y: number, steps: number) => {
    const step = stepOf({ x, y }, turn);
    return inside(size, { x: at.x + step.x * steps, y: at.y + step.y * steps });
  };
  const arrow = ARROWS[key.key];
  if (arrow) return far ? undefined : go(arrow.x, arrow.y, 1);
  const all = size.width + size.height;
  const end = key.key === "Home" ? -1 : key.key === "End" ? 1 : undefined;
  return end && go(end, far ? end : 0, all);
}
