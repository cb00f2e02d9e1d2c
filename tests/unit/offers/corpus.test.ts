import { describe, expect, it } from "vitest";
import { annotationEdit } from "../../../shared/bitmap/annotate.ts";
import { openText } from "../../../shared/bitmap/open.ts";
import { applyEdits } from "../../../shared/source/text.ts";
import { HELD_OUT } from "../../support/offersCorpus/heldOut.ts";
import { corpusFile, figuresOf, judge, mistakesOf } from "../../support/offersCorpus/judge.ts";
import type { Labelled } from "../../support/offersCorpus/label.ts";
import { LABELS } from "../../support/offersCorpus/labels.ts";

/** Floors are what was measured; a table with an offer is never right. */
const PARTS: readonly [string, readonly Labelled[], { firstRight: number; anyRight: number }][] = [
  ["written with the rules at hand", LABELS, { firstRight: 57, anyRight: 57 }],
  ["held out", HELD_OUT, { firstRight: 19, anyRight: 19 }],
];

describe.each(PARTS)("offers on the arrays %s", (part, labels, floor) => {
  const judged = judge(labels);
  const figures = figuresOf(judged);

  it("are right as often as they were", () => {
    console.log(part, figures, `\n${mistakesOf(judged).join("\n")}`);
    expect(figures.firstRight).toBeGreaterThanOrEqual(floor.firstRight);
    expect(figures.anyRight).toBeGreaterThanOrEqual(floor.anyRight);
  });

  it("are never made for a table", () => {
    expect(mistakesOf(judged.filter((j) => j.words === undefined))).toEqual([]);
  });

  it("fit exactly, name their evidence and come best first, at most four", () => {
    for (const { offers } of judged) {
      expect(offers.length).toBeLessThanOrEqual(4);
      for (const { bitmap, evidence, confidence } of offers) {
        expect(bitmap.layout?.elements).toBe(bitmap.array.count);
        expect(evidence).toMatch(/\S/);
        expect(confidence).toBeGreaterThanOrEqual(0.5);
      }
    }
  });

  it("once written bind to their array, and say the bitmap that was offered", () => {
    for (const { file: name, offers } of judged) {
      const { source } = corpusFile(name);
      for (const { words, bitmap } of offers) {
        const edit = annotationEdit(source, bitmap.array, words);
        const file = openText(applyEdits(source.text, [edit]), name);
        expect(file.problems).toEqual([]);
        const written = file.bitmaps.find((b) => b.array.name === bitmap.array.name);
        expect([words, written?.layout?.elements]).toEqual([words, bitmap.layout?.elements]);
        expect(
          written && [written.width, written.height, written.frames, written.layout?.pack, written.layout?.bits],
        ).toEqual([bitmap.width, bitmap.height, bitmap.frames, bitmap.layout?.pack, bitmap.layout?.bits]);
      }
    }
  });
});
