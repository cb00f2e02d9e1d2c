/** What the page knows, and every way in which it changes; pure. Each kind of change has a file of its own. */
import * as l10n from "@vscode/l10n";
import type { Place, Shown } from "../shared/protocol/webview.ts";
import { type DrawingAction, reduceDrawing } from "./drawing.ts";
import { type FrameAction, type Pending, reduceFrames } from "./frameEditing.ts";
import type { Shows, View } from "./look.ts";
import { AT_REST, changedMotion, type Motion, type MotionChange } from "./motion.ts";
import { begin, chosen, drag, end } from "./painting.ts";
import { type QueueAction, reduceQueue, type Sent } from "./queue.ts";
import { whyNot } from "./refusal.ts";
import { type ReplaceAction, replaceReduce } from "./replace.ts";
import { keepSelection, reduceSelection, type SelectionAction, type SelectionState } from "./selection/reduce.ts";
import { hostCursor, nothing, show, toFrame } from "./showing.ts";
import { restepped, type Stroke, withoutStroke } from "./stroke.ts";
import { START_OPTIONS, type ToolOptions } from "./tools/options.ts";
import { nearestIn, type Point, type Size } from "./tools/shapes.ts";
import type { GlyphSet } from "./tools/text.ts";
import { type ToolName, toolOf } from "./tools/tools.ts";
import { keepProbing, reduceWiring, type WiringAction, type WiringState } from "./wiring/probing.ts";

export interface State extends SelectionState, WiringState {
  readonly shown?: Shown;
  /** Why there is nothing to show now; what was shown before stays, but can't be painted. */
  readonly why?: string;
  readonly view: View;
  readonly shows: Shows;
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
  | WiringAction
  | { readonly type: "show"; readonly shown: Shown }
  | { readonly type: "nothing"; readonly why: string }
  | { readonly type: "hostCursor"; readonly place: Place }
  | { readonly type: "view"; readonly view: View }
  | { readonly type: "shows"; readonly shows: Shows }
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
  | QueueAction
  | { readonly type: "playing"; readonly playing: boolean }
  | { readonly type: "motion"; readonly motion: MotionChange }
  | FrameAction
  | { readonly type: "say"; readonly note: string }
  | DrawingAction;

export const START: State = {
  view: "lit",
  shows: "seen",
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
      return keepProbing(show(state, action.shown));
    case "wiring":
    case "probe":
      return reduceWiring(state, action);
    case "nothing":
      return nothing(state, action.why);
    case "hostCursor":
      return hostCursor(state, action.place);
    case "view":
      return { ...withoutStroke(state), view: action.view };
    case "shows":
      return { ...state, shows: action.shows };
    case "zoom": {
      const { zoom: _, ...fitted } = state;
      return action.zoom === undefined ? fitted : { ...fitted, zoom: action.zoom };
    }
    case "tool":
      return chosen(state, action.tool);
    case "level":
      return restepped({ ...state, level: action.level });
    case "replacing":
    case "replace":
      return replaceReduce(state, action);
    case "frame":
      return toFrame(state, action.frame);
    case "move":
      return { ...state, cursor: nearestIn(state.shown?.bitmap ?? NO_SIZE, action.to) };
    case "begin":
      return begin(state, action.at);
    case "drag":
      return drag(state, action.to);
    case "end":
      return action.released && toolOf(state.tool).typed ? state : end(state);
    case "drop":
      return state.stroke ? { ...withoutStroke(state), note: l10n.t("stroke dropped") } : state;
    case "answered":
    case "refused":
      return reduceQueue(state, action);
    case "playing":
      return { ...withoutStroke(state), playing: action.playing };
    case "motion":
      return { ...state, motion: changedMotion(state.motion, action.motion) };
    case "restructure": {
      // A stroke under way is meant for the frames as they are: it goes first, or they wait for it.
      const ended = whyNot(state) === undefined ? end(state) : state;
      return ended.stroke ? ended : reduceFrames(ended, action);
    }
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

const NO_SIZE: Size = { width: 1, height: 1 };
