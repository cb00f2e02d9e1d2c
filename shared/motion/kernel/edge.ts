/**
 * The moving edge. `d` is how far a mask value lies above the position; the soft width and the rim are distances to
 * both sides of the edge, `rim` at most `soft`:
 *
 *     inside = smoothstep(−soft, −rim, d)                  how much of the image is uncovered
 *     light  = inside · (1 − smoothstep(rim, soft, d))     how much of the edge's own light is added
 *
 * Where soft = rim both are hard steps, step(e, x) = x ≥ e. As rim is not negative, one of the two factors of `light`
 * is always 0 or 1, so both come from one flank of soft − rim steps. They are held in whole numbers: `inside` in 255ths
 * and `light` in levels, each rounded once, so that a controller of 8 bits follows exactly.
 */
import { smoothstep } from "./smoothstep.ts";

export interface Edge {
  readonly soft: number;
  readonly rim: number;
  /** Light of the edge where it is full, 0 to 255. */
  readonly level: number;
  /** round(255 · smoothstep) of n of the soft − rim steps of the flank; one number more than steps. Hard: only the 255. */
  readonly inside: Uint8Array;
  /** round(level · smoothstep), likewise. */
  readonly light: Uint8Array;
}

/** Widest soft edge. */
export const MOST_SOFT = 1023;

/** Throws a RangeError for widths that are no edge. */
export function edgeOf(soft: number, rim: number, level: number): Edge {
  const whole = [soft, rim, level].every(Number.isInteger);
  if (!whole || rim < 0 || soft < rim || soft > MOST_SOFT || level < 0 || level > 255)
    throw new RangeError(`soft=${soft} rim=${rim} level=${level} is no edge`);
  const steps = soft - rim;
  const flank = (full: number) =>
    Uint8Array.from({ length: steps + 1 }, (_, n) => (steps === 0 ? full : smoothstep(n, steps, full)));
  return { soft, rim, level, inside: flank(255), light: flank(level) };
}

/** How much of the image is uncovered at a distance, 0 to 255. */
export function insideAt({ soft, rim, inside }: Edge, d: number): number {
  if (d >= -rim) return 255;
  return d <= -soft ? 0 : (inside[d + soft] as number);
}

/** The edge's own light at a distance, 0 to `level`. */
export function lightAt({ soft, rim, level, light }: Edge, d: number): number {
  if (soft === rim) return d >= -rim && d < rim ? level : 0;
  const away = Math.abs(d);
  if (away <= rim) return level;
  return away >= soft ? 0 : (light[soft - away] as number);
}

/** The lowest position at which a mask whose highest value is `most` is wholly covered. */
export function coveredFrom({ soft, rim }: Pick<Edge, "soft" | "rim">, most: number): number {
  // A hard step counts the edge itself as inside.
  return most + soft + (soft === rim ? 1 : 0);
}

/** The highest position at which a mask whose lowest value is `least` is wholly uncovered, and no edge is seen. */
export function uncoveredTo({ soft }: Pick<Edge, "soft">, least: number): number {
  return least - soft;
}
