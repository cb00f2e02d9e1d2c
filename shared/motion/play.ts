/** Plays live code: frame after frame, from the first. */
import type { Bitmap } from "../bitmap/resolve.ts";
import type { ElementBits, Pixels } from "../pixels/picture.ts";
import { unpack } from "../pixels/picture.ts";
import { Stopped } from "./interpret/machine.ts";
import { bounded, call, frameSteps, restart } from "./interpret/run.ts";
import type { LiveMotion } from "./live.ts";
import type { Buffer, Call, Meaning } from "./signature.ts";

export interface Player {
  readonly bitmap: Bitmap;
  /**
   * Raw values of a frame, row by row. Frames before it are played first, as variables keep their values; going back
   * begins anew. Throws `Stopped` where the code can't go on.
   */
  frame(n: number): Pixels;
  /** Steps that the last frame took. */
  steps(): number;
}

/** One for each motion: it runs on a machine of which there is one. */
const players = new WeakMap<LiveMotion, Player>();

/** Values of frames that are kept, so that going back need not play again. */
const MOST_KEPT = 1 << 21;

/** undefined for a motion that does not play. */
export function playerOf(motion: LiveMotion): Player | undefined {
  const { bitmap, call } = motion;
  if (!bitmap || !call) return undefined;
  const player = players.get(motion) ?? newPlayer(bitmap, call, motion.fps);
  players.set(motion, player);
  return player;
}

function newPlayer(bitmap: Bitmap, how: Call, fps: number): Player {
  const { machine } = how.cx;
  const budget = frameSteps(bitmap.width * bitmap.height);
  let next = 0;
  let begun = false;
  let steps = 0;
  let failed: { readonly at: number; readonly error: unknown } | undefined;
  /** Frames from the first on. */
  const kept: Pixels[] = [];
  const most = Math.floor(MOST_KEPT / (bitmap.width * bitmap.height));
  return {
    bitmap,
    frame(n) {
      const known = kept[n];
      if (known) {
        steps = 0;
        return known;
      }
      if (failed && n >= failed.at) throw failed.error;
      let pixels: Pixels | undefined;
      if (!begun || n < next) {
        try {
          restart(how.cx);
        } catch (error) {
          throw bounded(error, how.entry.routine.span);
        }
        begun = true;
        next = 0;
      }
      while (next <= n) {
        machine.now = (next * 1000) / fps;
        machine.left = budget;
        try {
          pixels = how.perPixel ? byPixel(how, bitmap, next, fps) : filled(how, bitmap, next, fps);
        } catch (error) {
          failed = { at: next, error: bounded(error, how.entry.routine.span) };
          throw failed.error;
        } finally {
          steps = budget - machine.left;
        }
        if (kept.length === next && next < most) kept.push(pixels);
        next++;
      }
      return pixels as Pixels;
    },
    steps: () => steps,
  };
}

function byPixel(how: Call, bitmap: Bitmap, frame: number, fps: number): Pixels {
  const { width, height, format } = bitmap;
  const { most, depth, kind } = format;
  const out =
    depth <= 8
      ? new Uint8Array(width * height)
      : depth <= 16
        ? new Uint16Array(width * height)
        : new Uint32Array(width * height);
  const args = how.meanings.map((m) => given(m, bitmap, frame, fps, how));
  const x = how.meanings.indexOf("x");
  const y = how.meanings.indexOf("y");
  for (let i = 0; i < out.length; i++) {
    args[x] = i % width;
    args[y] = Math.floor(i / width);
    const value = Math.trunc(Number(call(how.cx, how.entry, args)));
    if (kind === "mono") out[i] = value === 0 ? 0 : 1;
    else if (value >= 0 && value <= most) out[i] = value;
    else
      throw new Stopped(
        `The pixel ${args[x]},${args[y]} of frame ${frame} gets ${value}; ${format.name} goes from 0 to ${most}.`,
        how.entry.routine.span,
      );
  }
  return out;
}

function filled(how: Call, bitmap: Bitmap, frame: number, fps: number): Pixels {
  const { layout, invert } = bitmap;
  const buffer = how.buffer as Buffer;
  if (!layout) throw new Stopped("The frame's layout is not known.", how.entry.routine.span);
  call(
    how.cx,
    how.entry,
    how.meanings.map((m) => given(m, bitmap, frame, fps, how)),
  );
  return unpack(elementsIn(how, buffer), layout, 0, invert);
}

/** The buffer's elements as they are now. */
function elementsIn({ cx: { machine } }: Call, { address, elements, bits }: Buffer): ElementBits {
  const size = elements * (bits / 8);
  const bytes = machine.bytes.slice(address, address + size);
  if (bits === 8) return bytes;
  if (bits === 16) return new Uint16Array(bytes.buffer);
  return bits === 32 ? new Uint32Array(bytes.buffer) : new BigUint64Array(bytes.buffer);
}

/** The value of a parameter, before it is brought to its type. */
function given(meaning: Meaning, { width, height }: Bitmap, frame: number, fps: number, how: Call): number {
  switch (meaning) {
    case "frame":
      return frame;
    case "ms":
      return Math.floor((frame * 1000) / fps);
    case "seconds":
      return frame / fps;
    case "width":
      return width;
    case "height":
      return height;
    case "buffer":
      return how.buffer?.address ?? 0;
    default:
      return 0;
  }
}
