/** A function in C from column and row to the driver's address, without a table. Integers only. */
import type { Panel } from "../../light/panel.ts";
import { usualFor } from "../../light/wiring/family.ts";
import type { Module } from "../../light/wiring/module.ts";
import { modulesOf } from "../../light/wiring/module.ts";
import type { Wiring } from "../../light/wiring/wiring.ts";
import { readWire } from "../../pixels/wireWords.ts";
import { countType, stemOf } from "./names.ts";

export interface MadeFunction {
  readonly text: string;
  readonly name: string;
}

/** The function; why there is none for a table that follows no rule. */
export function addressFunction(
  panel: Panel,
  wiring: Wiring,
  eol = "\n",
  name = `${stemOf(panel)}_address`,
): MadeFunction | { readonly refused: string } {
  const { width = 0, height = 0 } = panel.options;
  const words = wiring.wire ?? usualFor(wiring.index, width, height, wiring)?.wire();
  if (words === undefined)
    return {
      refused: `No formula gives the addresses of ${panel.name}: ${wiring.table ?? "its table"} follows none of the usual wirings. Its table is the way to look them up.`,
    };
  const { wire } = readWire(words);
  const modules = modulesOf(wire, width, height);
  // A table's own canvas may differ from that of the words that give the same addresses.
  const across = wire.canvas?.width ?? width;
  const type = countType(wiring.width * wiring.height);
  const lines = [
    `/* Driver address of a pixel of ${panel.name} (${width}x${height}): wire=${words.length > 60 ? `${words.slice(0, 57)}...` : words} */`,
    `static inline ${type} ${name}(${type} column, ${type} row) {`,
    ...modules.flatMap((module, i) => branch(module, across, type, i === modules.length - 1)),
    "}",
  ];
  return { text: lines.join(eol), name };
}

/** The way through one module; the last one needs no condition, as every pixel is in one. */
function branch(module: Module, across: number, type: string, last: boolean): string[] {
  if (last) return formula(module, across, type).map((line) => `  ${line}`);
  const { x, y, width, height } = module;
  const tests = [
    ...(x > 0 ? [`column >= ${x}`] : []),
    `column < ${x + width}`,
    ...(y > 0 ? [`row >= ${y}`] : []),
    `row < ${y + height}`,
  ];
  return [`  if (${tests.join(" && ")}) {`, ...formula(module, across, type).map((line) => `    ${line}`), "  }"];
}

/** sign · name + plus. */
interface Term {
  readonly name: string;
  readonly sign: 1 | -1;
  readonly plus: number;
}

const flipped = ({ name, sign, plus }: Term, length: number): Term => ({
  name,
  sign: sign === 1 ? -1 : 1,
  plus: length - 1 - plus,
});

function spelt({ name, sign, plus }: Term): string {
  if (sign < 0) return `${plus} - ${name}`;
  return plus === 0 ? name : plus > 0 ? `${name} + ${plus}` : `${name} - ${-plus}`;
}

const inBrackets = (text: string) => (/^\w+$/.test(text) ? text : `(${text})`);
const times = (text: string, factor: number) => (factor === 1 ? text : `${inBrackets(text)} * ${factor}`);
const sum = (...parts: readonly (string | number)[]) => parts.filter((p) => p !== 0 && p !== "0").join(" + ") || "0";

/** The statements that return a module's address. The same steps as in light/wiring/module. */
function formula(module: Module, canvas: number, type: string): string[] {
  const { across, down, swap, order, corner, flows, toX, toY } = module;
  let px: Term = { name: "column", sign: 1, plus: -module.x };
  let py: Term = { name: "row", sign: 1, plus: -module.y };
  if (module.flipX) px = flipped(px, module.width);
  if (module.flipY) py = flipped(py, module.height);
  let [u, v] = swap ? [py, px] : [px, py];
  if (corner.endsWith("right")) u = flipped(u, across);
  if (corner.startsWith("bottom")) v = flipped(v, down);
  const byColumns = order.endsWith("columns");
  const [line, along, length] = byColumns ? [u, v, down] : [v, u, across];
  let base = toY * canvas + toX;
  const follows = flows || (across === canvas && toX === 0);
  const statements: string[] = [];
  let lineText = spelt(line);
  // What all addresses have in common joins the number that stands there already.
  const joined = order.startsWith("serpentine") || !(follows || !byColumns) ? 0 : base;
  base -= joined;
  let alongText = spelt({ ...along, plus: along.plus + joined });
  if (order.startsWith("serpentine")) {
    statements.push(`const ${type} line = ${lineText};`);
    lineText = "line";
    alongText = `(line & 1 ? ${spelt(flipped(along, length))} : ${alongText})`;
  }
  if (follows || !byColumns) {
    const step = follows ? length : canvas;
    statements.push(`return ${sum(times(lineText, step), alongText, base)};`);
  } else {
    statements.push(`const ${type} place = ${sum(times(lineText, length), alongText)};`);
    statements.push(
      `return ${sum(across === 1 ? `place * ${canvas}` : `place / ${across} * ${canvas}`, across === 1 ? 0 : `place % ${across}`, base)};`,
    );
  }
  return statements;
}

/** The same function for a wiring without a rule: it looks the address up in the panel's table. */
export function lookupFunction(
  panel: Panel,
  wiring: Pick<Wiring, "width" | "height">,
  table: { readonly name: string; readonly bits: number; readonly flash: boolean },
  eol = "\n",
  name = `${stemOf(panel)}_address`,
): MadeFunction {
  const { width = 0, height = 0 } = panel.options;
  const type = countType(Math.max(wiring.width * wiring.height, width * height));
  const place = `${table.name}[row * ${width} + column]`;
  const word = { 8: "byte", 16: "word", 32: "dword" }[table.bits] ?? "byte";
  const lines = [
    `/* Driver address of a pixel of ${panel.name} (${width}x${height}), as ${table.name} has it. */`,
    `static inline ${type} ${name}(${type} column, ${type} row) {`,
    `  return ${table.flash ? `pgm_read_${word}(&${place})` : place};`,
    "}",
  ];
  return { text: lines.join(eol), name };
}
