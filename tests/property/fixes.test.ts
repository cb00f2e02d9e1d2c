import fc from "fast-check";
import { expect, test } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import { checkFile, fixesOf } from "../../shared/checks/all.ts";
import type { Finding, Fix } from "../../shared/checks/rules.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { runs } from "../support/runs.ts";
import type { Plan } from "./documents.ts";
import { documents } from "./documents.ts";
import { expectOthersSame, moved } from "./painting.ts";
import { render } from "./render.ts";

/** A mistake made in the annotation or in the last list of numbers of the file. */
const mistakes = fc.array(
  fc.oneof(
    fc.record({
      kind: fc.constant("word" as const),
      from: fc.constantFrom("gray8", "mono1", "invert", "frames", "pack", "bits", "rows", "lsb"),
      to: fc.constantFrom("gray", "mono", "inv", "frame", "pck", "bit", "row", "lbs"),
    }),
    fc.record({
      kind: fc.constant("add-word" as const),
      word: fc.constantFrom(
        "cap=40",
        "cap=25%",
        "cap=999",
        "drive=50%",
        "cap=64 night=9",
        "mask",
        "fps=30",
        "bus=900 overhead=9/8 fps=40",
        "full=9mA idle=0.1mA budget=20mA",
        "grey8",
        "pad=bytes",
        "scan=row",
        "fromm=top-left",
        "frames=2",
        "pack=each",
      ),
    }),
    fc.record({ kind: fc.constant("size" as const), text: fc.constantFrom("3x3", "4x2", "2x4", "1x1", "9x9") }),
    fc.record({
      kind: fc.constant("elements" as const),
      text: fc.constantFrom("1, 2, 3", "300", "-1", "0x1FF, 7", "70000", "99"),
    }),
  ),
  { minLength: 1, maxLength: 3 },
);

function spoil(plan: Plan, made: typeof mistakes extends fc.Arbitrary<infer T> ? T : never): string {
  let { text } = render(plan);
  for (const m of made) {
    if (m.kind === "word") text = text.replace(new RegExp(`(@bitmap [^\\r\\n]*)\\b${m.from}\\b`), `$1${m.to}`);
    else if (m.kind === "add-word") text = text.replace(/(@bitmap \d+x\d+)/, `$1 ${m.word}`);
    else if (m.kind === "size") text = text.replace(/@bitmap \d+x\d+/, `@bitmap ${m.text}`);
    else {
      const close = text.lastIndexOf("}");
      const before = text.slice(0, close).trimEnd();
      if (!/[\w']$/.test(before) || /\/\/[^\r\n]*$/.test(before)) continue;
      text = `${before}, ${m.text}${text.slice(close)}`;
    }
  }
  return text;
}

interface Fixed {
  readonly before: BitmapFile;
  readonly findings: readonly Finding[];
  readonly finding: Finding;
  readonly fix: Fix;
  readonly after: BitmapFile;
  readonly left: readonly Finding[];
}

/** Applies each fix of each finding of a text by itself. */
function eachFix(text: string, file: string, look: (f: Fixed) => void): void {
  const before = openText(text, file);
  const findings = checkFile(before);
  for (const finding of findings.slice(0, 12)) {
    for (const fix of fixesOf(before, finding)) {
      const after = openText(applyEdits(text, fix.edits), file);
      look({ before, findings, finding, fix, after, left: checkFile(after) });
    }
  }
}

const spoilt = fc.record({ plan: documents(2), made: mistakes });

test("a fix makes its finding go away", () => {
  fc.assert(
    fc.property(spoilt, ({ plan, made }) => {
      eachFix(spoil(plan, made), plan.style.file, ({ finding, fix, left }) => {
        const edits = [...fix.edits].sort((a, b) => a.start - b.start);
        const at = moved(
          edits.filter((e) => e.end <= finding.span.start),
          finding.span.start,
        );
        const again = left.filter(
          (f) =>
            f.code === finding.code &&
            f.bitmap === finding.bitmap &&
            f.data.case === finding.data.case &&
            (finding.code === "length" || finding.code === "row-shape" || f.span.start === at) &&
            f.message === finding.message,
        );
        expect({ fix, again }).toEqual({ fix, again: [] });
      });
    }),
    { numRuns: runs(400) },
  );
});

test("a fix brings no word that is wrong and no array that can't be read", () => {
  fc.assert(
    fc.property(spoilt, ({ plan, made }) => {
      eachFix(spoil(plan, made), plan.style.file, ({ findings, fix, finding, left }) => {
        const bad = (all: readonly Finding[]) =>
          all.filter((f) => ["annotation", "unreadable", "unknown-panel"].includes(f.code));
        // What was wrong before may be worded anew, but there is no more of it.
        const fresh =
          bad(left).length > bad(findings).length
            ? bad(left).filter((f) => !bad(findings).some((b) => b.message === f.message))
            : [];
        // A word that is spelt right shows what is wrong with what it says.
        if (finding.code === "annotation" || finding.code === "unknown-panel") return;
        expect({ fix, fresh }).toEqual({ fix, fresh: [] });
      });
    }),
    { numRuns: runs(400) },
  );
});

test("a fix leaves all other arrays as they are", () => {
  fc.assert(
    fc.property(spoilt, ({ plan, made }) => {
      eachFix(spoil(plan, made), plan.style.file, ({ before, finding, after }) => {
        const own = before.bitmaps[finding.bitmap]?.array;
        // A wrong word may stand inside the list that it is about.
        const around = before.source.arrays.findIndex(
          (a) => a === own || (a.declaration.start <= finding.span.start && finding.span.end <= a.declaration.end),
        );
        expectOthersSame(before, after, around);
      });
    }),
    { numRuns: runs(400) },
  );
});
