/** The cap on a level, after what the firmware's `drive` leaves of it. */
import type { Format } from "../pixels/formats.ts";

interface Capped {
  readonly cap: number | undefined;
  /** Share of full scale that the firmware drives. */
  readonly drive: number;
  readonly format: Pick<Format, "full">;
}

/**
 * Highest level whose driven value, rounded down as firmware does, is within the cap; undefined without a cap, or with
 * one that nothing exceeds.
 */
export function highest({ cap, drive, format }: Capped): number | undefined {
  if (cap === undefined) return undefined;
  const limit = Math.ceil((cap + 1) / drive - 1e-9) - 1;
  return limit >= format.full ? undefined : limit;
}

/** The level that pictures show as full light: the cap before `drive` takes its share, else the highest of the format. */
export function fullLight({ cap, drive, format }: Capped): number {
  return cap === undefined || cap === 0 ? format.full : Math.min(format.full, cap / drive);
}
