/**
 * Live code: functions of the source that are marked `@motion … code` and fill a pixel or a frame. Start here.
 * `liveMotions` finds them, `playerOf` plays one frame after the other.
 */
import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import { bitmapWith } from "../bitmap/resolve.ts";
import type { Word } from "../source/annotationSyntax.ts";
import type { SourceArray } from "../source/arrays.ts";
import type { BoundAnnotation } from "../source/read.ts";
import type { Span } from "../source/text.ts";
import type { IntType } from "../source/types.ts";
import type { Context, Problem, Routine } from "./interpret/context.ts";
import { readProgram } from "./interpret/globals.ts";
import { Stopped } from "./interpret/machine.ts";
import { bounded, entryOf } from "./interpret/run.ts";
import type { Call } from "./signature.ts";
import { bufferOf, signatureOf } from "./signature.ts";

/** Frames a second where neither the annotation nor the bitmap tells. */
const USUAL_FPS = 30;

export interface LiveMotion {
  readonly annotation: BoundAnnotation;
  /** The function's name, and where it stands. */
  readonly name: string;
  readonly nameSpan: Span;
  readonly fps: number;
  /** What its frames look like; it has no numbers of its own. undefined where that is not known. */
  readonly bitmap: Bitmap | undefined;
  /** How it is called; undefined where it can't be. */
  readonly call: Call | undefined;
  /** What can't be played, in order; those that are `passed` over do not keep it from playing. */
  readonly problems: readonly Problem[];
  /** Why it does not play: the first of the problems. */
  readonly why: string | undefined;
}

const kept = new WeakMap<BitmapFile, readonly LiveMotion[]>();

/** The code motions of a file, in the order of its text. */
export function liveMotions(file: BitmapFile): readonly LiveMotion[] {
  const known = kept.get(file);
  if (known) return known;
  const made = file.source.annotations.filter(isCode).map((annotation) => motionOf(file, annotation));
  kept.set(file, made);
  return made;
}

function isCode({ marker, words }: BoundAnnotation): boolean {
  return marker === "motion" && words.some((w) => w.text === "code");
}

function motionOf(file: BitmapFile, annotation: BoundAnnotation): LiveMotion {
  const cx = readProgram(file.source, /\.c$/i.test(file.file));
  const problems: Problem[] = [];
  const routine = routineAfter(cx, file, annotation);
  const none = { annotation, fps: USUAL_FPS, bitmap: undefined, call: undefined };
  const { markerSpan } = annotation;
  if (!routine) {
    const message = "`code` stands before no function: it must come right before one that has a body in this file.";
    return { ...none, name: "", nameSpan: markerSpan, problems: [{ ...markerSpan, message }], why: message };
  }
  const { name, span: nameSpan } = routine;
  const said = fpsOf(annotation, problems);
  let bitmap: Bitmap | undefined;
  let call: Call | undefined;
  let unknown: string | undefined;
  try {
    // First, so that all of its problems are told, whatever else is wrong.
    const entry = entryOf(cx, routine);
    const buffer = bufferOf(cx, file, annotation);
    bitmap = buffer?.bitmap ?? panelBitmap(file, annotation, routine, buffer?.element);
    call = signatureOf(cx, entry, bitmap, buffer);
  } catch (thrown) {
    const error = bounded(thrown, routine.span);
    if (!(error instanceof Stopped)) throw error;
    // A word that names no panel is a finding of the annotation already.
    if (!(error instanceof NoPanel)) problems.push({ ...error.span, message: error.message });
    else unknown = error.message;
  }
  const told = new Set<string>();
  for (const problem of cx.problems.filter((p) => relevant(p, cx))) {
    // A condition is told once, however often something hangs on it.
    if (problem.token !== undefined && told.has(problem.message)) continue;
    told.add(problem.message);
    problems.push(problem);
  }
  problems.sort((a, b) => a.start - b.start);
  const why = problems.find((p) => !p.passed)?.message ?? unknown;
  const fps = said ?? bitmap?.options.fps ?? USUAL_FPS;
  if (bitmap)
    bitmap = {
      ...bitmap,
      frames: 1,
      options: { ...bitmap.options, fps },
      array: arrayNamed(bitmap.array, routine, cx),
    };
  return { annotation, name, nameSpan, fps, bitmap, call: why === undefined ? call : undefined, problems, why };
}

