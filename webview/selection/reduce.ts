/** How the selection, and what floats over the picture, change; pure. */
import * as l10n from "@vscode/l10n";
import { pictureOf, sameBitmap } from "../picture.ts";
import { queued } from "../queue.ts";
import type { Action, State } from "../state.ts";
import type { Point } from "../tools/shapes.ts";
import type { Marks } from "../tools/tools.ts";
import { pixelCount } from "../words.ts";
import { type Change, changeOf } from "./change.ts";
import { covered, type Float, holds, lost, marksOf } from "./float.ts";
import { lift, type Piece } from "./piece.ts";
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
  if (shown !== before.shown && before.shown && !(shown && sameShape(before, after))) {
    const note = float ? l10n.t("What floated was dropped: another bitmap is shown") : after.note;
    return { ...after, ...NOTHING, note };
  }
  if (float && after.tool !== before.tool) return putDown(after);
  if (float && float.frame !== after.frame)
    return float.from ? putDown(after) : { ...after, float: { ...float, frame: after.frame }, grip: undefined };
  // A step without Shift begins anew.
  return after.corner && after.cursor !== before.cursor ? { ...after, corner: undefined } : after;
}

const NOTHING = { selection: undefined, float: undefined, grip: undefined, corner: undefined };

function sameShape({ shown: a }: State, { shown: b }: State): boolean {
  if (!a || !b) return false;
  const [one, other] = [a.bitmap, b.bitmap];
  return one.width === other.width && one.height === other.height && sameBitmap(one.identity, other.identity);
}

/** Why nothing can be changed now, in words. */
export function whyNot({ shown, why }: State): string | undefined {
  if (!shown) return undefined;
  if (shown.readOnly) return l10n.t("Not painted: this document can’t be changed");
  return why === undefined ? undefined : l10n.t("Not painted: {0}", why);
}

function selected(state: State, selection: Selection | undefined): State {
  if (state.float) return state;
  const note = selection ? selectionWords(selection) : l10n.t("nothing is selected");
  return { ...state, selection, playing: false, note };
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
  const note = l10n.t("{0} of level {1} selected", pixelCount(selection?.count ?? 0), value);
  return state.float ? state : { ...state, selection, playing: false, note };
}

function selectText(state: State, pixels: readonly number[]): State {
  const { shown, float, grip, stroke } = state;
  if (!shown || float || grip || stroke) return state;
  if (pixels.length === 0) return state.selection?.byText ? { ...state, selection: undefined } : state;
  const selection = ofIndexes(shown.bitmap, pixels);
  return selection ? { ...selected(state, { ...selection, byText: true }), corner: undefined } : state;
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

/** Takes up the selected pixels, or a copy of them; all of the picture where nothing is selected. */
function lifted(state: State, copy: boolean): State {
  const { shown, frame } = state;
  const refused = whyNot(state);
  if (!shown || state.float || state.stroke) return state;
  if (refused !== undefined) return { ...state, note: refused };
  const selection = state.selection ?? everything(shown.bitmap);
  const float: Float = {
    piece: lift(pictureOf(state, frame), selection),
    at: { x: selection.x, y: selection.y },
    frame,
    before: state.selection,
    ...(copy ? {} : { from: selection }),
  };
  const note = copy ? l10n.t("A copy is moved") : l10n.t("Pixels are moved");
  return { ...state, float, selection: undefined, playing: false, note: `${note}: ${floatKeys()}` };
}

/** How what floats is used. */
function floatKeys(): string {
  return l10n.t("arrows move, Enter puts down, Escape drops");
}

function floatBy(state: State, { x, y }: Point): State {
  const { float, shown } = state;
  if (!float || !shown) return state;
  const at = within({ x: float.at.x + x, y: float.at.y + y }, float, shown.bitmap);
  return { ...state, float: { ...float, at }, note: floatWords({ ...float, at }) };
}

/** At least one row and column of what floats stay over the picture. */
function within({ x, y }: Point, { piece }: Float, size: { readonly width: number; readonly height: number }): Point {
  const keep = (value: number, own: number, all: number) => Math.max(1 - own, Math.min(all - 1, value)) || 0;
  return { x: keep(x, piece.width, size.width), y: keep(y, piece.height, size.height) };
}

function floatWords({ piece: { width, height }, at }: Float): string {
  return l10n.t("{0}×{1} pixels at column {2}, row {3}", width, height, at.x, at.y);
}

/** Writes what floats as one stroke. */
function putDown(state: State): State {
  const { float, shown } = state;
  if (!float || !shown) return state;
  const refused = whyNot(state);
  if (refused !== undefined) return { ...state, note: refused };
  const size = shown.bitmap;
  const rest: State = { ...state, float: undefined, grip: undefined };
  const done = queued(rest, new Map([[float.frame, marksOf(float, size)]]));
  const selection = float.pasted ? undefined : covered(float, size);
  const note = lostWords(l10n.t("{0} put down", floatWords(float)), lost(float, size));
  return { ...done, selection, note };
}

function lostWords(done: string, count: number): string {
  if (count === 0) return done;
  const what =
    count === 1
      ? l10n.t("1 pixel that was lit fell outside: undo brings it back")
      : l10n.t("{0} pixels that were lit fell outside: undo brings them back", count);
  return `${done}; ${what}`;
}

/** Pasted pixels come where the selection is, else as near to the cursor as they fit. */
function paste(state: State, piece: Piece, note: string): State {
  const { shown, frame, cursor } = state;
  const refused = whyNot(state);
  if (!shown) return state;
  if (refused !== undefined) return { ...state, note: refused };
  const written = state.float ? putDown(state) : state;
  const { width, height } = shown.bitmap;
  const { x, y } = written.selection ?? {
    x: Math.max(0, Math.min(cursor.x, width - piece.width)),
    y: Math.max(0, Math.min(cursor.y, height - piece.height)),
  };
  const float: Float = { piece, at: { x, y }, frame, before: written.selection, pasted: true };
  const { stroke: _, ...rest } = written;
  return { ...rest, ...NOTHING, float, tool: "select", playing: false, note: `${note}: ${floatKeys()}` };
}

function change(state: State, wanted: Change): State {
  const { shown, float } = state;
  const refused = whyNot(state);
  if (!shown || state.stroke || state.grip) return state;
  if (refused !== undefined) return { ...state, note: refused };
  const { words, run } = changeOf(wanted, shown.bitmap, state.level);
  if (float) return { ...state, float: { ...float, ...run(float) }, note: words };
  const size = shown.bitmap;
  const from = state.selection ?? everything(size);
  const marks = new Map<number, Marks>();
  let [outside, now]: [number, Selection | undefined] = [0, undefined];
  for (const frame of state.allFrames ? shown.frames.keys() : [state.frame]) {
    const taken = { piece: lift(pictureOf(state, frame), from), at: { x: from.x, y: from.y } };
    const done: Float = { ...run(taken), frame, from };
    marks.set(frame, marksOf(done, size));
    outside += lost(done, size);
    now ??= covered(done, size);
  }
  const selection = state.selection && now;
  return { ...queued({ ...state, playing: false }, marks), selection, note: lostWords(words, outside) };
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
  const { width, height } = shown.bitmap;
  const cursor = { x: Math.max(0, Math.min(width - 1, to.x)), y: Math.max(0, Math.min(height - 1, to.y)) };
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
