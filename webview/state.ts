/** What the page knows, and every way in which it changes; pure. */
import * as l10n from "@vscode/l10n";
import type { BitmapIdentity } from "../shared/bitmap/edit.ts";
import type { Place, Shown } from "../shared/protocol/webview.ts";
import { type DrawingAction, reduceDrawing } from "./drawing.ts";
import { arrived, type FrameAction, type Pending, reduceFrames, sameArray } from "./frameEditing.ts";
import type { View } from "./look.ts";
import { AT_REST, changedMotion, type Motion, type MotionChange, motionFor } from "./motion.ts";
import { pictureOf, sameBitmap, settled } from "./picture.ts";
import { queued } from "./queue.ts";
import { type ReplaceAction, replaceReduce } from "./replace.ts";
import { keepSelection, reduceSelection, type SelectionAction, type SelectionState } from "./selection/reduce.ts";
import { afterStroke, awaitsGlyphs, refusalOf, restepped, type Stroke, stepped, withoutStroke } from "./stroke.ts";
import { START_OPTIONS, type ToolOptions } from "./tools/options.ts";
import type { Point } from "./tools/shapes.ts";
import type { GlyphSet } from "./tools/text.ts";
import { type Marks, type ToolName, toolOf } from "./tools/tools.ts";
import { firstValue, valueName } from "./values.ts";

/** A finished stroke, kept on the picture until the document shows it. */
export interface Sent {
  readonly id: number;
  readonly identity: BitmapIdentity;
  /** What changes in each frame that it is about. */
  readonly parts: readonly {
    readonly frame: number;
    readonly marks: Marks;
    /** The values before the stroke, as they were when it ended. */
    readonly before: Marks;
  }[];
  /** The version that has it. */
  readonly answered?: number;
}

export interface State extends SelectionState {
  readonly shown?: Shown;
  /** Why there is nothing to show now; what was shown before stays, but can't be painted. */
  readonly why?: string;
  readonly view: View;
  /** The side of a pixel in CSS pixels; fitted to the page where missing. */
  readonly zoom?: number;
  readonly tool: ToolName;
  /** The tool before the one that picks. */
  readonly toolBefore: ToolName;
  /** The raw value to paint with: a level, a colour or an index. */
  readonly level: number;
  /** The value that is to be replaced by it, where that is being chosen. */
  readonly replacing?: number;
  readonly options: ToolOptions;
  /** The glyph sets at hand, once Text has asked for them. */
  readonly sets?: readonly GlyphSet[];
  readonly frame: number;
  readonly cursor: Point;
  readonly playing: boolean;
  readonly motion: Motion;
  /** Another structure of the array is on its way. */
  readonly pending?: Pending;
  readonly stroke?: Stroke;
  readonly queue: readonly Sent[];
  readonly lastId: number;
  /** Words for the foot of the page. */
  readonly note: string;
}

export type Action =
  | ReplaceAction
  | SelectionAction
  | { readonly type: "show"; readonly shown: Shown }
  | { readonly type: "nothing"; readonly why: string }
  | { readonly type: "hostCursor"; readonly place: Place }
  | { readonly type: "view"; readonly view: View }
  | { readonly type: "zoom"; readonly zoom: number | undefined }
  | { readonly type: "tool"; readonly tool: ToolName }
  | { readonly type: "level"; readonly level: number }
  | { readonly type: "frame"; readonly frame: number }
  | { readonly type: "move"; readonly to: Point }
  /** `copy`: what is moved stays where it was too. */
  | { readonly type: "begin"; readonly at: Point; readonly copy?: boolean }
  | { readonly type: "drag"; readonly to: Point }
  /** `released`: the pointer was let go, which does not end a stroke that is typed. */
  | { readonly type: "end"; readonly released?: boolean }
  | { readonly type: "drop" }
  | { readonly type: "answered"; readonly id: number; readonly version: number }
  | { readonly type: "refused"; readonly id: number; readonly reason: string }
  | { readonly type: "playing"; readonly playing: boolean }
  | { readonly type: "motion"; readonly motion: MotionChange }
  | FrameAction
  | { readonly type: "say"; readonly note: string }
  | DrawingAction;

export const START: State = {
  view: "lit",
  tool: "draw",
  toolBefore: "draw",
  level: -1,
  options: START_OPTIONS,
  frame: 0,
  cursor: { x: 0, y: 0 },
  playing: false,
  motion: AT_REST,
  queue: [],
  lastId: 0,
  note: "",
};

export function reduce(state: State, action: Action): State {
  return reduceSelection(state, action) ?? keepSelection(state, reduceOther(state, action));
}

