import { describe, expect, it } from "vitest";
import { readPictures } from "../../support/readPictures.ts";

/** Annotation lines, elements, and the elements that are over the cap. 25 % of 255 is 63.75, so the cap is 63. */
const caps: [annotation: string, elements: string, over: string[]][] = [
  ["// @bitmap 4x1 gray8", "0, 64, 254, 255", []],
  ["// @bitmap 4x1 gray8 cap=64", "0, 64, 65, 0x41", ["65", "0x41"]],
  ["// @bitmap 4x1 gray8 cap=255", "0, 64, 254, 255", []],
  ["// @bitmap 4x1 gray8 cap=25%", "0, 62, 63, 64", ["64"]],
  ["// @bitmap 4x1 gray8 cap=100%", "0, 64, 254, 255", []],
  ["// @panel bed 4x1 gray8 cap=25%\n// @bitmap bed", "63, 64, 63, 255", ["64", "255"]],
  ["// @panel bed 4x1 gray8 cap=25%\n// @bitmap bed cap=128", "63, 64, 128, 129", ["129"]],
  ["// @panel status 4x1 mono1 pack=each cap=25%\n// @bitmap status", "1, 0, 1, 1", []],
  ["// @bitmap 2x1 gray8 cap=64 skip=1 lead=1", "255, 255, 64, 65", ["65"]],
  // The cap judges what the firmware puts out: 255 at 25 % is 63.75, 130 at 50 % is 65.
  ["// @bitmap 4x1 gray8 cap=64 drive=25%", "0, 64, 128, 255", []],
  ["// @bitmap 4x1 gray8 cap=64 drive=50%", "64, 128, 130, 255", ["130", "255"]],
  ["// @panel bed 4x1 gray8 cap=64 drive=25%\n// @bitmap bed drive=100%", "0, 64, 128, 255", ["128", "255"]],
];

describe("the cap", () => {
  it.each(caps)("%s: { %s }", (annotation, elements, over) => {
    const { findings, pictures } = readPictures(`${annotation}\nconst uint8_t a[] = { ${elements} };`);
    expect(findings.filter(({ code }) => code === "annotation")).toEqual([]);
    // Neighbours may share a finding; each element over the cap stands in exactly one.
    const judged = findings.filter(({ code }) => code === "over-cap").flatMap(({ text }) => text.split(/,\s*/));
    expect(judged).toEqual(over);
    const stored = elements.split(", ").map(Number);
    expect(pictures[0]?.frames.flat(2)).toEqual(stored.slice(-(pictures[0]?.width ?? 0)));
  });
});
