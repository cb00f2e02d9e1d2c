/** Plans of documents to their text, with what is known of it beforehand. */

import type { Layout } from "../../shared/pixels/layout.ts";
import type { ElementBits } from "../../shared/pixels/picture.ts";
import { unpack } from "../../shared/pixels/picture.ts";
import type { ArrayPlan, FileStyle, Plan } from "./documents.ts";
import { meaningOf } from "./documents.ts";
import { FILLERS, GAPS, NOTES } from "./fillers.ts";
import { DEFINITIONS, spell } from "./spellings.ts";

/** A row's drawing in a comment. */
interface Drawing {
  /** Offset of its first symbol; the symbols stand `step` apart. */
  readonly at: number;
  readonly step: number;
  readonly frame: number;
  readonly y: number;
  readonly right: boolean;
}

/** What is known of one array in the text. */
export interface Known {
  readonly plan: ArrayPlan;
  readonly nameAt: number;
  readonly layout: Layout;
  /** What the compiler stores, as unsigned bit patterns. */
  readonly bits: bigint[];
  /** Spelling of each element, by its flat index; undefined where the compiler fills with zero. */
  readonly tokens: (string | undefined)[];
  readonly drawings: readonly Drawing[];
}

export interface Rendered {
  readonly text: string;
  readonly file: string;
  readonly known: readonly Known[];
}

export function render(plan: Plan): Rendered {
  const { style, arrays } = plan;
  let text = style.bom ? "\uFEFF" : "";
  text += DEFINITIONS.join(style.eol) + style.eol;
  const known = arrays.map((array) => {
    text += (FILLERS[array.filler] as string).replaceAll("@", style.eol) + style.eol;
    const made = renderArray(array, style, text.length);
    text += made.text + style.eol;
    return made.known;
  });
  if (!style.finalBreak) text = text.trimEnd();
  return { text, file: style.file, known };
}

const TYPES = {
  8: { plain: ["uint8_t", "unsigned char"], signed: ["int8_t", "signed char"] },
  16: { plain: ["uint16_t", "unsigned short"], signed: ["int16_t", "short"] },
  32: { plain: ["uint32_t", "uint_least32_t"], signed: ["int32_t", "int_least32_t"] },
  64: { plain: ["uint64_t", "unsigned long long"], signed: ["int64_t", "long long"] },
} as const;

function renderArray(plan: ArrayPlan, style: FileStyle, base: number): { text: string; known: Known } {
  const { eol } = style;
  const { words, layout, arrangement } = meaningOf(plan.choices);
  const width = arrangement.elementBits;
  const cell = (i: number) => plan.cells[i % plan.cells.length] as ArrayPlan["cells"][number];
  const count = layout.elements;
  const inner = innerSize(plan, count);
  const rows = plan.shape === "nested" ? count / inner : 0;
  const written = writtenSlots(plan, count, inner, rows);
  const bits = new Array<bigint>(count).fill(0n);
  for (const slot of written) bits[slot] = BigInt.asUintN(width, cell(slot).value);
  const tokens = bits.map((b, i) => (written.has(i) ? spell(b, cell(i).style, width, plan.signed) : undefined));

  const note = NOTES[plan.note];
  const inside = plan.annotate === "inside";
  const before = {
    line: `// @bitmap ${words}${eol}`,
    block: `/* @bitmap ${words} */${eol}`,
    doxygen: `/// @bitmap ${words} -- it's "free" {${eol}`,
    lines: `/**${eol} * A picture {.${eol} * @bitmap ${words}${eol} */${eol}`,
    inside: "",
  }[plan.annotate];
  const [head, name, tail] = declaration(plan, style, count, inner, written.size);
  let text = before + head;
  const nameAt = base + text.length;
  text += name + tail;

  const picture = (frame: number) => unpack(asElements(bits, width), layout, frame, plan.choices.invert);
  const drawings: Drawing[] = [];
  const perLine: number = plan.perLine === "row" ? layout.lineElements || 8 : plan.perLine;
  const lines = perLine > 0 || inside;
  const indent = eol + style.indent;
  let gap = 0;
  const nextGap = () => GAPS[plan.gaps[gap++ % plan.gaps.length] as number] as string;
  const drawable =
    plan.drawing !== "none" &&
    plan.perLine === "row" &&
    layout.lineElements > 0 &&
    layout.lines === layout.height &&
    layout.pack !== "columns" &&
    !layout.scan.endsWith("columns") &&
    plan.shape !== "nested" &&
    plan.choices.width > 1;

  /** The drawing after the last element of a row; it must stand alone in its comment. */
  const draw = (slot: number): string => {
    const place = drawable ? rowEndingAt(layout, slot) : undefined;
    if (!place) return "";
    const row = picture(place.frame).subarray(place.y * layout.width, (place.y + 1) * layout.width);
    const right = plan.drawing !== "stale";
    const symbols = Array.from(row, (v, x) => (v > 0 === (right || x > 0) ? "#" : "."));
    const step = plan.drawing === "spaced" ? 2 : 1;
    const open = plan.drawing === "block" ? " /* " : " // ";
    drawings.push({ at: base + text.length + open.length, step, ...place, right });
    return open + symbols.join(step === 2 ? " " : "") + (plan.drawing === "block" ? " */" : "");
  };

  text += "{";
  if (inside) text += ` // @bitmap ${words}`;
  if (lines) text += indent;
  if (plan.shape === "nested") {
    for (let r = 0; r < rows; r++) {
      const own = Array.from({ length: inner }, (_, i) => r * inner + i).filter((slot) => written.has(slot));
      const rest = Array.from(written).some((slot) => slot >= r * inner);
      if (!rest && r > 0) break;
      if (r > 0) text += `,${lines ? indent : nextGap()}`;
      text += "{";
      own.forEach((slot, i) => {
        text += `${i > 0 ? `,${nextGap()}` : ""}${tokens[slot]}`;
      });
      if (plan.trailing && own.length > 0 && r % 2 === 1) text += ",";
      text += "}";
    }
    if (plan.trailing) text += ",";
  } else {
    const last = written.size - 1;
    for (const slot of written) {
      text += tokens[slot];
      const ends = perLine > 0 && slot % perLine === perLine - 1;
      if (slot < last) text += ",";
      else if (plan.trailing) text += ", ";
      if (perLine > 0 && ends) text += draw(slot);
      if (slot < last) text += ends ? indent : nextGap();
    }
  }
  // A drawing may end the last line with a line comment.
  if (lines) text += `${note !== undefined && drawings.length === 0 ? ` ${note}` : ""}${eol}`;
  text += "};";
  return { text, known: { plan, nameAt, layout, bits, tokens, drawings } };
}