function reduceOther(state: State, action: Action): State {
  switch (action.type) {
    case "show":
      return show(state, action.shown);
    case "nothing":
      return nothing(state, action.why);
    case "hostCursor":
      return hostCursor(state, action.place);
    case "view":
      return { ...withoutStroke(state), view: action.view };
    case "zoom": {
      const { zoom: _, ...fitted } = state;
      return action.zoom === undefined ? fitted : { ...fitted, zoom: action.zoom };
    }
    case "tool":
      return {
        ...withoutStroke(state),
        tool: action.tool,
        toolBefore: keepsTool(state.tool) ? state.tool : state.toolBefore,
      };
    case "level":
      return restepped({ ...state, level: action.level });
    case "replacing":
    case "replace":
      return replaceReduce(state, action);
    case "frame":
      return toFrame(state, action.frame);
    case "move":
      return { ...state, cursor: clamp(state, action.to) };
    case "begin":
      return begin(state, action.at);
    case "drag":
      return drag(state, action.to);
    case "end":
      return action.released && toolOf(state.tool).typed ? state : end(state);
    case "drop":
      return state.stroke ? { ...withoutStroke(state), note: l10n.t("stroke dropped") } : state;
    case "answered": {
      const queue = state.queue.map((s) => (s.id === action.id ? { ...s, answered: action.version } : s));
      return { ...state, queue: settled(queue, state.shown) };
    }
    case "refused":
      return {
        ...state,
        queue: state.queue.filter((s) => s.id !== action.id),
        note: l10n.t("Not painted: {0}", action.reason),
      };
    case "playing":
      return { ...withoutStroke(state), playing: action.playing };
    case "motion":
      return { ...state, motion: changedMotion(state.motion, action.motion) };
    case "restructure":
    case "restructured":
    case "notRestructured":
      return reduceFrames(state, action);
    case "say":
      return { ...state, note: action.note };
    case "options":
    case "typed":
    case "sets":
    case "glyphs":
      return reduceDrawing(state, action);
    default:
      return state;
  }
}

/** The last picture stays with cursor, tool and frame: often the array is only half typed. */
function nothing(state: State, why: string): State {
  return {
    ...withoutStroke(state),
    why,
    playing: false,
    queue: state.queue.filter((s) => s.answered === undefined),
    note: state.stroke ? l10n.t("stroke dropped") : state.note,
  };
}

function show(state: State, shown: Shown): State {
  const { why, replacing, ...rest } = state;
  const { bitmap } = shown;
  const known = state.shown !== undefined && sameBitmap(state.shown.bitmap.identity, bitmap.identity);
  // Also with other frames or another size, of which undo is one.
  const same = state.shown !== undefined && sameArray(state.shown.bitmap.identity, bitmap.identity);
  const moved = (s: Sent) => (sameBitmap(s.identity, bitmap.identity) ? { ...s, identity: bitmap.identity } : s);
  const fits =
    state.level >= 0 && state.level <= bitmap.most && (known || state.shown?.bitmap.format === bitmap.format);
  // With no picture before, a level given from outside (kept from last time) stays if the format has it.
  const kept = state.shown === undefined && state.level >= 0 && state.level <= bitmap.most;
  const base: State = { ...rest, shown, level: fits || kept ? state.level : firstValue(bitmap) };
  const next: State = {
    ...(known || !state.stroke ? base : withoutStroke(base)),
    queue: settled(state.queue.map(moved), shown),
    motion: motionFor(state.motion, state.shown?.bitmap, bitmap, same || state.shown === undefined),
    frame: Math.min(same || state.shown === undefined ? state.frame : 0, bitmap.frames - 1),
    playing: state.playing && known && bitmap.frames > 1,
    note: noteFor(state, known, why !== undefined),
    ...(known && replacing !== undefined ? { replacing } : {}),
  };
  return arrived({ ...next, cursor: clamp(next, state.cursor) });
}

function noteFor(state: State, known: boolean, wasAway: boolean): string {
  if (!known && state.stroke) return l10n.t("stroke dropped: another bitmap is shown");
  return known && !wasAway ? state.note : "";
}

function hostCursor(state: State, place: Place): State {
  if (!state.shown || state.stroke || state.grip) return state;
  return toFrame({ ...state, cursor: clamp(state, place) }, place.frame);
}

function toFrame(state: State, frame: number): State {
  const last = (state.shown?.bitmap.frames ?? 1) - 1;
  const next = Math.max(0, Math.min(last, frame));
  return next === state.frame ? state : { ...withoutStroke(state), frame: next };
}

function begin(state: State, at: Point): State {
  const { shown, tool, frame, level } = state;
  if (!shown) return state;
  const cursor = clamp(state, at);
  if (!keepsTool(tool)) {
    const picked = pictureOf(state, frame)[cursor.y * shown.bitmap.width + cursor.x] ?? 0;
    const note = l10n.t("{0} picked", valueName(shown.bitmap, picked));
    return { ...state, cursor, level: picked, tool: state.toolBefore, note };
  }
  if (shown.readOnly) return { ...state, cursor, note: l10n.t("Not painted: this document can’t be changed") };
  if (state.why !== undefined) return { ...state, cursor, note: l10n.t("Not painted: {0}", state.why) };
  // The frame that it is meant for may be another one in a moment.
  if (state.pending) return { ...state, cursor, note: l10n.t("Not painted: the frames are being changed") };
  const refused = refusalOf(state, shown.bitmap);
  if (refused !== undefined) return { ...state, cursor, note: l10n.t("Not painted: {0}", refused) };
  // What was typed moves to where it is pressed.
  const text = toolOf(tool).typed ? (state.stroke?.text ?? "") : undefined;
  const first: Stroke = { tool, frame, level, from: cursor, to: cursor, marks: new Map(), text };
  const rest = withoutStroke(state);
  return { ...rest, cursor, playing: false, stroke: { ...first, marks: stepped(rest, first, cursor) }, note: "" };
}

function drag(state: State, to: Point): State {
  const { stroke, shown } = state;
  if (!stroke || !shown || (to.x === stroke.to.x && to.y === stroke.to.y)) return state;
  const marks = stepped(state, stroke, to);
  return { ...state, cursor: clamp(state, to), stroke: { ...stroke, to, marks } };
}

function end(state: State): State {
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

function clamp(state: State, at: Point): Point {
  const { width, height } = state.shown?.bitmap ?? { width: 1, height: 1 };
  return { x: Math.max(0, Math.min(width - 1, at.x)), y: Math.max(0, Math.min(height - 1, at.y)) };
}
