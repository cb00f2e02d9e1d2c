import type { Rule } from "./rules.ts";

/** Annotated arrays that have no picture because something about them is not known. */
export const unreadable: Rule = {
  codes: ["unreadable"],
  doc: "The values of an annotated array, or how its pixels lie in it, can't be known from the file.",
  checkBitmap: (_text, bitmap) => {
    if (bitmap.why === undefined) return [];
    const { array } = bitmap;
    const at = array.readOnly === undefined ? undefined : array.readOnlySpan;
    const span = at ? { start: array.base + at.start, end: array.base + at.end } : array.nameSpan;
    const message = `${array.name} can't be shown as a picture: ${bitmap.why}.`;
    return [
      {
        code: "unreadable",
        severity: bitmap.instead === undefined ? "warning" : "information",
        message,
        span,
        data: {},
      },
    ];
  },
  fixes: () => [],
};
