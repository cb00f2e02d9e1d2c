/** A panel that the file knows whose pixels the array fills exactly. */
import { panelsOf } from "../../light/panelIndex.ts";
import type { Claim } from "./claim.ts";
import type { Subject } from "./subject.ts";

export function panelClaims({ file, array, pictured, size, count }: Subject): Claim[] {
  return panelsOf(file.known).flatMap(({ name, options }): Claim[] => {
    const { width = 0, height = 0, format } = options;
    if (width * height < 8) return [];
    const depth = format?.depth ?? 8;
    const one = width * height * depth === count * size;
    // Only one frame of a size that is no power of two hardly comes about by chance.
    const telling = one && count >= 32 && (count & (count - 1)) !== 0;
    if (!pictured && !telling) return [];
    // Frames that the dimensions count are as good as one.
    const inner = array.dimensions.slice(1).reduce((product, d) => product * (d.size ?? 0), 1);
    const framed = array.dimensions.length > 1 && width * height * depth === inner * size;
    const weight = pictured ? (one || framed ? 0.78 : 0.52) : 0.6;
    return [{ width, height, panel: name, weight, kind: "panel", evidence: `it fills the panel \`${name}\` exactly` }];
  });
}
