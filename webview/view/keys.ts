/** The keyboard: which key does what, as a table that the page also shows; pure. */
import { rungs, stepLevel } from "../levels.ts";
import { limitOf } from "../picture.ts";
import type { Action, State } from "../state.ts";
import type { Point } from "../tools/shapes.ts";
import { TOOL_NAMES, TOOLS, toolOf } from "../tools/tools.ts";

interface Key {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly repeat?: boolean;
}

/** What is shown behind the question mark. */
export const KEYS: readonly (readonly [string, string])[] = [
  ["arrows", "move the pixel cursor"],
  ["Home, End", "first and last column; with Ctrl first and last pixel"],
  ["PageUp, PageDown", "frame before and after"],
  ["Space, Enter", "use the tool; Line and Box: press at both ends"],
  ["Escape", "drop the stroke under way"],
  ["[ and ]", "rung below and above"],
  ...TOOL_NAMES.map((name) => [TOOLS[name].key.toUpperCase(), `${TOOLS[name].word}: ${TOOLS[name].does}`] as const),
];

/** Keys of the grid. */
export function keyAction(key: Key, state: State): Action[] {
  const { shown, stroke, cursor, frame } = state;
  if (!shown || key.altKey) return [];
  const to = target(key, cursor, shown.bitmap);
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
      return toolOf(state.tool).twoPresses
        ? [
            { type: "begin", at: cursor },
            { type: "say", note: `${toolOf(state.tool).word} starts here: move and press Space again` },
          ]
        : [{ type: "begin", at: cursor }, { type: "end" }];
    default:
      return [];
  }
}

/** Keys of the whole page, wherever nothing is typed. */
export function pageKeyAction(key: Key, state: State): Action | undefined {
  if (!state.shown || key.ctrlKey || key.metaKey || key.altKey) return undefined;
  if (key.key === "Escape") return state.stroke ? { type: "drop" } : undefined;
  const by = key.key === "]" ? 1 : key.key === "[" ? -1 : undefined;
  if (by) {
    const { bitmap } = state.shown;
    return { type: "level", level: stepLevel(state.level, by, rungs(bitmap.most, limitOf(bitmap))) };
  }
  const tool = TOOL_NAMES.find((name) => TOOLS[name].key === key.key.toLowerCase());
  return tool ? { type: "tool", tool } : undefined;
}

function target(key: Key, { x, y }: Point, { width, height }: { width: number; height: number }): Point | undefined {
  const far = key.ctrlKey || key.metaKey;
  switch (key.key) {
    case "Home":
      return { x: 0, y: far ? 0 : y };
    case "End":
      return { x: width - 1, y: far ? height - 1 : y };
    case "ArrowLeft":
      return far ? undefined : { x: Math.max(0, x - 1), y };
    case "ArrowRight":
      return far ? undefined : { x: Math.min(width - 1, x + 1), y };
    case "ArrowUp":
      return far ? undefined : { x, y: Math.max(0, y - 1) };
    case "ArrowDown":
      return far ? undefined : { x, y: Math.min(height - 1, y + 1) };
    default:
      return undefined;
  }
}
