/**
 * How many documents a property is tried with: all of them in `npm test`, a part in `npm run test:fast` (vitest's mode
 * `fast`), which is run at every step of the work and should take no longer than one waits for.
 */
const SHARE = Number(process.env.PROPERTY_SHARE ?? 1);

export function runs(count: number): number {
  return Math.ceil(count * SHARE);
}
