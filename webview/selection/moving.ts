/** Pixels taken up, moved, pasted and put down, and what is done to those selected; pure. */
import * as l10n from "@vscode/l10n";
import { pictureOf } from "../picture.ts";
import { queued } from "../queue.ts";
import { notPainted } from "../refusal.ts";
import type { State } from "../state.ts";
import type { Point } from "../tools/shapes.ts";
import type { Marks } from "../tools/tools.ts";
import { type Change, changeOf } from "./change.ts";
import { covered, type Float, lost, marksOf } from "./float.ts";
import { lift, type Piece } from "./piece.ts";
import { everything, type Selection } from "./selection.ts";

/** Nothing selected, floating or held. */
export const NOTHING = { selection: undefined, float: undefined, grip: undefined, corner: undefined };

/** Takes up the selected pixels, or a copy of them; all of the picture where nothing is selected. */
export function lifted(state: State, copy: boolean): State {
  const { shown, frame } = state;
  const refused = notPainted(state);
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
export function floatKeys(): string {
  return l10n.t("arrows move, Enter puts down, Escape drops");
}

export function floatBy(state: State, { x, y }: Point): State {
  const { float, shown } = state;
  if (!float || !shown) return state;
  const at = within({ x: float.at.x + x, y: float.at.y + y }, float, shown.bitmap);
  return { ...state, float: { ...float, at }, note: floatWords({ ...float, at }) };
}

/** At least one row and column of what floats stay over the picture. */
export function within(
  { x, y }: Point,
  { piece }: Float,
  size: { readonly width: number; readonly height: number },
): Point {
  const keep = (value: number, own: number, all: number) => Math.max(1 - own, Math.min(all - 1, value)) || 0;
  return { x: keep(x, piece.width, size.width), y: keep(y, piece.height, size.height) };
}

export function floatWords({ piece: { width, height }, at }: Float): string {
  return l10n.t("{0}×{1} pixels at column {2}, row {3}", width, height, at.x, at.y);
}

/** Writes what floats as one stroke. */
export function putDown(state: State): State {
  const { float, shown } = state;
  if (!float || !shown) return state;
  const refused = notPainted(state);
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

/** Of pixels that a turn has come to lie on. */
function coverWords(done: string, count: number): string {
  if (count === 0) return done;
  const what =
    count === 1 ? l10n.t("1 lit pixel beside it is covered") : l10n.t("{0} lit pixels beside it are covered", count);
  return `${done}; ${what}`;
}

/** Pasted pixels come where the selection is, else as near to the cursor as they fit. */
export function paste(state: State, piece: Piece, note: string): State {
  const { shown, frame, cursor } = state;
  const refused = notPainted(state);
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

export function change(state: State, wanted: Change): State {
  const { shown, float } = state;
  const refused = notPainted(state);
  if (!shown || state.stroke || state.grip) return state;
  if (refused !== undefined) return { ...state, note: refused };
  const { words, run } = changeOf(wanted, shown.bitmap, state.level);
  if (float) return { ...state, float: { ...float, ...run(float) }, note: words };
  const size = shown.bitmap;
  const from = state.selection ?? everything(size);
  const marks = new Map<number, Marks>();
  let [outside, over, now]: [number, number, Selection | undefined] = [0, 0, undefined];
  for (const frame of state.allFrames ? shown.frames.keys() : [state.frame]) {
    const pixels = pictureOf(state, frame);
    const done: Float = { ...run({ piece: lift(pixels, from), at: { x: from.x, y: from.y } }), frame, from };
    const changes = marksOf(done, size);
    marks.set(frame, changes);
    outside += lost(done, size);
    for (const index of changes.keys()) if (from.mask[index] === 0 && pixels[index] !== 0) over++;
    now ??= covered(done, size);
  }
  const selection = state.selection && now;
  const note = lostWords(coverWords(words, over), outside);
  return { ...queued({ ...state, playing: false }, marks), selection, note };
}
