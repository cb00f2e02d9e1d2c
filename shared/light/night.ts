/** What is left of levels where the firmware dims all of a display for the night. */

export interface Night {
  /** Highest level by night and by day. */
  readonly night: number;
  readonly day: number;
  /** Share of full scale that the firmware drives by day. */
  readonly drive: number;
}

/** The level that is driven by night: all are scaled by night/day and rounded down, as firmware does. */
export function nightLevel({ night, day, drive }: Night): (level: number) => number {
  const share = day > 0 ? (drive * night) / day : 0;
  return (level) => Math.floor(level * share + 1e-9);
}

/** The lowest level that still gives light by night; undefined where none does. */
export function lowestLit({ night, day, drive }: Night): number | undefined {
  return night > 0 && day > 0 ? Math.ceil(day / (drive * night) - 1e-9) : undefined;
}