function innerSize(plan: ArrayPlan, count: number): number {
  const divisors = Array.from({ length: count }, (_, i) => i + 1).filter((d) => count % d === 0);
  return divisors[plan.inner % divisors.length] as number;
}

/** Flat indices of the elements that are written. */
function writtenSlots(plan: ArrayPlan, count: number, inner: number, rows: number): Set<number> {
  const sized = plan.declared !== "empty";
  const slots = new Set<number>();
  if (plan.shape !== "nested") {
    const least = plan.shape === "elided" && !sized ? count - inner + 1 : sized ? 0 : count;
    const until = Math.max(least, count - plan.cut);
    for (let i = 0; i < until; i++) slots.add(i);
    return slots;
  }
  const lastRow = sized ? Math.max(1, rows - plan.cut) : rows;
  for (let r = 0; r < lastRow; r++) {
    const own = Math.max(0, inner - (plan.rowCuts[r % plan.rowCuts.length] as number));
    // A list whose last lists are empty would be cut short by `render`; the last row keeps an element.
    const kept = r === lastRow - 1 ? Math.max(1, own) : own;
    for (let i = 0; i < kept; i++) slots.add(r * inner + i);
  }
  return slots;
}

/** Text before the name, the name, and text up to the opening brace. */
function declaration(
  plan: ArrayPlan,
  style: FileStyle,
  count: number,
  inner: number,
  written: number,
): [string, string, string] {
  const names = TYPES[plan.choices.elementBits][plan.signed ? "signed" : "plain"];
  const type = names[plan.head % 2] as string;
  const outer = plan.shape === "flat" ? count : count / inner;
  const size = {
    empty: "",
    number: String(outer),
    expression: outer % 2 === 0 ? `2 * ${outer / 2}` : `${outer + 1} - LIT`,
  }[plan.declared];
  const dimensions = `[${size}]${plan.shape === "flat" ? "" : `[${inner}]`}`;
  const heads = [
    `const ${type} `,
    `static const ${type} `,
    `PROGMEM const ${type} `,
    `${type} `,
    `const ${type}\t`,
    `${type} const `,
    `const ${type} /* {" */ `,
  ];
  const head = heads[plan.head % heads.length] as string;
  const tails = [" = ", " PROGMEM = ", "=", ` =${style.eol}`, " __attribute__((aligned(4))) = ", " PROGMEM =\t"];
  const tail = tails[(plan.head + written) % tails.length] as string;
  return [head, plan.name, dimensions + tail];
}

function rowEndingAt(layout: Layout, slot: number): { frame: number; y: number } | undefined {
  for (let frame = 0; frame < layout.frames; frame++) {
    const { element } = layout.table(frame);
    for (let y = 0; y < layout.height; y++) {
      const row = Array.from(element.subarray(y * layout.width, (y + 1) * layout.width));
      const last = Math.max(...row);
      if (
        last === slot &&
        row.every((e) => Math.floor(e / layout.lineElements) === Math.floor(slot / layout.lineElements))
      ) {
        return { frame, y };
      }
    }
  }
  return undefined;
}

/** Elements as the product's pictures take them. */
export function asElements(bits: readonly bigint[], width: number): ElementBits {
  if (width === 64) return BigUint64Array.from(bits);
  const numbers = bits.map(Number);
  return width === 8 ? Uint8Array.from(numbers) : width === 16 ? Uint16Array.from(numbers) : Uint32Array.from(numbers);
}
