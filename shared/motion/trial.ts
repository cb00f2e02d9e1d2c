/** Tries live code out: the first frames are played, and what goes wrong in them is told. */
import { highest } from "../light/limit.ts";
import { levelOf } from "../pixels/colour.ts";
import type { SourceArray } from "../source/arrays.ts";
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
  readonly warning: boolean;
}

/** By all that the outcome depends on. While somebody types elsewhere, nothing is played again. */
const kept = new Map<string, Tried | undefined>();
const MOST_KEPT = 64;

export interface Trial extends Problem {
  /** It plays, but not as it should. */
  readonly warning: boolean;
}

/** What goes wrong in the first frames of a motion that plays; undefined where nothing does. */
export function trialOf(motion: LiveMotion): Trial | undefined {
  const { call, bitmap } = motion;
  if (!call || !bitmap) return undefined;
  const { lexemes } = call.cx;
  const key = keyOf(motion, lexemes);
  if (!kept.has(key)) {
    if (kept.size >= MOST_KEPT) kept.delete(kept.keys().next().value as string);
    kept.set(key, tried(motion, lexemes));
  }
  const known = kept.get(key);
  if (!known) return undefined;
  const { message, first, last, warning } = known;
  return { message, warning, start: lexemes[first]?.start ?? 0, end: lexemes[last]?.end ?? 0 };
}

function tried(motion: LiveMotion, lexemes: readonly Lexeme[]): Tried | undefined {
  const player = playerOf(motion);
  if (!player) return undefined;
  let left = STEPS;
  const at = (start: number, end: number) => ({ first: indexAt(lexemes, start), last: indexBefore(lexemes, end) });
  const limit = highest(player.bitmap);
  for (let frame = 0; frame < FRAMES && left > 0; frame++) {
    try {
      const pixels = player.frame(frame);
      const { format, palette } = player.bitmap;
      if (limit !== undefined)
        for (const value of pixels) {
          const level = levelOf(format, value, palette?.colours);
          if (level <= limit) continue;
          const message = `Frame ${frame} of \`${motion.name}\` holds the value ${level}; the cap is ${limit}.`;
          return { message, warning: true, ...at(motion.nameSpan.start, motion.nameSpan.end) };
        }
    } catch (error) {
      if (!(error instanceof Stopped)) throw error;
      const again = frame === 0 ? "" : ` (First in frame ${frame}.)`;
      return { message: error.message + again, warning: false, ...at(error.span.start, error.span.end) };
    }
    left -= player.steps();
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
  const { width, height, format, cap, drive } = bitmap ?? {};
  const texts = lexemes.map((l) => (l.array ? `{${idOf(l.array)}` : l.text)).join("\u0001");
  return [name, words, fps, width, height, format?.name, cap, drive, call?.cx.target, texts].join("\u0002");
}

function indexAt(lexemes: readonly Lexeme[], offset: number): number {
  const found = lexemes.findIndex((l) => l.start >= offset);
  return found < 0 ? lexemes.length - 1 : found;
}

function indexBefore(lexemes: readonly Lexeme[], offset: number): number {
  for (let i = lexemes.length - 1; i >= 0; i--) if ((lexemes[i] as Lexeme).end <= offset) return i;
  return 0;
}
