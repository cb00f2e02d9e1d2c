import type { BitmapFile } from "../../shared/bitmap/resolve.ts";

/** Sizes that many displays and fonts have: common practice, no source. */
const USUAL_SIZES = ["5x7", "8x8", "16x16", "128x32", "128x64"];

/** Sizes that this file uses, and usual ones that it does not. */
export function sizesFor(file: BitmapFile): { readonly used: readonly string[]; readonly usual: readonly string[] } {
  const used = new Set(
    file.source.annotations.flatMap((a) => a.words.filter((w) => /^\d{1,5}x\d{1,5}$/.test(w.text)).map((w) => w.text)),
  );
  return { used: [...used].slice(0, 20), usual: USUAL_SIZES.filter((s) => !used.has(s)) };
}
