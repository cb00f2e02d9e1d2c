/** A function in C that draws one frame of an array through the wiring of its panel. Integers only. */
import type { Panel } from "../../light/panel.ts";
import type { Wiring } from "../../light/wiring/wiring.ts";
import type { Layout, Measures } from "../../pixels/layout.ts";
import { measure } from "../../pixels/layout.ts";
import type { Bitmap } from "../resolve.ts";
import type { MadeFunction } from "./address.ts";
import { countType, stemOf } from "./names.ts";

/**
 * The function reads arrays laid out as the bitmap's is, and calls `put` with the address and the raw value of every
 * pixel. `address` is the name of the function from column and row; `flash` says that the array is in program memory.
 */
export function drawFunction(
  bitmap: Bitmap,
  {
    panel,
    wiring,
    address,
    flash,
    eol = "\n",
    name = `${stemOf(panel)}_draw${bitmap.frames > 1 ? "_frame" : ""}`,
  }: {
    readonly panel: Panel;
    readonly wiring: Wiring;
    readonly address: string;
    readonly flash: boolean;
    readonly eol?: string;
    readonly name?: string;
  },
): MadeFunction | { readonly refused: string } {
  const { layout, array, format, width, height, frames } = bitmap;
  const refused = (why: string) => ({ refused: `No function can draw ${array.name}: ${why}` });
  if (!layout || bitmap.why !== undefined) return refused(`${bitmap.why ?? "it has no picture"}.`);
  if (array.parts) return refused("it is a table of pointers; make one for one of its arrays.");
  if (width !== panel.options.width || height !== panel.options.height)
    return refused(`it is ${width}x${height}, and ${panel.name} is ${panel.options.width}x${panel.options.height}.`);
  const index = countType(wiring.width * wiring.height);
  const value = valueType(layout);
  const count = countType(Math.max(layout.elements * layout.elementBits, width, height));
  const elements = `const uint${layout.elementBits}_t *const elements = (const uint${layout.elementBits}_t *)art;`;
  const what = frames > 1 ? `one of the ${frames} frames, counted from 0,` : "the picture";
  const meaning = `${format.name}${bitmap.invert ? ", turned over: 0 is full" : ""}`;
  const palette = format.kind === "palette" ? " an index into the palette," : "";
  const lines = [
    `/* Draws ${what} of an array laid out as ${array.name} (${meaning}): calls \`put\` for every pixel of ${panel.name}`,
    ` * with its driver address and its value,${palette} 0 to ${format.most}. */`,
    `static inline void ${name}(const void *art, ${frames > 1 ? "uint16_t frame, " : ""}void (*put)(${index} index, ${value} value)) {`,
    `  ${elements}`,
    `  for (${count} row = 0; row < ${height}; row++) {`,
    `    for (${count} column = 0; column < ${width}; column++) {`,
    `      const ${index} index = ${address}(column, row);`,
    ...[...place(layout, measure(layout), count), ...read(bitmap, layout, value, flash)].map((line) => `      ${line}`),
    "    }",
    "  }",
    "}",
  ];
  return { text: lines.join(eol), name };
}

function valueType({ format }: Layout): string {
  return format.depth <= 8 ? "uint8_t" : format.depth <= 16 ? "uint16_t" : "uint32_t";
}

const plus = (...parts: readonly (string | number)[]) => parts.filter((p) => p !== 0 && p !== "").join(" + ") || "0";
const times = (text: string, factor: number) =>
  factor === 0 ? "" : factor === 1 ? text : `${/^(?:\(\w+\))?\w+$/.test(text) ? text : `(${text})`} * ${factor}`;

/** A count of 16 bits in an expression of 32. */
const widened = (name: string, type: string) => (type === "uint16_t" ? name : `(${type})${name}`);

