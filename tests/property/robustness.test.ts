import fc from "fast-check";
import { expect, test } from "vitest";
import { editPixels, identityOf } from "../../shared/bitmap/edit.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { checkFile, fixesOf } from "../../shared/checks/all.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { runs } from "../support/runs.ts";
import { documents } from "./documents.ts";
import { FRAGMENTS } from "./fragments.ts";
import { render } from "./render.ts";

/** Everything that is asked of a text; findings lie inside it, and edits of fixes do not overlap. */
function ask(text: string, file = "art.cpp") {
  // Each file includes whatever it is asked for: itself, and a file of elements.
  const includes = (name: string) => ({ id: name, text: name === "self.h" ? text : "1, 2,\n3" });
  const opened = openText(text, file, { includes });
  const findings = checkFile(opened);
  for (const finding of findings) {
    expect(finding.span.start).toBeGreaterThanOrEqual(0);
    expect(finding.span.end).toBeGreaterThanOrEqual(finding.span.start);
    expect(finding.span.end).toBeLessThanOrEqual(text.length);
    for (const fix of fixesOf(opened, finding)) applyEdits(text, fix.edits);
  }
  for (const bitmap of opened.bitmaps) {
    identityOf(bitmap);
    for (let frame = 0; frame < Math.min(bitmap.frames, 3); frame++) {
      const pixels = pixelsOf(bitmap, frame);
      expect(pixels?.length).toBe(bitmap.why === undefined ? bitmap.width * bitmap.height : undefined);
    }
    // What is painted is read back; all of it is refused or all of it is done.
    const value = bitmap.format.most;
    const edited = editPixels(text, bitmap, [{ frame: 0, x: 0, y: 0, value }]);
    if ("refused" in edited) continue;
    const now = openText(applyEdits(text, edited.edits), file, { includes }).bitmaps[opened.bitmaps.indexOf(bitmap)];
    const shown = now && pixelsOf(now, 0)?.[0];
    expect([now?.why, bitmap.format.kind === "mono" ? (shown ?? 0) > 0 : shown]).toEqual([
      undefined,
      bitmap.format.kind === "mono" ? true : value,
    ]);
  }
  return findings;
}

const files = fc.constantFrom("art.cpp", "art.ino");

test("any string can be read, checked and shown", () => {
  const anything = fc.oneof(
    fc.string({ unit: "binary", maxLength: 200 }),
    fc.string({ unit: "grapheme", maxLength: 200 }),
    fc.uint8Array({ maxLength: 300 }).map((bytes) => new TextDecoder("latin1").decode(bytes)),
    fc.uint8Array({ maxLength: 300 }).map((bytes) => new TextDecoder().decode(bytes)),
    fc.array(fc.integer({ min: 0, max: 0xffff }), { maxLength: 200 }).map((units) => String.fromCharCode(...units)),
  );
  fc.assert(
    fc.property(anything, files, (text, file) => void ask(text, file)),
    { numRuns: runs(800) },
  );
});

test("pieces of C in any order can be read, checked and shown", () => {
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom(...FRAGMENTS), { maxLength: 40 }),
      fc.constantFrom("", " ", "\n"),
      files,
      (pieces, glue, file) => {
        ask(pieces.join(glue), file);
      },
    ),
    { numRuns: runs(2000) },
  );
});

test("a document with pieces of it replaced can be read, checked and shown", () => {
  const spoils = fc.array(fc.record({ at: fc.nat(), length: fc.nat(8), with: fc.constantFrom("", ...FRAGMENTS) }), {
    minLength: 1,
    maxLength: 6,
  });
  fc.assert(
    fc.property(documents(2), spoils, (plan, spoilt) => {
      let { text } = render(plan);
      for (const s of spoilt) {
        const at = s.at % (text.length + 1);
        text = text.slice(0, at) + s.with + text.slice(at + s.length);
      }
      ask(text, plan.style.file);
    }),
    { numRuns: runs(400) },
  );
});

test("every prefix of a document can be read, checked and shown", () => {
  fc.assert(
    fc.property(documents(1), (plan) => {
      const { text, file } = render(plan);
      for (let end = 0; end <= text.length; end++) ask(text.slice(0, end), file);
    }),
    { numRuns: 8 },
  );
});