/** A condition that is not decided is only told where it has to do with what is played. */
function relevant({ token }: Problem, cx: Context): boolean {
  if (token === undefined) return true;
  return cx.compiled.some(({ within: { routine } }) => {
    return routine.body !== undefined && token >= routine.body && token < (cx.ends.get(routine) ?? 0);
  });
}

/** The function right after an annotation: nothing is declared between. */
function routineAfter(cx: Context, { source }: BitmapFile, { end }: BoundAnnotation): Routine | undefined {
  let found: Routine | undefined;
  for (const meaning of cx.globals.values()) {
    if (meaning.kind !== "routines") continue;
    for (const routine of meaning.routines) {
      const { span, name, body } = routine;
      if (body === undefined || span.start < end || source.text.slice(span.start, span.end) !== name) continue;
      if (!found || span.start < found.span.start) found = routine;
    }
  }
  if (!found) return undefined;
  const { start } = found.span;
  const between = cx.lexemes.some((l) => l.start >= end && l.start < start && /^[;{}]$/.test(l.text));
  return between ? undefined : found;
}

function fpsOf({ words }: BoundAnnotation, problems: Problem[]): number | undefined {
  const word = words.find((w) => w.key === "fps");
  if (!word) return undefined;
  const fps = Number(word.value);
  if (/^\d+(?:\.\d+)?$/.test(word.value ?? "") && fps > 0 && fps <= 1000) return fps;
  problems.push({
    ...spanOf(word),
    message: `\`${word.value}\` is no speed: frames a second, above 0 and up to 1000.`,
  });
  return undefined;
}

class NoPanel extends Stopped {}

/** The panel that the annotation names, as a bitmap of one frame. */
function panelBitmap(
  file: BitmapFile,
  { words, markerSpan }: BoundAnnotation,
  routine: Routine,
  element: IntType | undefined,
): Bitmap {
  const word = words.find((w) => w.key === undefined && w.text !== "code");
  const panel = word && file.known.get(word.text)[0];
  if (!panel && word) throw new NoPanel(`No panel \`${word.text}\` is known.`, word);
  if (!panel)
    throw new Stopped(
      "Code needs the name of a panel, or `buffer=` with the name of a bitmap, to know the size of its frames.",
      markerSpan,
    );
  const wanted: IntType = { kind: "int", bits: 32, signed: false };
  const first = bitmapWith(panel.name, synthetic(routine, element ?? wanted, 1 << 24), file);
  const depth = first?.format.depth ?? 8;
  const type: IntType = element ?? { kind: "int", bits: depth <= 8 ? 8 : depth <= 16 ? 16 : 32, signed: false };
  const bitmap = bitmapWith(panel.name, synthetic(routine, type, 1 << 24), file);
  if (!bitmap) throw new Stopped(`The panel \`${panel.name}\` does not say what its pixels are.`, markerSpan);
  return bitmap;
}

/** An array that stands for the frames of a function. */
function synthetic({ name, span }: Routine, type: IntType, count: number): SourceArray {
  return {
    name,
    nameSpan: span,
    ordinal: 0,
    siblings: 1,
    declaration: span,
    base: span.end,
    node: 0,
    first: 0,
    elided: false,
    list: undefined,
    type,
    dimensions: [],
    count,
    given: count,
    slots: undefined,
    gaps: [],
    excess: 0,
    readOnly: undefined,
  };
}

/** The array under the function's name, declared from its first word to the end of its body. */
function arrayNamed(array: SourceArray, routine: Routine, cx: Context): SourceArray {
  const { start } = routine.span;
  const end = cx.lexemes[(cx.ends.get(routine) ?? 1) - 1]?.end ?? start;
  const first = cx.lexemes.findIndex((l) => l.start === start);
  let head = first;
  while (head > 0 && !/^[;}]$/.test(cx.lexemes[head - 1]?.text ?? "") && (cx.lexemes[head - 1]?.start ?? 0) < start)
    head--;
  const declaration = { start: cx.lexemes[head]?.start ?? start, end };
  const type: IntType = array.type ?? { kind: "int", bits: 8, signed: false };
  return { ...synthetic(routine, type, array.count), declaration };
}

function spanOf({ start, end }: Word): Span {
  return { start, end };
}
