import type { Span } from "../source/text.ts";

/** Something wrong with an `@motion`, on the word at fault; `suggestion` replaces that span. */
export interface MotionProblem extends Span {
  readonly message: string;
  readonly suggestion?: string | undefined;
}

export function at({ start, end }: Span, message: string, suggestion?: string): MotionProblem {
  return { start, end, message, suggestion };
}

/** What holds where an option is not given. */
export const USUAL = {
  mask: "radial",
  soft: 64,
  rim: 0,
  step: 15,
  loop: "once",
  ease: "linear",
  angle: 0,
  seed: 1,
} as const;
