/** A stroke under way, and how it grows; pure. */
import type { BitmapInfo } from "../shared/protocol/lsp.ts";
import { pictureOf } from "./picture.ts";
import { inSelection } from "./selection/selection.ts";
import type { State } from "./state.ts";
import { refusal } from "./tools/ink.ts";
import { nearestIn, type Point } from "./tools/shapes.ts";
import { type GlyphSet, layText } from "./tools/text.ts";
import { type Marks, type ToolName, toolOf } from "./tools/tools.ts";

export interface Stroke {
  readonly tool: ToolName;
  readonly frame: number;
  readonly level: number;
  readonly from: Point;
  readonly to: Point;
  readonly marks: Marks;
  /** What is typed, for a tool that takes it. */
  readonly text?: string | undefined;
}

export function withoutStroke(state: State): State {
  const { stroke: _, ...rest } = state;
  return rest;
}

/** What a stroke has changed once it has come to a point. */
export function stepped(state: State, stroke: Stroke, to: Point): Marks {
  const { shown, options } = state;
  const { step } = toolOf(stroke.tool);
  const { from, to: last, level, marks, text } = stroke;
  if (!shown || !step) return marks;
  let under: Uint32Array | undefined;
  const pixels = () => {
    under ??= pictureOf(withoutStroke(state), stroke.frame);
    return under;
  };
  const { bitmap } = shown;
  const mask = state.selection ? (index: number) => inSelection(state, index) : undefined;
  return step({ pixels, size: bitmap, from, last, to, level, marks, options, bitmap, text, set: setOf(state), mask });
}

/** After a change of level, options or words: a stroke that is not drawn bit by bit is made anew. */
export function restepped(state: State): State {
  const { stroke, level } = state;
  const { twoPresses = false, typed = false } = stroke ? toolOf(stroke.tool) : {};
  if (!stroke || !(twoPresses || typed)) return state;
  const next = { ...stroke, level };
  return { ...state, stroke: { ...next, marks: stepped(state, next, stroke.to) } };
}

/** Why the tool as it is set can't paint this bitmap, in words. */
export function refusalOf({ tool, options }: State, bitmap: BitmapInfo): string | undefined {
  const uses = toolOf(tool).uses;
  const between =
    tool === "gradient" ||
    (uses.includes("strength") && options.strength < 100) ||
    (uses.includes("mode") && options.mode !== "set");
  return refusal(between, bitmap);
}

/** The glyph set that is chosen. */
export function setOf({ sets = [], options }: State): GlyphSet | undefined {
  return sets.find((set) => set.key === options.set) ?? sets[0];
}

/** The text that is typed can't be drawn in full yet. */
export function awaitsGlyphs(state: State): boolean {
  const set = setOf(state);
  const text = state.stroke?.text;
  if (text && state.sets === undefined) return true;
  return text !== undefined && set !== undefined && layText(text, set, state.options.spacing).wanted.length > 0;
}

/** The pixel cursor goes on to where more text would follow. */
export function afterStroke(state: State, { text, to }: Stroke): State {
  const set = setOf(state);
  if (!text || !set || !state.shown) return state;
  const x = to.x + layText(text, set, state.options.spacing).advance;
  return { ...state, cursor: nearestIn(state.shown.bitmap, { x, y: to.y }) };
}
