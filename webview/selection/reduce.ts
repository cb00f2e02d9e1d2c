/** How the selection changes; what is taken up and moved is in `moving.ts`. Pure. */
import * as l10n from "@vscode/l10n";
import { pictureOf, sameBitmap } from "../picture.ts";
import type { Action, State } from "../state.ts";
import { nearestIn, type Point } from "../tools/shapes.ts";
import { valueName } from "../values.ts";
import { pixelCount } from "../words.ts";
import type { Change } from "./change.ts";
import { type Float, holds } from "./float.ts";
import { change, floatBy, floatKeys, floatWords, lifted, NOTHING, paste, putDown, within } from "./moving.ts";
import type { Piece } from "./piece.ts";
import { everything, ofIndexes, ofValue, rectangle, type Selection, selectionWords } from "./selection.ts";

/** What the page knows of it, as a part of its state. */
export interface SelectionState {
  readonly selection?: Selection | undefined;
  readonly float?: Float | undefined;
  /** What the pointer holds. */
  readonly grip?: Grip | undefined;
  /** Where a selection by keyboard begins. */
  readonly corner?: Point | undefined;
  /** What is done is done to all frames. */
  readonly allFrames?: boolean;
}

interface Grip {
  readonly from: Point;
  /** Where the float was; missing while a rectangle is drawn. */
  readonly home?: Point;
  /** The pixels were taken up by this grip, which puts them down too. */
  readonly lifted: boolean;
  readonly before: Selection | undefined;
}

export type SelectionAction =
  /** The rectangle from where the cursor was first to here. */
  | { readonly type: "selectTo"; readonly to: Point }
  | { readonly type: "selectAll" }
  /** All pixels of the value under the cursor. */
  | { readonly type: "selectLevel" }
  /** The pixels whose numbers are selected in the text; none takes back what came from there. */
  | { readonly type: "selectText"; readonly pixels: readonly number[] }
  /** Escape: what is under way, what floats, or else the selection. */
  | { readonly type: "letGo" }
  | { readonly type: "lift"; readonly copy: boolean }
  | { readonly type: "floatBy"; readonly by: Point }
  | { readonly type: "putDown" }
  | { readonly type: "paste"; readonly piece: Piece; readonly note: string }
  | { readonly type: "change"; readonly change: Change }
  | { readonly type: "allFrames"; readonly on: boolean };

/** The state after an action that is about the selection; undefined for any other. */
export function reduceSelection(state: State, action: Action): State | undefined {
  switch (action.type) {
    case "selectTo":
      return selectTo(state, action.to);
    case "selectAll":
      return state.shown && selected(state, everything(state.shown.bitmap));
    case "selectLevel":
      return selectLevel(state);
    case "selectText":
      return selectText(state, action.pixels);
    case "letGo":
      return letGo(state);
    case "lift":
      return lifted(state, action.copy);
    case "floatBy":
      return floatBy(state, action.by);
    case "putDown":
      return putDown(state);
    case "paste":
      return paste(state, action.piece, action.note);
    case "change":
      return change(state, action.change);
    case "allFrames":
      return { ...state, allFrames: action.on };
    case "begin":
      return begin(state, action.at, action.copy === true);
    case "drag":
      return state.grip && drag(state, state.grip, action.to);
    case "end":
      return state.grip && end(state, state.grip);
    case "drop":
      return state.grip && letGo(state);
    default:
      return undefined;
  }
}

/** What an action that is not about the selection leaves of it. */
export function keepSelection(before: State, after: State): State {
  const { shown, selection, float } = after;
  if (!selection && !float && !after.corner) return after;
  if (shown !== before.shown && before.shown) {
    const note = float ? l10n.t("What floated was dropped: another bitmap is shown") : after.note;
    if (!shown || !sameShape(before, after)) return { ...after, ...NOTHING, note };
    // Its frame may be another one now.
    if (float && !sameBitmap(before.shown.bitmap.identity, shown.bitmap.identity))
      return { ...after, float: undefined, grip: undefined, selection: float.before, note: l10n.t("move dropped") };
  }
  if (float && after.pending && !before.pending) {
    const { pending, ...now } = after;
    return { ...putDown(now), pending };
  }
  if (float && after.tool !== before.tool) return putDown(after);
  if (float && float.frame !== after.frame)
    return float.from ? putDown(after) : { ...after, float: { ...float, frame: after.frame }, grip: undefined };
  // A step without Shift begins anew.
  return after.corner && after.cursor !== before.cursor ? { ...after, corner: undefined } : after;
}

