/** Wirings of panels: what `wire=` says, and the index tables marked `@wiring PANEL`. */
import type { Panel } from "../light/panel.ts";
import type { Wiring } from "../light/wiring/wiring.ts";
import { canvasOf, saysOrder, wiringOf } from "../light/wiring/wiring.ts";
import type { ParsedAnnotation } from "../pixels/options.ts";
import type { Word } from "../source/annotationSyntax.ts";
import type { SourceArray } from "../source/arrays.ts";
import { elementOfSlot, elementSpan, elementValue } from "../source/arrays.ts";
import type { BoundAnnotation, SourceFile } from "../source/read.ts";
import type { Span } from "../source/text.ts";
import { elementsOfArray } from "./elements.ts";

/** An array that holds the driver's address of each pixel of a panel, row by row. */
export interface WiringTable {
  readonly panel: Panel;
  readonly array: SourceArray;
  readonly annotation: BoundAnnotation;
  /** undefined where the table does not give every pixel an address of its own. */
  readonly wiring: Wiring | undefined;
}

/** What is wrong with a wiring; `fix` and what it needs say what mends it. */
export interface WiringProblem {
  readonly span: Span;
  readonly message: string;
  readonly severity: "error" | "warning";
  readonly data: Readonly<Record<string, number | string>>;
}

export interface Wirings {
  readonly tables: readonly WiringTable[];
  readonly problems: readonly WiringProblem[];
}

/** Most findings about the numbers of one table. */
const MOST_FINDINGS = 50;

/** The panel with its wiring from `wire=`, and what is wrong with that. `word` is where it stands. */
export function wiredPanel(panel: Panel, word: Word | undefined): { panel: Panel; problems: WiringProblem[] } {
  const { wire, width, height } = panel.options;
  if (wire === undefined || !width || !height) return { panel, problems: [] };
  const { wiring, problems } = wiringOf(wire, width, height);
  const found = problems.map(({ start, end, message, add }): WiringProblem => {
    const at = word?.valueStart ?? panel.nameSpan.start;
    const data = add === undefined ? {} : { fix: "add", add, at: at + wire.length };
    return { span: { start: at + start, end: at + end }, message, severity: "error", data };
  });
  return { panel: { ...panel, wiring, miswired: !wiring }, problems: found };
}

/** Reads the tables of a file. `find` gives the panel of a name, with the wiring of its `wire=`. */
export function tablesOf(
  source: SourceFile,
  meanings: ReadonlyMap<BoundAnnotation, ParsedAnnotation>,
  find: (name: string) => Panel | undefined,
): Wirings {
  const tables: WiringTable[] = [];
  const problems: WiringProblem[] = [];
  for (const [annotation, { name }] of meanings) {
    const panel = annotation.marker === "wiring" && name ? find(name.text) : undefined;
    const at = annotation.arrays[0];
    const array = at === undefined ? undefined : source.arrays[at];
    if (!panel || !array) continue;
    const first = tables.find((t) => t.panel.name === panel.name);
    if (first) {
      const message = `${panel.name} has its wiring in ${first.array.name} already; this second table is not used.`;
      problems.push({ span: annotation.markerSpan, message, severity: "error", data: {} });
      continue;
    }
    const read = readTable(panel, array);
    tables.push({ panel, array, annotation, wiring: read.wiring });
    problems.push(...read.problems);
  }
  return { tables, problems };
}

