import { describe, expect, it } from "vitest";
import { editPixels } from "../../../shared/bitmap/edit.ts";
import { openText } from "../../../shared/bitmap/open.ts";
import type { Bitmap } from "../../../shared/bitmap/resolve.ts";
import { pixelsOf } from "../../../shared/bitmap/resolve.ts";
import { checkFile } from "../../../shared/checks/all.ts";
import { applyEdits } from "../../../shared/source/text.ts";

const bitmapIn = (text: string, at = 0) => openText(text, "art.cpp").bitmaps[at] as Bitmap;

describe("tables of pointers", () => {
  const parts = "const uint8_t a[4] = {1,2,3}, b[] = {4,5,6,7};\n";
  const text = `${parts}// @bitmap 2x2\nconst uint8_t* const frames[] = { a, b, &a[0] };`;

  it("are frames", () => {
    const bitmap = bitmapIn(text);
    expect(bitmap.why).toBeUndefined();
    expect(bitmap.frames).toBe(3);
    expect([0, 1, 2].map((f) => [...(pixelsOf(bitmap, f) ?? [])])).toEqual([
      [1, 2, 3, 0],
      [4, 5, 6, 7],
      [1, 2, 3, 0],
    ]);
  });

  it("are painted where each frame stands", () => {
    const edited = editPixels(text, bitmapIn(text), [
      { frame: 0, x: 1, y: 1, value: 9 },
      { frame: 1, x: 0, y: 0, value: 8 },
      { frame: 2, x: 0, y: 0, value: 77 },
    ]);
    expect("edits" in edited && applyEdits(text, edited.edits)).toBe(
      text.replace("{1,2,3}", "{77,2,3,9}").replace("{4,", "{8,"),
    );
  });

  it.each([
    ["an array that is not here", "{ a, c }", "its entry `c` is no array of this file"],
    ["another size", "{ a, d }", "`d` has other elements than `a`, so they are no frames of one size"],
  ])("%s", (_what, entries, why) => {
    const source = `${parts}const uint8_t d[] = {1};\n// @bitmap 2x2\nconst uint8_t* const frames[] = ${entries};`;
    expect(bitmapIn(source).why).toBe(why);
  });
});

describe("arrays that hold something else", () => {
  const png = "0x89,0x50,0x4e,0x47,0x0d,0x0a,0x1a,0x0a,0,0,0,13,0x49,0x48,0x44,0x52";
  const runs = "10,1, 20,2, 10,3, 4,0, 10,9, 10,8";
  it.each([
    ["a PNG file", png, "it holds a PNG file, not plain pixels"],
    ["a JPEG file", `0xff,0xd8,0xff,0xe0,${png}`, "it holds a JPEG file, not plain pixels"],
    ["a GIF file", `'G','I','F','8','9','a',${png}`, "it holds a GIF file, not plain pixels"],
    ["an LZ4 frame", `0x04,0x22,0x4d,0x18,${png}`, "it holds an LZ4 frame, not plain pixels"],
    ["run lengths", runs, "it holds run lengths (pairs of a count and a value), not plain pixels"],
  ])("%s is named, without a picture", (_what, body, why) => {
    const file = openText(`// @bitmap 8x8\nconst uint8_t a[] = {${body}};`, "art.cpp");
    expect(file.bitmaps.map((b) => [b.why, pixelsOf(b, 0)])).toEqual([[why, undefined]]);
    expect(checkFile(file).map(({ code, severity }) => [code, severity])).toEqual([["unreadable", "information"]]);
  });

  it("pixels that begin like a short signature are pixels", () => {
    const body = ["0xff", "0xd8", "0xff", ...new Array(61).fill("1")].join(",");
    expect(bitmapIn(`// @bitmap 8x8\nconst uint8_t a[] = {${body}};`).why).toBeUndefined();
  });
});
