import { isDeepStrictEqual } from "node:util";
import fc from "fast-check";
import { expect, test } from "vitest";
import type { SourceFile } from "../../shared/source/read.ts";
import { readSource } from "../../shared/source/read.ts";
import { runs } from "../support/runs.ts";
import { documents } from "./documents.ts";
import { FRAGMENTS } from "./fragments.ts";
import { render } from "./render.ts";
import { laterVersion, planEdits } from "./versions.ts";

/** An edit of the text: a span replaced by a fragment of C, a copy from elsewhere in the text, or nothing. */
const textEdits = fc.record({
  at: fc.nat(),
  length: fc.constantFrom(0, 0, 1, 2, 10, 60),
  with: fc.oneof(fc.constant(""), fc.constantFrom(...FRAGMENTS), fc.record({ from: fc.nat(), length: fc.nat(80) })),
});
type Edit = typeof textEdits extends fc.Arbitrary<infer T> ? T : never;

function typed(text: string, edit: Edit): string {
  const at = edit.at % (text.length + 1);
  const from = typeof edit.with === "string" ? 0 : edit.with.from % (text.length + 1);
  const fresh = typeof edit.with === "string" ? edit.with : text.slice(from, from + edit.with.length);
  return text.slice(0, at) + fresh + text.slice(at + edit.length);
}

function expectSame(again: SourceFile, fresh: SourceFile): void {
  // The comparison by value is quick; the assertion afterwards only words the difference.
  if (!isDeepStrictEqual(again, fresh)) expect(again).toEqual(fresh);
  expect(isDeepStrictEqual(again, fresh)).toBe(true);
}

test("reading with an earlier version gives what reading afresh gives, keystroke after keystroke", () => {
  fc.assert(
    fc.property(
      documents(),
      fc.array(textEdits, { minLength: 1, maxLength: 5 }),
      fc.constantFrom("avr" as const, "host" as const),
      (plan, edits, target) => {
        let text = render(plan).text;
        let previous = readSource(text, { target });
        for (const edit of edits) {
          text = typed(text, edit);
          const again = readSource(text, { target, previous });
          expectSame(again, readSource(text, { target }));
          previous = again;
        }
      },
    ),
    { numRuns: runs(400) },
  );
});

test("the same for arrays renamed, copied, deleted, reshaped", () => {
  fc.assert(
    fc.property(documents(), fc.array(planEdits, { minLength: 1, maxLength: 4 }), (plan, edits) => {
      const previous = readSource(render(plan).text, { target: "host" });
      const { text } = laterVersion(plan, edits);
      expectSame(readSource(text, { target: "host", previous }), readSource(text, { target: "host" }));
    }),
    { numRuns: runs(250) },
  );
});

test("a version read for another target is not taken over", () => {
  fc.assert(
    fc.property(documents(), (plan) => {
      const { text } = render(plan);
      const previous = readSource(text, { target: "avr" });
      expectSame(readSource(text, { target: "arm32", previous }), readSource(text, { target: "arm32" }));
    }),
    { numRuns: runs(100) },
  );
});