/** Statements that find a pixel's place: `at` its (first) element, and `inside` its first bit in it where it shares one. */
function place(layout: Layout, m: Measures, type: string): string[] {
  const { elementBits: size, skip, lead, driver, from, scan, frames } = layout;
  const statements: string[] = [];
  const shares = !layout.alone;
  const scale = shares ? 1 : size;
  const frameStep = (m.flowing ? lead * size + m.frameBits : layout.frameElements * size) / scale;
  const frame = frames > 1 ? times(widened("frame", type), frameStep) : "";
  const start = ((skip + lead) * size + m.spareBits) / scale;
  const right = from.endsWith("right");
  const bottom = from.startsWith("bottom");
  const rows = !m.byColumns && !m.bands && !right && !bottom && scan === "rows";
  if (driver && rows && m.stride === m.width * m.unit)
    statements.push(`const ${type} at = ${plus(frame, times(widened("index", type), m.unit / scale), start)};`);
  else {
    const x = driver ? `index % ${m.width}` : "column";
    const y = driver ? `index / ${m.width}` : "row";
    const u = right ? `${m.width - 1} - ${x}` : x;
    const v = bottom ? `${m.height - 1} - ${y}` : y;
    if (m.bands) {
      const { depth } = layout.format;
      statements.push(`const ${type} down = ${v};`);
      const unused = layout.spare === "first" ? m.height % 8 : 0;
      const lower =
        unused === 0 ? "" : unused === m.height ? 8 - unused : `(down >= ${m.height - unused} ? ${8 - unused} : 0)`;
      const bit = plus("(down & 7)", lower);
      const along = /^\w+$/.test(u) ? u : `(${u})`;
      const places = [frame, `(down >> 3) * ${m.stride}`, `${along} * ${8 * depth}`, times(bit, depth), start];
      // The unused bits of a band stand in its bytes, not before them.
      statements.push(`const ${type} at = ${plus(...places.slice(0, 4), (skip + lead) * size)};`);
    } else {
      const [line, along, length] = m.byColumns ? [u, v, m.height] : [v, u, m.width];
      let place = along;
      let lines = line;
      if (scan.startsWith("serpentine") && m.whole) {
        statements.push(`const ${type} line = ${line};`);
        lines = "line";
        const back = `${length - 1} - ${/^\w+$/.test(along) ? along : `(${along})`}`;
        place = `(line & 1 ? ${back} : ${along})`;
      }
      const parts = [frame, times(lines, m.stride / scale), times(place, m.unit / scale), start];
      statements.push(`const ${type} at = ${plus(...parts)};`);
    }
  }
  if (shares) statements.push(`const uint8_t inside = at % ${size};`);
  return statements;
}

/** Statements that read the value and hand it on. */
function read(bitmap: Bitmap, layout: Layout, value: string, flash: boolean): string[] {
  const { elementBits: size, format, span, bytes, pack } = layout;
  const element = layout.alone ? "at" : `at / ${size}`;
  const of = (offset: number) => readElement(plus(element, offset), size, flash);
  const { depth, most } = format;
  const lit = pack === "each" && format.kind === "mono";
  const statements: string[] = [];
  let raw: string;
  if (span > 1) {
    raw = Array.from({ length: span }, (_, k) => {
      const one = of(bytes === "le" ? span - 1 - k : k);
      const by = (span - 1 - k) * size;
      return by > 0 ? `(${value})${one} << ${by}` : one;
    }).join(" | ");
  } else if (lit) raw = `${of(0)} != 0`;
  else if (layout.alone) raw = depth < size ? `${of(0)} & ${hex(most)}` : of(0);
  else raw = `${of(0)} >> ${shift(layout)} & ${hex(most)}`;
  const swaps = span === 1 && bytes === "le" && depth > 8 && !lit;
  statements.push(`const ${value} raw = ${raw};`);
  let out = "raw";
  if (swaps)
    out = depth === 16 ? "(uint16_t)(raw << 8 | raw >> 8)" : "((raw & 0xFF) << 16 | (raw & 0xFF00) | raw >> 16)";
  statements.push(`put(index, ${bitmap.invert ? `${most} - ${out}` : out});`);
  return statements;
}

const hex = (value: number) => (value < 10 ? String(value) : `0x${value.toString(16).toUpperCase()}`);

/** The lowest bit of a pixel in its element, by its place in the stream of bits. */
function shift({ elementBits: size, format, bytes, bits, pack }: Layout): string {
  const { depth } = format;
  if (pack === "each" || depth >= 8) return bytes === "le" ? "inside" : `(${size - depth} - inside)`;
  const byte = size === 8 ? "" : bytes === "le" ? "(inside & ~7)" : `(${size - 8} - (inside & ~7))`;
  const within = bits === "msb" ? `(${8 - depth} - (inside & 7))` : "(inside & 7)";
  return byte === "" ? within : `(${byte} + ${within})`;
}

/** One element; those in program memory by the functions of avr-libc (pgmspace.h), which knows none for 64 bits. */
function readElement(at: string, size: number, flash: boolean): string {
  if (!flash) return `elements[${at}]`;
  const place = `&elements[${at}]`;
  const word = { 8: "byte", 16: "word", 32: "dword" }[size];
  if (word !== undefined) return `pgm_read_${word}(${place})`;
  const half = (offset: number) => `pgm_read_dword((const uint32_t *)(${place}) + ${offset})`;
  return `((uint64_t)${half(0)} | (uint64_t)${half(1)} << 32)`;
}
