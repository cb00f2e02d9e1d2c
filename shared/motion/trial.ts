/** Tries live code out: the first frames are played, and what goes wrong in them is told. */
import { identityOf } from "../bitmap/edit.ts";
import type { Bitmap } from "../bitmap/resolve.ts";
import { highest } from "../light/limit.ts";
import { levelOf } from "../pixels/colour.ts";
import type { Pixels } from "../pixels/picture.ts";
import type { SourceArray } from "../source/arrays.ts";
import type { Span } from "../source/text.ts";
import type { Problem } from "./interpret/context.ts";
import { Stopped } from "./interpret/machine.ts";
import type { Lexeme } from "./interpret/tokens.ts";
import type { LiveMotion } from "./live.ts";
import { playerOf } from "./play.ts";

/** What is tried: steps of all frames together, about 30 ms of work, and frames. */
const STEPS = 4_000_000;
const FRAMES = 64;

interface Tried {
  readonly message: string;
  /** Indices of tokens. */
  readonly first: number;
  readonly last: number;
  readonly kind: TrialKind;
}

/** It stops there; or it plays, but exceeds the cap, or flashes. */
type TrialKind = "stops" | "over-cap" | "flashing";

/** By all that the outcome depends on. While somebody types elsewhere, nothing is played again. */
const kept = new Map<string, readonly Tried[]>();
const MOST_KEPT = 64;

export interface Trial extends Problem {
  readonly kind: TrialKind;
}

/** What is to be said of how frames flash, which is judged where all else of light is. */
export type JudgeFlashes = (bitmap: Bitmap, fps: number, frames: readonly Pixels[]) => readonly string[];

/** What goes wrong in the first frames of a motion that plays. */
export function trialsOf(motion: LiveMotion, judge: JudgeFlashes): readonly Trial[] {
  const { call, bitmap } = motion;
  if (!call || !bitmap) return [];
  const { lexemes } = call.cx;
  const key = keyOf(motion, lexemes);
  const found = kept.get(key) ?? tried(motion, lexemes, judge);
  if (!kept.has(key) && kept.size >= MOST_KEPT) kept.delete(kept.keys().next().value as string);
  kept.set(key, found);
  return found.map(({ message, first, last, kind }) => {
    return { message, kind, start: lexemes[first]?.start ?? 0, end: lexemes[last]?.end ?? 0 };
  });
}

function tried(motion: LiveMotion, lexemes: readonly Lexeme[], judge: JudgeFlashes): Tried[] {
  const player = playerOf(motion);
  const found: Tried[] = [];
  if (!player) return found;
  const at = ({ start, end }: Span) => ({ first: indexAt(lexemes, start), last: indexBefore(lexemes, end) });
  const { bitmap } = player;
  const name = at(motion.nameSpan);
  const frames: Pixels[] = [];
  let left = STEPS;
  for (let frame = 0; frame < FRAMES && left > 0; frame++) {
    try {
      const pixels = player.frame(frame);
      frames.push(pixels);
      const level = overCap(bitmap, pixels);
      if (level !== undefined && found.length === 0) {
        const message = `Frame ${frame} of \`${motion.name}\` holds the value ${level}; the cap is ${bitmap.cap}.`;
        found.push({ message, kind: "over-cap", ...name });
      }
    } catch (error) {
      if (!(error instanceof Stopped)) throw error;
      const again = frame === 0 ? "" : ` (First in frame ${frame}.)`;
      found.push({ message: error.message + again, kind: "stops", ...at(error.span) });
      break;
    }
    left -= player.steps();
  }
  for (const message of judge(bitmap, motion.fps, frames)) found.push({ message, kind: "flashing", ...name });
  return found;
}

/** The first level of a frame that the cap does not allow. */
function overCap(bitmap: Bitmap, pixels: Pixels): number | undefined {
  const limit = highest(bitmap);
  if (limit === undefined) return undefined;
  const { format, palette } = bitmap;
  for (const value of pixels) {
    const level = levelOf(format, value, palette?.colours);
    if (level > limit) return level;
  }
  return undefined;
}

const ids = new WeakMap<object, number>();
let lastId = 0;

/** A list of numbers that did not change is the same object in the next version of the text. */
function idOf({ list }: SourceArray): number {
  if (!list) return -1;
  const known = ids.get(list) ?? ++lastId;
  ids.set(list, known);
  return known;
}

function keyOf({ annotation, name, fps, bitmap, call }: LiveMotion, lexemes: readonly Lexeme[]): string {
  const words = annotation.words.map((w) => w.text).join(" ");
  const { cap, drive, light, palette, options } = bitmap ?? {};
  const { tint, pitch, distance } = options ?? {};
  const shape = bitmap && identityOf(bitmap).structure;
  const seen = [cap, drive, light, tint, pitch, distance, palette?.colours.join()];
  return [name, words, fps, shape, ...seen, call?.cx.target, textOf(lexemes)].join("\u0002");
}

const texts = new WeakMap<readonly Lexeme[], string>();

/** All tokens of a file; its lists of numbers by what they are known by. */
function textOf(lexemes: readonly Lexeme[]): string {
  const known = texts.get(lexemes) ?? lexemes.map((l) => (l.array ? `{${idOf(l.array)}` : l.text)).join("\u0001");
  texts.set(lexemes, known);
  return known;
}

function indexAt(lexemes: readonly Lexeme[], offset: number): number {
  const found = lexemes.findIndex((l) => l.start >= offset);
  return found < 0 ? lexemes.length - 1 : found;
}

function indexBefore(lexemes: readonly Lexeme[], offset: number): number {
  for (let i = lexemes.length - 1; i >= 0; i--) if ((lexemes[i] as Lexeme).end <= offset) return i;
  return 0;
}
