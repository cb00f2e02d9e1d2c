import { elementsOf } from "../bitmap/resolve.ts";
import { strayBits } from "../pixels/picture.ts";
import { elementOfSlot, elementSpan } from "../source/arrays.ts";
import { rewriteElements } from "../source/rewrite.ts";
import type { BitmapFinding, Rule } from "./rules.ts";
import { bitmapOf, MOST_FINDINGS, withRest } from "./rules.ts";

/** Bits that are set outside all pixels: often a sign of a wrong width, bit order or padding. */
export const paddingBits: Rule = {
  codes: ["padding-bits"],
  doc: "Bits are set in the unused part of a row, column or band.",
  checkBitmap: (_text, bitmap) => {
    const bits = bitmap.why === undefined ? elementsOf(bitmap) : undefined;
    if (!bits || !bitmap.layout) return [];
    const { array } = bitmap;
    const stray = strayBits(bits, bitmap.layout);
    const findings: BitmapFinding[] = [];
    let more = 0;
    for (const { element, cleared } of stray) {
      const at = elementOfSlot(array, element);
      if (at < 0) continue;
      if (findings.length >= MOST_FINDINGS) {
        more++;
        continue;
      }
      const digits = (array.type?.bits ?? 8) / 4;
      const hex = (v: bigint) => `0x${v.toString(16).toUpperCase().padStart(digits, "0")}`;
      const message = `Bits outside the ${bitmap.width}×${bitmap.height} picture are set: ${hex(BigInt(bits[element] as number | bigint))} would be ${hex(cleared)} without them.`;
      findings.push({
        code: "padding-bits",
        severity: "warning",
        message,
        span: elementSpan(array, at),
        data: { element, cleared: cleared.toString() },
      });
    }
    return withRest(findings, more);
  },
  fixes: (file, finding) => {
    const bitmap = bitmapOf(file, finding);
    const { element, cleared } = finding.data;
    if (!bitmap || typeof element !== "number" || typeof cleared !== "string") return [];
    const rewritten = rewriteElements(file.source.text, bitmap.array, [{ slot: element, bits: BigInt(cleared) }]);
    if ("refused" in rewritten) return [];
    return [{ kind: "clear", title: "Clear the unused bits", edits: rewritten.edits, preferred: true }];
  },
};
