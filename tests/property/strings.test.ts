import fc from "fast-check";
import { expect, test } from "vitest";
import type { SourceArray } from "../../shared/source/arrays.ts";
import { elementSpan } from "../../shared/source/arrays.ts";
import { readSource } from "../../shared/source/read.ts";
import { rewriteElements } from "../../shared/source/rewrite.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { runs } from "../support/runs.ts";

/** One unit as source text, and whether a digit right after it would be taken into it. */
const unit = fc.oneof(
  fc.constantFrom(..."abcdefgXYZ0189 ?{},;/*'#").map((text) => ({ text, hex: false, octal: false })),
  fc.integer({ min: 0, max: 255 }).map((v) => ({ text: `\\x${v.toString(16)}`, hex: true, octal: false })),
  fc.integer({ min: 0, max: 255 }).map((v) => ({ text: `\\${v.toString(8)}`, hex: false, octal: v < 64 })),
  fc
    .constantFrom("\\n", "\\\\", '\\"', "\\?", "\u00fc", "\u2744", "\\\n")
    .map((text) => ({ text, hex: false, octal: false })),
);

/** Units in pieces: a piece ends where the next unit would be taken into the one before, and sometimes elsewhere. */
const strings = fc
  .array(fc.tuple(unit, fc.integer({ min: 0, max: 9 })), { minLength: 1, maxLength: 24 })
  .map((units) => {
    let text = "";
    let before = { hex: false, octal: false };
    for (const [u, roll] of units) {
      if (u.text === "\\\n" && (before.hex || before.octal)) continue;
      const taken = (before.hex && /^[0-9a-fA-F]/.test(u.text)) || (before.octal && /^[0-7]/.test(u.text));
      if (taken || roll === 0) text += roll % 2 ? '" "' : '" /* " */\n  "';
      text += u.text;
      before = u;
    }
    return `"${text}"`;
  });

const changed = fc.record({
  string: strings,
  changes: fc.array(fc.tuple(fc.nat(), fc.integer({ min: 0, max: 255 })), { minLength: 1, maxLength: 8 }),
  crlf: fc.boolean(),
  head: fc.constantFrom("", "\ufeff", "// \ufffd \t\n"),
});

function arrayIn(text: string): SourceArray {
  const [array] = readSource(text, { target: "host" }).arrays;
  if (!array) throw new Error(`no array in ${text}`);
  return array;
}

const unitsOf = (array: SourceArray) => Array.from(array.list?.values ?? [], (v) => Number(v));

/** The text without its elements. */
function around(text: string, array: SourceArray): string {
  const places = new Set(Array.from({ length: array.given }, (_, i) => elementSpan(array, i).start));
  let out = "";
  let at = 0;
  for (const start of [...places].sort((a, b) => a - b)) {
    const index = Array.from({ length: array.given }, (_, i) => i).find((i) => elementSpan(array, i).start === start);
    out += text.slice(at, start);
    at = elementSpan(array, index as number).end;
  }
  return out + text.slice(at);
}

test("a string's units are read back as they were written, and nothing else changes", () => {
  fc.assert(
    fc.property(changed, ({ string, changes, crlf, head }) => {
      const plain = `${head}const uint8_t a[] = ${string};\nint after = '"';`;
      const text = crlf ? plain.replaceAll("\n", "\r\n") : plain;
      const array = arrayIn(text);
      expect(array.readOnly).toBeUndefined();
      const units = unitsOf(array);
      fc.pre(units.length > 0);
      const wanted = new Map(changes.map(([slot, value]) => [slot % units.length, value]));
      const edited = rewriteElements(
        text,
        array,
        [...wanted].map(([slot, value]) => ({ slot, bits: BigInt(value) })),
      );
      if ("refused" in edited) throw new Error(edited.refused);
      const written = applyEdits(text, edited.edits);
      const now = arrayIn(written);
      expect(now.readOnly).toBeUndefined();
      expect(unitsOf(now)).toEqual(units.map((value, i) => wanted.get(i) ?? value));
      expect(around(written, now)).toBe(around(text, array));
    }),
    { numRuns: runs(600) },
  );
});

/** Designators, macros and ranges in a list; elements of their own text and others. */
const items = fc.array(
  fc.oneof(
    fc.integer({ min: 0, max: 255 }).map(String),
    fc.tuple(fc.integer({ min: 0, max: 15 }), fc.integer({ min: 0, max: 255 })).map(([at, v]) => `[${at}] = ${v}`),
    fc.integer({ min: 0, max: 11 }).map((at) => `[${at} ... ${at + 3}] = 0x0${at.toString(16)}`),
    fc.constantFrom("TWO(0x1234)", "ONE", "'x'", "0b0011"),
  ),
  { minLength: 1, maxLength: 12 },
);

test("an element without a text of its own is refused, and any other written where it stands", () => {
  fc.assert(
    fc.property(items, fc.nat({ max: 15 }), fc.integer({ min: 0, max: 255 }), (list, slot, value) => {
      const head = "#define TWO(w) (w) >> 8, (w) & 0xFF\n#define ONE 1\n";
      const text = `${head}const uint8_t a[40] = { ${list.join(", ")} };`;
      const array = arrayIn(text);
      expect(array.readOnly).toBeUndefined();
      const before = storedIn(array);
      const edited = rewriteElements(text, array, [{ slot, bits: BigInt(value) }]);
      if ("refused" in edited) {
        expect(edited.refused).toMatch(/makes several|no place for element/);
        return;
      }
      const after = storedIn(arrayIn(applyEdits(text, edited.edits)));
      expect(after).toEqual(before.map((old, i) => (i === slot ? value : old)));
    }),
    { numRuns: runs(600) },
  );
});

function storedIn(array: SourceArray): number[] {
  const out = new Array<number>(array.count).fill(0);
  unitsOf(array).forEach((value, i) => {
    const slot = array.slots ? (array.slots[i] as number) : i;
    if (slot < array.count) out[slot] = value & 0xff;
  });
  return out;
}
