/** A press, a drag and a release with the tool in hand; pure. What a stroke changes is in `stroke.ts`. */
import * as l10n from "@vscode/l10n";
import { pictureOf } from "./picture.ts";
import { queued } from "./queue.ts";
import { notPainted } from "./refusal.ts";
import type { State } from "./state.ts";
import { afterStroke, awaitsGlyphs, refusalOf, type Stroke, stepped, withoutStroke } from "./stroke.ts";
import { nearestIn, type Point } from "./tools/shapes.ts";
import { type ToolName, toolOf } from "./tools/tools.ts";
import { valueName } from "./values.ts";

export function chosen(state: State, tool: ToolName): State {
  const toolBefore = keepsTool(state.tool) ? state.tool : state.toolBefore;
  return { ...withoutStroke(state), tool, toolBefore };
}

export function begin(state: State, at: Point): State {
  const { shown, tool, frame, level } = state;
  if (!shown) return state;
  const cursor = nearestIn(shown.bitmap, at);
  if (!keepsTool(tool)) {
    const picked = pictureOf(state, frame)[cursor.y * shown.bitmap.width + cursor.x] ?? 0;
    const note = l10n.t("{0} picked", valueName(shown.bitmap, picked));
    return { ...state, cursor, level: picked, tool: state.toolBefore, note };
  }
  const refused = refusal(state);
  if (refused !== undefined) return { ...state, cursor, note: refused };
  // What was typed moves to where it is pressed.
  const text = toolOf(tool).typed ? (state.stroke?.text ?? "") : undefined;
  const first: Stroke = { tool, frame, level, from: cursor, to: cursor, marks: new Map(), text };
  const rest = withoutStroke(state);
  return { ...rest, cursor, playing: false, stroke: { ...first, marks: stepped(rest, first, cursor) }, note: "" };
}

/** Why nothing can be painted with the tool as it is set, in words. */
export function refusal(state: State): string | undefined {
  const refused = notPainted(state);
  if (refused !== undefined || !state.shown) return refused;
  const unfit = refusalOf(state, state.shown.bitmap);
  return unfit === undefined ? undefined : l10n.t("Not painted: {0}", unfit);
}

export function drag(state: State, to: Point): State {
  const { stroke, shown } = state;
  if (!stroke || !shown || (to.x === stroke.to.x && to.y === stroke.to.y)) return state;
  const marks = stepped(state, stroke, to);
  return { ...state, cursor: nearestIn(shown.bitmap, to), stroke: { ...stroke, to, marks } };
}

export function end(state: State): State {
  const { stroke } = state;
  if (!stroke) return state;
  // Nothing that was typed is lost to a slow line.
  if (awaitsGlyphs(state)) return { ...state, note: l10n.t("the glyphs are still on their way") };
  const rest = afterStroke(withoutStroke(state), stroke);
  if (state.selection && stroke.marks.size === 0)
    return { ...rest, note: l10n.t("Not painted: it is not selected. Escape lets the selection go") };
  return queued(rest, new Map([[stroke.frame, stroke.marks]]));
}

/** Picking is for once: the tool before comes back. */
function keepsTool(tool: ToolName): boolean {
  const { step, stays } = toolOf(tool);
  return step !== undefined || stays === true;
}
