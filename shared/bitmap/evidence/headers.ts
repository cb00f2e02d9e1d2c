/** First elements that give the size of what follows: `{ 16, 16, 0x00, … }`. */
import type { Claim } from "./claim.ts";
import type { Subject } from "./subject.ts";

export function headerClaims({ bits, size, count, pictured }: Subject): Claim[] {
  if (!pictured || size === 64 || count < 10) return [];
  const claims: Claim[] = [];
  const add = (width: number, height: number, skip: number, frames: number) => {
    if (width < 4 || height < 4 || width > 4096 || height > 4096) return;
    const evidence = `its first ${skip} elements give ${width} and ${height}`;
    claims.push({ width, height, skip, frames, weight: 0.77, evidence, kind: "header" });
  };
  const at = (i: number) => Number(bits[i]);
  add(at(0), at(1), 2, 1);
  if (size === 8) {
    add(at(0) + 256 * at(1), at(2) + 256 * at(3), 4, 1);
    add(256 * at(0) + at(1), 256 * at(2) + at(3), 4, 1);
  }
  add(at(0), at(1), 3, at(2));
  return claims;
}
