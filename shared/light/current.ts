/**
 * Estimated current of a picture. A lit pixel draws the current of its channels, each by its share of time lit; where
 * `full` is the peak of a scanned display, a row has it only while it is driven (`duty`). A dark pixel draws `idle`.
 * Always an estimate: parts, cables and supplies differ.
 */

export interface Supply {
  /** Milliamperes of one channel at full value. */
  readonly full: number;
  /** Milliamperes of a dark pixel. */
  readonly idle: number;
  /** Share of time that a row is driven, above 0 and up to 1. */
  readonly duty: number;
}

/** Milliamperes of a pixel whose channels give these shares (0–1) of full light. */
export function currentOfPixel(shares: readonly number[], { full, idle, duty }: Supply): number {
  let sum = 0;
  for (const share of shares) sum += share;
  return sum > 0 ? full * duty * sum : idle;
}
