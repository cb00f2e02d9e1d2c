/** How frames are played and looked at beside each other; pure. */
import type { BitmapInfo } from "../shared/protocol/lsp.ts";
import type { Shown } from "../shared/protocol/webview.ts";

/** What comes after the last frame: the first, the one before, or nothing. */
export type Mode = "loop" | "back" | "once";
const MODES: readonly Mode[] = ["loop", "back", "once"];

/** Speed where the source gives none. */
const USUAL_FPS = 10;
/** Fastest speed that can be chosen: no screen shows more. */
export const MOST_FPS = 240;
/** Speeds to step through. */
const SPEEDS = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 24, 25, 30, 40, 50, 60, 80, 100, 120];

export interface Motion {
  readonly mode: Mode;
  /** A speed tried out; that of the source where missing. */
  readonly fps?: number;
  /** The frame before or after is seen faintly. */
  readonly before: boolean;
  readonly after: boolean;
  /** Pixels that differ from the frame before are marked. */
  readonly changes: boolean;
  /** Playing waits for an answer, as light would flash: what is asked. */
  readonly asking?: string;
  /** Ways of playing that the user has allowed, though light flashes in them. */
  readonly allowed: readonly string[];
}

export const AT_REST: Motion = { mode: "loop", before: false, after: false, changes: false, allowed: [] };

/** Some of it, changed; undefined takes a speed or a question away. */
export type MotionChange = { readonly [K in keyof Motion]?: Motion[K] | undefined };

export function changedMotion(motion: Motion, change: MotionChange): Motion {
  const { fps, asking, ...rest } = { ...motion, ...change };
  return {
    ...(rest as Motion),
    ...(fps === undefined ? {} : { fps }),
    ...(asking === undefined ? {} : { asking }),
  };
}

/** What of it is kept with the page: no question, and nothing that was allowed. */
export type KeptMotion = Pick<Motion, "mode" | "fps" | "before" | "after" | "changes">;

export function motionKept({ mode, fps, before, after, changes }: Motion): KeptMotion {
  return { mode, before, after, changes, ...(fps === undefined ? {} : { fps }) };
}

/** What was kept from last time, as far as it is still understood. */
export function motionFrom(kept: unknown): Partial<KeptMotion> {
  if (typeof kept !== "object" || kept === null) return {};
  const { mode, fps, ...given } = kept as Readonly<Record<string, unknown>>;
  const known = MODES.find((one) => one === mode);
  const seen = (["before", "after", "changes"] as const).filter((what) => typeof given[what] === "boolean");
  return {
    ...Object.fromEntries(seen.map((what) => [what, given[what] === true])),
    ...(known ? { mode: known } : {}),
    ...(typeof fps === "number" && fps > 0 && fps <= MOST_FPS ? { fps } : {}),
  };
}

/** Another bitmap is looked at as it is; what was allowed stays so. A question is about the frames as they were. */
export function motionFor(motion: Motion, before: BitmapInfo | undefined, now: BitmapInfo, same: boolean): Motion {
  if (!same) return { ...AT_REST, allowed: motion.allowed };
  const asked = before?.fps === now.fps && before?.frames === now.frames;
  return asked ? motion : changedMotion(motion, { asking: undefined });
}

/** Frames a second at which it plays. */
export function speedOf({ fps }: Motion, shown: Pick<Shown, "bitmap"> | undefined): number {
  return fps ?? shown?.bitmap.fps ?? USUAL_FPS;
}

export function nextSpeed(fps: number, by: 1 | -1): number {
  const ahead = SPEEDS.filter((speed) => (by > 0 ? speed > fps : speed < fps));
  return (by > 0 ? ahead[0] : ahead[ahead.length - 1]) ?? fps;
}

/** A speed as typed; undefined for what is none. */
export function parseSpeed(text: string): number | undefined {
  const fps = /^\d+(?:[.,]\d{1,3})?$/.test(text.trim()) ? Number(text.trim().replace(",", ".")) : 0;
  return fps > 0 && fps <= MOST_FPS ? fps : undefined;
}

/** The frames of one run. */
export function runOf(mode: Mode, frames: number): number[] {
  const there = Array.from({ length: frames }, (_, i) => i);
  return mode === "back" ? [...there, ...there.slice(1, -1).reverse()] : there;
}

/** The frame after so many steps from `first`, and whether the run is over; there and back begins forwards. */
export function frameAfter(mode: Mode, frames: number, first: number, steps: number, once: boolean) {
  const run = runOf(mode, frames);
  const place = first + steps;
  // Once there and back ends where it began.
  const last = mode === "back" ? run.length : run.length - 1;
  if ((mode === "once" || once) && place > last) return { frame: run[last % run.length] as number, over: true };
  return { frame: run[place % run.length] as number, over: false };
}

/** The frame that comes before one, and the one after it; undefined where none does. */
export function besides({ mode }: Pick<Motion, "mode">, frames: number, frame: number) {
  const wraps = mode === "loop" && frames > 1;
  const before = frame > 0 ? frame - 1 : wraps ? frames - 1 : undefined;
  const after = frame < frames - 1 ? frame + 1 : wraps ? 0 : undefined;
  return { before, after };
}

/** How many pixels differ. */
export function differing(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let count = 0;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) count++;
  return count;
}
