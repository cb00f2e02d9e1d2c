import { pixelsOf } from "../bitmap/resolve.ts";
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
    let value: number | undefined;
    for (let frame = 0; frame < bitmap.frames; frame++) {
      const pixels = pixelsOf(bitmap, frame);
      if (!pixels) return [];
      value ??= pixels[0] as number;
      for (let i = 0; i < pixels.length; i++) if (pixels[i] !== value) return [];
    }
    const message = `Every pixel of ${bitmap.array.name} is ${value}.`;
    return [{ code: "uniform", severity: "information", message, span: bitmap.array.nameSpan, data: {} }];
  },
  fixes: () => [],
};