/** The same array with pictures of the same size, also with more or fewer of them. */
function sameShape({ shown: a }: State, { shown: b }: State): boolean {
  if (!a || !b) return false;
  const [one, other] = [a.bitmap, b.bitmap];
  if (one.width !== other.width || one.height !== other.height) return false;
  return sameBitmap({ ...one.identity, structure: "" }, { ...other.identity, structure: "" });
}

function selected(state: State, selection: Selection | undefined): State {
  if (state.float) return state;
  const note = selection ? selectionWords(selection) : l10n.t("nothing is selected");
  return { ...state, selection, corner: undefined, playing: false, note };
}

function selectTo(state: State, to: Point): State {
  const { shown, cursor, corner = cursor } = state;
  if (!shown || state.float || state.stroke) return state;
  return { ...selected(state, rectangle(shown.bitmap, corner, to)), cursor: to, corner };
}

function selectLevel(state: State): State {
  const { shown, cursor, frame } = state;
  if (!shown) return state;
  const pixels = pictureOf({ ...state, float: undefined }, frame);
  const value = pixels[cursor.y * shown.bitmap.width + cursor.x] ?? 0;
  const selection = ofValue(shown.bitmap, pixels, value);
  const { bitmap } = shown;
  const what = bitmap.kind === "mono" ? l10n.t("level {0}", value) : valueName(bitmap, value);
  const note = l10n.t("{0} of {1} selected", pixelCount(selection?.count ?? 0), what);
  return state.float ? state : { ...state, selection, playing: false, note };
}

function selectText(state: State, pixels: readonly number[]): State {
  const { shown, float, grip, stroke } = state;
  if (!shown || float || grip || stroke) return state;
  if (pixels.length === 0) return state.selection?.byText ? { ...state, selection: undefined } : state;
  const selection = ofIndexes(shown.bitmap, pixels);
  return selection ? selected(state, { ...selection, byText: true }) : state;
}

function letGo(state: State): State {
  const { grip, float, selection } = state;
  if (grip && !grip.home)
    return { ...state, grip: undefined, selection: grip.before, note: l10n.t("selection dropped") };
  // Pasted pixels that are being dragged only go back to where they were.
  if (grip?.home && float && !grip.lifted) return { ...state, grip: undefined, float: { ...float, at: grip.home } };
  if (float) {
    const note = float.pasted ? l10n.t("paste dropped") : l10n.t("move dropped");
    return { ...state, grip: undefined, float: undefined, selection: float.before, note };
  }
  if (!selection) return state;
  return { ...state, ...NOTHING, note: l10n.t("nothing is selected") };
}

/** Presses of the pointer that are about the selection: anywhere with its tool, and wherever something floats. */
function begin(state: State, at: Point, copy: boolean): State | undefined {
  const { float, selection, shown, tool } = state;
  if (!shown || (!float && tool !== "select")) return undefined;
  const grip = { from: at, before: selection };
  if (float) {
    if (!holds(float, at)) return { ...putDown(state), cursor: at };
    return { ...state, grip: { ...grip, home: float.at, lifted: false } };
  }
  if (selection?.mask[at.y * shown.bitmap.width + at.x] === 1) {
    const taken = lifted({ ...state, cursor: at }, copy);
    return taken.float ? { ...taken, grip: { ...grip, home: taken.float.at, lifted: true } } : taken;
  }
  return { ...state, ...NOTHING, cursor: at, playing: false, note: "", grip: { ...grip, lifted: false } };
}

function drag(state: State, { from, home }: Grip, to: Point): State {
  const { float, shown } = state;
  if (!shown) return state;
  if (home && float) {
    const at = within({ x: home.x + to.x - from.x, y: home.y + to.y - from.y }, float, shown.bitmap);
    return { ...state, float: { ...float, at } };
  }
  const cursor = nearestIn(shown.bitmap, to);
  // A press without a move selects nothing.
  if (!state.selection && cursor.x === from.x && cursor.y === from.y) return state;
  return { ...state, cursor, selection: rectangle(shown.bitmap, from, cursor) };
}

function end(state: State, { home, lifted: own, before }: Grip): State {
  const { float, selection } = state;
  const rest: State = { ...state, grip: undefined };
  if (!home || !float) {
    if (!selection) return before ? { ...rest, note: l10n.t("nothing is selected") } : rest;
    return { ...rest, note: selectionWords(selection) };
  }
  if (!own) return { ...rest, note: `${floatWords(float)}: ${floatKeys()}` };
  const moved = float.at.x !== home.x || float.at.y !== home.y;
  return moved ? putDown(rest) : { ...rest, float: undefined, selection: before, note: "" };
}
