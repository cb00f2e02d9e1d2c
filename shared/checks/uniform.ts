import type { Bitmap } from "../bitmap/resolve.ts";
import { elementsOf, pixelsOf } from "../bitmap/resolve.ts";
import { valueInWords } from "../pixels/colour.ts";
import type { Layout } from "../pixels/layout.ts";
import type { Rule } from "./rules.ts";

/** Pictures in which every pixel of every frame has one value: nothing is drawn yet, or something went wrong. */
export const uniform: Rule = {
  codes: ["uniform"],
  doc: "Every pixel of all frames has the same value.",
  checkBitmap: (_text, bitmap) => {
    if (bitmap.why !== undefined || bitmap.width * bitmap.height * bitmap.frames < 2) return [];
    // Elements that are not written are the business of `length`.
    if (bitmap.array.given < bitmap.array.count || !bitmap.layout || bitmap.array.count < bitmap.layout.elements)
      return [];
    if (differsAtOnce(bitmap, bitmap.layout)) return [];
    let value: number | undefined;
    for (let frame = 0; frame < bitmap.frames; frame++) {
      const pixels = pixelsOf(bitmap, frame);
      if (!pixels) return [];
      value ??= pixels[0] as number;
      for (let i = 0; i < pixels.length; i++) if (pixels[i] !== value) return [];
    }
    const message = `Every pixel of ${bitmap.array.name} is ${valueInWords(bitmap.format, value ?? 0, bitmap.palette?.colours)}.`;
    return [{ code: "uniform", severity: "information", message, span: bitmap.array.nameSpan, data: {} }];
  },
  fixes: () => [],
};

/** Whether elements that are pixels themselves differ: nearly every picture is told so without being laid out. */
function differsAtOnce(bitmap: Bitmap, layout: Layout): boolean {
  const bits = elementsOf(bitmap);
  if (!bits || layout.elementBits !== layout.format.depth) return false;
  const first = layout.skip + layout.lead;
  for (let i = first + 1; i < layout.skip + layout.frameElements; i++) if (bits[i] !== bits[first]) return true;
  return false;
}
