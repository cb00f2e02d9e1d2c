/** What the page knows, and every way in which it changes; pure. */
import * as l10n from "@vscode/l10n";
import type { BitmapIdentity } from "../shared/bitmap/edit.ts";
import type { Place, Shown } from "../shared/protocol/webview.ts";
import { arrived, type FrameAction, type Pending, reduceFrames, sameArray } from "./frameEditing.ts";
import type { View } from "./look.ts";
import { AT_REST, changedMotion, type Motion, type MotionChange, motionFor } from "./motion.ts";
import { limitOf, pictureOf, sameBitmap, settled } from "./picture.ts";
import type { Point, Size } from "./tools/shapes.ts";
import { type Marks, type ToolName, toolOf } from "./tools/tools.ts";

/** A stroke under way. */
interface Stroke {
  readonly tool: ToolName;
  readonly frame: number;
  readonly level: number;
  readonly from: Point;
  readonly to: Point;
  readonly marks: Marks;
}

/** A finished stroke, kept on the picture until the document shows it. */
export interface Sent {
  readonly id: number;
  readonly identity: BitmapIdentity;
  readonly frame: number;
  readonly marks: Marks;
  /** The values before the stroke, as they were when it ended. */
  readonly before: Marks;
  /** The version that has it. */
  readonly answered?: number;
}

