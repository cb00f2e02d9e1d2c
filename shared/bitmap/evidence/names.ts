/** A size in the array's name: `sun_16x16`, `digits8x12`. */
import type { Claim } from "./claim.ts";
import type { Subject } from "./subject.ts";

export function nameClaims({ array }: Subject): Claim[] {
  const claims: Claim[] = [];
  for (const m of array.name.matchAll(/(?:^|_|(?<=[A-Za-z]))(\d{1,4})[xX](\d{1,4})(?:[xX](\d{1,4}))?(?![0-9])/g)) {
    const [width, height] = [Number(m[1]), Number(m[2])];
    if (width < 1 || height < 1 || width * height < 8) continue;
    const ends = m.index + m[0].length === array.name.length;
    const evidence = `its name ${ends ? "ends in" : "holds"} ${m[0]}`;
    if (m[3]) claims.push({ width, height, frames: Number(m[3]), evidence, weight: 0.9, kind: "name" });
    claims.push({ width, height, evidence, weight: 0.88, kind: "name" });
  }
  return claims;
}
