import fc from "fast-check";
import { expect, test } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import { elementsOf } from "../../shared/bitmap/resolve.ts";
import { checkFile } from "../../shared/checks/all.ts";
import { runs } from "../support/runs.ts";
import { documents } from "./documents.ts";
import { render } from "./render.ts";

test("every array of a document is read with the values it was written with", () => {
  fc.assert(
    fc.property(documents(), (plan) => {
      const { text, file, known } = render(plan);
      const opened = openText(text, file);
      expect(opened.problems).toEqual([]);
      expect(opened.bitmaps.map((b) => [b.array.nameSpan.start, b.why])).toEqual(
        known.map((k) => [k.nameAt, undefined]),
      );
      opened.bitmaps.forEach((bitmap, i) => {
        expect(Array.from(elementsOf(bitmap) ?? [], BigInt)).toEqual(known[i]?.bits);
      });
      const codes = checkFile(opened).map((f) => f.code);
      expect(codes.filter((c) => c === "annotation" || c === "unreadable" || c === "unknown-panel")).toEqual([]);
    }),
    { numRuns: runs(500) },
  );
});