export interface State {
  readonly shown?: Shown;
  /** Why there is nothing to show now; what was shown before stays, but can't be painted. */
  readonly why?: string;
  readonly view: View;
  /** The side of a pixel in CSS pixels; fitted to the page where missing. */
  readonly zoom?: number;
  readonly tool: ToolName;
  /** The tool before the one that picks. */
  readonly toolBefore: ToolName;
  readonly level: number;
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
  | { readonly type: "show"; readonly shown: Shown }
  | { readonly type: "nothing"; readonly why: string }
  | { readonly type: "hostCursor"; readonly place: Place }
  | { readonly type: "view"; readonly view: View }
  | { readonly type: "zoom"; readonly zoom: number | undefined }
  | { readonly type: "tool"; readonly tool: ToolName }
  | { readonly type: "level"; readonly level: number }
  | { readonly type: "frame"; readonly frame: number }
  | { readonly type: "move"; readonly to: Point }
  | { readonly type: "begin"; readonly at: Point }
  | { readonly type: "drag"; readonly to: Point }
  | { readonly type: "end" }
  | { readonly type: "drop" }
  | { readonly type: "answered"; readonly id: number; readonly version: number }
  | { readonly type: "refused"; readonly id: number; readonly reason: string }
  | { readonly type: "playing"; readonly playing: boolean }
  | { readonly type: "motion"; readonly motion: MotionChange }
  | FrameAction
  | { readonly type: "say"; readonly note: string };

export const START: State = {
  view: "lit",
  tool: "draw",
  toolBefore: "draw",
  level: -1,
  frame: 0,
  cursor: { x: 0, y: 0 },
  playing: false,
  motion: AT_REST,
  queue: [],
  lastId: 0,
  note: "",
};

export function reduce(state: State, action: Action): State {
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
      return { ...state, level: action.level };
    case "frame":
      return toFrame(state, action.frame);
    case "move":
      return { ...state, cursor: clamp(state, action.to) };
    case "begin":
      return begin(state, action.at);
    case "drag":
      return drag(state, action.to);
    case "end":
      return end(state);
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
  const { why, ...rest } = state;
  const { bitmap } = shown;
  const known = state.shown !== undefined && sameBitmap(state.shown.bitmap.identity, bitmap.identity);
  // Also with other frames or another size, of which undo is one.
  const same = state.shown !== undefined && sameArray(state.shown.bitmap.identity, bitmap.identity);
  const moved = (s: Sent) => (sameBitmap(s.identity, bitmap.identity) ? { ...s, identity: bitmap.identity } : s);
  const fits = state.level >= 0 && state.level <= bitmap.most && (known || state.shown?.bitmap.most === bitmap.most);
  // With no picture before, a level given from outside (kept from last time) stays if the format has it.
  const kept = state.shown === undefined && state.level >= 0 && state.level <= bitmap.most;
  const base: State = { ...rest, shown, level: fits || kept ? state.level : (limitOf(bitmap) ?? bitmap.most) };
  const next: State = {
    ...(known || !state.stroke ? base : withoutStroke(base)),
    queue: settled(state.queue.map(moved), shown),
    motion: motionFor(state.motion, state.shown?.bitmap, bitmap, same || state.shown === undefined),
    frame: Math.min(same || state.shown === undefined ? state.frame : 0, bitmap.frames - 1),
    playing: state.playing && known && bitmap.frames > 1,
    note: noteFor(state, known, why !== undefined),
  };
  return arrived({ ...next, cursor: clamp(next, state.cursor) });
}

function noteFor(state: State, known: boolean, wasAway: boolean): string {
  if (!known && state.stroke) return l10n.t("stroke dropped: another bitmap is shown");
  return known && !wasAway ? state.note : "";
}

function hostCursor(state: State, place: Place): State {
  if (!state.shown || state.stroke) return state;
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
  const pixels = pictureOf(state, frame);
  if (!keepsTool(tool)) {
    const picked = pixels[cursor.y * shown.bitmap.width + cursor.x] ?? 0;
    return { ...state, cursor, level: picked, tool: state.toolBefore, note: l10n.t("level {0} picked", picked) };
  }
  if (shown.readOnly) return { ...state, cursor, note: l10n.t("Not painted: this document can’t be changed") };
  if (state.why !== undefined) return { ...state, cursor, note: l10n.t("Not painted: {0}", state.why) };
  // The frame that it is meant for may be another one in a moment.
  if (state.pending) return { ...state, cursor, note: l10n.t("Not painted: the frames are being changed") };
  const first: Stroke = { tool, frame, level, from: cursor, to: cursor, marks: new Map() };
  const marks = stepped(first, cursor, () => pixels, shown.bitmap);
  return { ...state, cursor, playing: false, stroke: { ...first, marks }, note: "" };
}

function drag(state: State, to: Point): State {
  const { stroke, shown } = state;
  if (!stroke || !shown) return state;
  const marks = stepped(stroke, to, () => pictureOf(withoutStroke(state), stroke.frame), shown.bitmap);
  return { ...state, cursor: clamp(state, to), stroke: { ...stroke, to, marks } };
}

function stepped(stroke: Stroke, to: Point, pixels: () => ArrayLike<number>, size: Size): Marks {
  const { step } = toolOf(stroke.tool);
  const { from, to: last, level, marks } = stroke;
  return step ? step({ pixels, size, from, last, to, level, marks }) : marks;
}

function end(state: State): State {
  const { stroke, shown } = state;
  if (!stroke || !shown) return state;
  const rest = withoutStroke(state);
  const pixels = pictureOf(rest, stroke.frame);
  const changed = [...stroke.marks].filter(([index, value]) => pixels[index] !== value);
  if (changed.length === 0) return rest;
  const before = new Map(changed.map(([index]) => [index, pixels[index] ?? 0]));
  const id = state.lastId + 1;
  const { identity } = shown.bitmap;
  const sent: Sent = { id, identity, frame: stroke.frame, marks: new Map(changed), before };
  return { ...rest, lastId: id, queue: [...state.queue, sent] };
}

function withoutStroke(state: State): State {
  const { stroke: _, ...rest } = state;
  return rest;
}

/** Picking is for once: the tool before comes back. */
function keepsTool(tool: ToolName): boolean {
  return toolOf(tool).step !== undefined;
}

function clamp(state: State, at: Point): Point {
  const { width, height } = state.shown?.bitmap ?? { width: 1, height: 1 };
  return { x: Math.max(0, Math.min(width - 1, at.x)), y: Math.max(0, Math.min(height - 1, at.y)) };
}