function readTable(panel: Panel, array: SourceArray): { wiring?: Wiring; problems: WiringProblem[] } {
  const { width = 0, height = 0, wire } = panel.options;
  const pixels = width * height;
  const bits = elementsOfArray(array);
  const wrong = (message: string, data: WiringProblem["data"] = {}, span: Span = array.nameSpan): WiringProblem => ({
    ...{ span, message, data },
    severity: "error",
  });
  if (!bits || pixels === 0) {
    const why = array.readOnly ?? "its values are not known";
    return pixels === 0 ? { problems: [] } : { problems: [wrong(`The wiring of ${panel.name} is not known: ${why}.`)] };
  }
  const said = saysOrder(wire) ? panel.wiring : undefined;
  const fix: WiringProblem["data"] = said ? { fix: "table", panel: panel.name } : {};
  if (array.count !== pixels) {
    const message = `${array.name} has ${array.count} entries; ${panel.name} has ${pixels} pixels, ${width}×${height}, and each takes one.`;
    return { problems: [wrong(message, fix)] };
  }
  const canvas = canvasOf(wire, width, height);
  const cells = canvas.width * canvas.height;
  const index = new Uint32Array(pixels);
  const holder = new Map<number, number>();
  const problems: WiringProblem[] = [];
  let more = 0;
  const say = (i: number, message: string) => {
    if (problems.length >= MOST_FINDINGS) {
      more++;
      return;
    }
    const element = elementOfSlot(array, i);
    problems.push(wrong(message, { ...fix, entry: i }, element < 0 ? array.nameSpan : elementSpan(array, element)));
  };
  const pixel = (i: number) => `${i % width},${Math.floor(i / width)}`;
  for (let i = 0; i < pixels; i++) {
    const element = elementOfSlot(array, i);
    const address = element < 0 ? 0 : Number(elementValue(array, element));
    if (address < 0 || address >= cells) {
      say(
        i,
        `Entry ${i} (pixel ${pixel(i)}) is ${address}, outside the driver's canvas of ${canvas.width}×${canvas.height}: its addresses go from 0 to ${cells - 1}.`,
      );
      continue;
    }
    const before = holder.get(address);
    if (before === undefined) holder.set(address, i);
    else
      say(i, `Entry ${i} (pixel ${pixel(i)}) is ${address}, as entry ${before} (pixel ${pixel(before)}) is already.`);
    index[i] = address;
  }
  const last = problems.at(-1);
  if (last && more > 0)
    problems[problems.length - 1] = { ...last, message: `${last.message} (And ${more} more here.)` };
  if (last) return { problems: withSpare(problems, holder, cells) };
  const key = `${canvas.width}x${canvas.height} ${hashOf(index)}`;
  const wiring: Wiring = { width: canvas.width, height: canvas.height, index, key, table: array.name };
  return { wiring, problems: said ? against(said) : [] };

  function against({ index: wanted }: Wiring): WiringProblem[] {
    const differing = [...index.keys()].filter((i) => index[i] !== wanted[i]);
    const [first] = differing;
    if (first === undefined) return [];
    const others = differing.length > 1 ? ` (${differing.length} of ${pixels} entries differ)` : "";
    const message = `Entry ${first} (pixel ${pixel(first)}) is ${index[first]}, but \`wire=\` gives ${wanted[first]}${others}. The table is what counts.`;
    const span = elementSpan(array, Math.max(0, elementOfSlot(array, first)));
    return [{ span, message, severity: "warning", data: { ...fix, differs: 1 } }];
  }
}

/** Two sums over all addresses, of 32 bits each: short, and never the same by chance (FNV-1a, offset and prime). */
function hashOf(index: Uint32Array): string {
  let [a, b] = [0x811c9dc5, 0x01000193];
  for (const address of index) {
    a = Math.imul(a ^ address, 0x01000193) >>> 0;
    b = (Math.imul(b, 31) + address) >>> 0;
  }
  return `${a.toString(16)}.${b.toString(16)}`;
}

/** One entry is wrong and one address is left: that is surely the one that it lacks. */
function withSpare(problems: WiringProblem[], holder: ReadonlyMap<number, number>, cells: number): WiringProblem[] {
  const [only, ...others] = problems;
  if (!only || others.length > 0 || holder.size !== cells - 1) return problems;
  for (let spare = 0; spare < cells; spare++)
    if (!holder.has(spare)) return [{ ...only, data: { ...only.data, spare } }];
  return problems;
}
