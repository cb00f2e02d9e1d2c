/**
 * Tables of pointers to bitmaps: `const uint8_t* const frames[] = {a, b};` is read as one array whose elements are those
 * of `a` and `b`, at their own places in the text, so that painting a frame edits the array that it stands in.
 */
import type { SourceArray } from "../source/arrays.ts";
import { elementSpan, elementValue, slotOf } from "../source/arrays.ts";
import type { Initialiser } from "../source/initialiser.ts";
import type { SourceFile } from "../source/read.ts";

/** Frames that a table may name, and elements that they may have together. */
const MOST_ENTRIES = 4096;
const MOST_ELEMENTS = 1 << 22;

/**
 * The table's frames as one array; the table itself with the reason where an entry can't be followed. Each frame takes
 * as many elements as its array has, which must be the same for all.
 */
export function framesOf(source: SourceFile, table: SourceArray): SourceArray {
  const unknown = (why: string): SourceArray => ({ ...table, readOnly: why });
  if (!table.list || table.list.broken) return unknown(table.list?.broken ?? "its entries are not known");
  if (table.given === 0 || table.given > MOST_ENTRIES) return unknown(`it has ${table.given} entries`);
  const parts: SourceArray[] = [];
  for (let i = 0; i < table.given; i++) {
    const span = elementSpan(table, i);
    const entry = source.text.slice(span.start, span.end);
    const name = nameIn(entry);
    const found = source.arrays.filter((a) => a.name === name && a.declaration.start < table.declaration.start);
    const [part, ...others] = found.length > 0 ? found : source.arrays.filter((a) => a.name === name && a !== table);
    if (!part) return unknown(`its entry \`${entry.slice(0, 40)}\` is no array of this file`);
    if (others.length > 0) return unknown(`several arrays of this file are named \`${name}\``);
    if (part.readOnly !== undefined) return unknown(`its entry \`${name}\` can't be read: ${part.readOnly}`);
    if (!part.type || !part.list) return unknown(`its entry \`${name}\` is no array of numbers`);
    parts.push(part);
  }
  const [first] = parts;
  if (!first?.type) return unknown("its entries are not known");
  const odd = parts.find((p) => p.count !== first.count || p.type?.bits !== first.type?.bits);
  if (odd)
    return unknown(`\`${odd.name}\` has other elements than \`${first.name}\`, so they are no frames of one size`);
  if (first.count * parts.length > MOST_ELEMENTS) return unknown("its frames are too many to lay out");
  return joined(table, parts, first);
}

/** The array that an entry points to: its name, perhaps behind a cast or `&`, and with `[0]` behind it. */
function nameIn(entry: string): string | undefined {
  const plain = entry
    .replace(/\/\*[\s\S]*?\*\/|\/\/[^\r\n]*/g, " ")
    .replace(/^\s*(?:\((?:const\s+|unsigned\s+)*\w+(?:\s+const)?\s*\*+\s*(?:const)?\s*\)\s*)?&?\s*/, "");
  return /^(?:\w+\s*::\s*)*([A-Za-z_]\w*)\s*(?:\[\s*0\s*\])*\s*$/.exec(plain)?.[1];
}

function joined(table: SourceArray, parts: readonly SourceArray[], model: SourceArray): SourceArray {
  const given = parts.reduce((sum, part) => sum + part.given, 0);
  const starts = new Uint32Array(given);
  const lengths = new Uint32Array(given);
  const values = new Float64Array(given);
  const slots = new Uint32Array(given).fill(0xffffffff);
  const wide = new Map<number, bigint>();
  let at = 0;
  parts.forEach((part, frame) => {
    for (let i = 0; i < part.given; i++, at++) {
      const span = elementSpan(part, i);
      const slot = slotOf(part, i);
      const value = elementValue(part, i);
      starts[at] = span.start;
      lengths[at] = span.end - span.start;
      values[at] = Number(value);
      if (!Number.isSafeInteger(values[at])) wide.set(at, value);
      if (slot >= 0) slots[at] = frame * model.count + slot;
    }
  });
  const list: Initialiser = {
    length: table.list?.length ?? 0,
    nodes: [
      {
        open: table.base,
        close: table.base + (table.list?.length ?? 1) - 1,
        parent: -1,
        firstElement: 0,
        endElement: given,
        numbers: given,
        strings: 0,
        // As if each part were a list inside, so that nothing is cut off or added at the end.
        lists: parts.length,
        lastEnd: table.base + 1,
        trailingComma: false,
        lead: undefined,
        quoted: undefined,
      },
    ],
    starts,
    lengths,
    values,
    wide,
    unreadable: new Map(),
    designators: [],
    fixed: undefined,
    pure: false,
    broken: undefined,
    closed: true,
    comments: [],
  };
  return {
    ...table,
    base: 0,
    node: 0,
    first: 0,
    list,
    type: model.type,
    dimensions: [],
    count: model.count * parts.length,
    given,
    slots,
    gaps: parts.flatMap((part, frame) =>
      part.gaps.map((g) => ({ from: g.from + frame * model.count, to: g.to + frame * model.count, node: -1 })),
    ),
    excess: 0,
    readOnly: undefined,
    readOnlySpan: undefined,
    fixed: parts.find((part) => part.fixed !== undefined)?.fixed,
    parts,
  };
}
