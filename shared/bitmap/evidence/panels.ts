/** A panel of the file whose pixels the array fills exactly. */
import type { Claim } from "./claim.ts";
import type { Subject } from "./subject.ts";

export function panelClaims({ file, pictured, size, count }: Subject): Claim[] {
  return file.panels.flatMap(({ name, options }): Claim[] => {
    const { width = 0, height = 0, format } = options;
    if (width * height < 8) return [];
    const depth = format?.depth ?? 8;
    const one = width * height * depth === count * size;
    // Only one frame of a size that is no power of two hardly comes about by chance.
    const telling = one && count >= 32 && (count & (count - 1)) !== 0;
    if (!pictured && !telling) return [];
    const weight = pictured ? (one ? 0.78 : 0.62) : 0.6;
    return [{ width, height, panel: name, weight, kind: "panel", evidence: `it fills the panel \`${name}\` exactly` }];
  });
}
