import { describe, expect, it } from "vitest";
import { annotationsIn } from "../../../shared/source/annotationSyntax.ts";

/** Marker and words of each annotation of a text that is one comment; every span is checked against its text. */
function markersIn(comment: string): string[][] {
  const before = "int x; ";
  const text = `${before}${comment}\nint y;`;
  const span = { start: before.length, end: before.length + comment.length };
  return annotationsIn(text, span).map((a) => {
    expect(text.slice(a.markerSpan.start, a.markerSpan.end)).toBe(`@${a.marker}`);
    expect(a.start).toBe(a.markerSpan.start);
    expect(a.end).toBe(a.words[a.words.length - 1]?.end ?? a.markerSpan.end);
    expect(a.comment).toEqual(span);
    for (const word of a.words) {
      expect(text.slice(word.start, word.end)).toBe(word.text);
      if (word.key !== undefined) {
        expect(`${word.key}=${word.value}`).toBe(word.text);
        expect(text.slice(word.valueStart, word.end)).toBe(word.value);
      }
    }
    return [a.marker, ...a.words.map((w) => w.text)];
  });
}

/** [comment, markers and words] */
const comments: [string, string[][]][] = [
  ["// @bitmap 9x9", [["bitmap", "9x9"]]],
  ["//@bitmap 9x9", [["bitmap", "9x9"]]],
  ["/// @bitmap 9x9", [["bitmap", "9x9"]]],
  ["//! @bitmap 9x9", [["bitmap", "9x9"]]],
  ["///< @bitmap 9x9", [["bitmap", "9x9"]]],
  ["//!< @bitmap 9x9", [["bitmap", "9x9"]]],
  ["/* @bitmap 9x9 */", [["bitmap", "9x9"]]],
  ["/*@bitmap 9x9*/", [["bitmap", "9x9"]]],
  ["/** @bitmap 9x9 */", [["bitmap", "9x9"]]],
  ["/*! @bitmap 9x9 */", [["bitmap", "9x9"]]],
  ["/**< @bitmap 9x9 */", [["bitmap", "9x9"]]],
  ["/*\n * The drop.\n * @bitmap 9x9\n *   gray8\n */", [["bitmap", "9x9", "gray8"]]],
  ["/*\r\n * @bitmap 9x9\r\n * gray8\r\n */", [["bitmap", "9x9", "gray8"]]],
  ["/* @bitmap 9x9\n\n   gray8 */", [["bitmap", "9x9"]]],
  ["/*\n * @bitmap 9x9\n *\n * gray8 is what it is\n */", [["bitmap", "9x9"]]],
  [
    "/* @bitmap 9x9 \n @motion level=1 */",
    [
      ["bitmap", "9x9"],
      ["motion", "level=1"],
    ],
  ],
  [
    "// @panel lantern 9x9 @bitmap lantern",
    [
      ["panel", "lantern", "9x9"],
      ["bitmap", "lantern"],
    ],
  ],
  ["// @bitmap 9x9 -- the drop, gray8", [["bitmap", "9x9"]]],
  ["// @bitmap 9x9 --", [["bitmap", "9x9"]]],
  ["// @bitmap 9x9 --drop", [["bitmap", "9x9", "--drop"]]],
  ["// @bitmap 9x9 -- see @panel lantern", [["bitmap", "9x9"]]],
  [
    "/* @bitmap 9x9 -- free\n @panel lantern */",
    [
      ["bitmap", "9x9"],
      ["panel", "lantern"],
    ],
  ],
  ["// @bitmap\t9x9\tgray8", [["bitmap", "9x9", "gray8"]]],
  ["// @bitmap 9x9 \\\n   gray8", [["bitmap", "9x9", "gray8"]]],
  ["// @bitmap", [["bitmap"]]],
  ["// @bitmap 5x7 first=' ' frames=96", [["bitmap", "5x7", "first=' '", "frames=96"]]],
  ["// @bitmap first='''", [["bitmap", "first='''"]]],
  ["// @bitmap first='\\''", [["bitmap", "first='\\''"]]],
  ['// @bitmap chars="a b" x', [["bitmap", 'chars="a b"', "x"]]],
  ['// @bitmap chars="a\\"b c" x', [["bitmap", 'chars="a\\"b c"', "x"]]],
  ['// @bitmap chars="a b', [["bitmap", 'chars="a', "b"]]],
  ["// @bitmap cap=", [["bitmap", "cap="]]],
  ["// @bitmap =3 a=b=c", [["bitmap", "=3", "a=b=c"]]],
  ["// @wiring lantern", [["wiring", "lantern"]]],
  ["// @palette rgb565", [["palette", "rgb565"]]],
  ["// @bitmaps 9x9", []],
  ["// @Bitmap 9x9", []],
  ["// @bitmap@panel", []],
  ["// a @bitmap 9x9", []],
  ["// mail@bitmap 9x9", []],
  ["//", []],
  ["/**/", []],
  ["/***/", []],
  ["/*", []],
  ["/* @bitmap 9x9", [["bitmap", "9x9"]]],
];

describe("annotations in a comment", () => {
  it.each(comments)("%j", (comment, expected) => {
    expect(markersIn(comment)).toEqual(expected);
  });

  it("a bare word has no key", () => {
    const [a] = annotationsIn("// @bitmap =3 x", { start: 0, end: 15 });
    expect(a?.words.map(({ key, value }) => [key, value])).toEqual([
      [undefined, undefined],
      [undefined, undefined],
    ]);
  });
});
