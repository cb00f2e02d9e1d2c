/**
 * What is made of wirings compiles with g++ and avr-g++, and the programs find the addresses that the model does: the
 * host's by itself, the AVR's in simavr. Each of many random wirings with a random array goes through its table, its
 * address function and its draw function.
 */
import { execFile } from "node:child_process";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { elementsOfArray } from "../../shared/bitmap/elements.ts";
import { makeBitmap } from "../../shared/bitmap/make.ts";
import { openText } from "../../shared/bitmap/open.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { makeWired } from "../../shared/bitmap/wired/made.ts";
import type { Panel } from "../../shared/light/panel.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import type { RandomWiring } from "../property/wirings.ts";
import { randomWirings } from "../property/wirings.ts";
import { wordsOf } from "../property/wordsOf.ts";

const run = promisify(execFile);

interface Case {
  readonly name: string;
  readonly text: string;
  readonly file: BitmapFile;
  readonly panel: Panel;
  readonly bitmap: Bitmap;
  readonly table: string;
}

const drawn = wordsOf([...FORMATS.keys()]).filter(({ frames }) => frames <= 3);
const SAMPLES = fc.sample(fc.tuple(randomWirings, drawn, fc.boolean(), fc.boolean(), fc.integer()), {
  numRuns: 140,
  seed: 20261126,
});

/** Numbers that differ from place to place. */
const noise = (seed: number, at: number) => (Math.imul(seed ^ (at * 2654435761), 1597334677) >>> 7) & 0xffffff;

/** A file with a panel, an array for it and its table, where the table is not the panel's own. */
function caseOf(
  [wiring, { words }, driver, shuffled, seed]: (typeof SAMPLES)[number],
  i: number,
  target: "avr" | "host",
): Case {
  const name = `p${i}`;
  const head = target === "avr" ? "#include <avr/pgmspace.h>\n" : "#include <stdint.h>\n";
  const wire = `wire=${wiring.wire}`;
  let text = `${head}// @panel ${name} ${wiring.width}x${wiring.height} ${wire}\n`;
  // Every fourth has a table of its own that follows no rule.
  if (shuffled && i % 2 === 0) text = `${head}${shuffledTable(name, wiring, seed, target)}`;
  const open = () => openText(text, "made.cpp", { target });
  const order = driver ? " order=driver" : "";
  const rest = words.replace(/^\S+/, `${name}`).replace(" -- ", `${order} -- `);
  const full = rest.includes(" -- ") ? rest : `${rest}${order}`;
  const value = (most: number) => (frame: number, index: number) => noise(seed, frame * 997 + index) & most;
  const empty = makeBitmap(open(), { words: full, name: `${name}_art`, offset: text.length });
  if ("refused" in empty) throw new Error(`${wiring.wire} ${full}: ${empty.refused}`);
  const { most } = empty.bitmap.format;
  const made = makeBitmap(open(), { words: full, name: `${name}_art`, offset: text.length, pixels: value(most) });
  if ("refused" in made) throw new Error(made.refused);
  text += `${made.annotation}\n${made.statement}\n`;
  const file = open();
  const panel = file.panels[0] as Panel;
  const bitmap = file.bitmaps.find((b) => b.array.name === `${name}_art`) as Bitmap;
  const table = makeWired(file, panel, "table", { offset: text.length });
  const art = makeWired(file, panel, "draw", { offset: text.length, bitmap });
  if ("refused" in table || "refused" in art)
    throw new Error(`${wiring.wire} ${full}: ${JSON.stringify([table, art])}`);
  return { name, text: `${text}${table.text}\n${art.text}\n`, file, panel, bitmap, table: table.name };
}

function shuffledTable(name: string, { width, height }: RandomWiring, seed: number, target: "avr" | "host"): string {
  const index = Array.from({ length: width * height }, (_, i) => i).sort((a, b) => noise(seed, a) - noise(seed, b));
  const flash = target === "avr" ? " PROGMEM" : "";
  return `// @panel ${name} ${width}x${height}\n// @wiring ${name}\nconst uint16_t ${name}_own[]${flash} = { ${index.join(", ")} };\n`;
}

/** The sum that a program makes of the numbers it is told, one after the other. */
const summed = (numbers: Iterable<number>) => {
  let sum = 17;
  for (const n of numbers) sum = (Math.imul(sum, 31) + n) >>> 0;
  return sum;
};

function* told({ panel, bitmap, file, table }: Case): Generator<number> {
  const { index } = panel.wiring as NonNullable<Panel["wiring"]>;
  yield* index;
  for (let frame = 0; frame < bitmap.frames; frame++) {
    const pixels = pixelsOf(bitmap, frame) as ArrayLike<number>;
    for (let i = 0; i < index.length; i++) {
      yield index[i] as number;
      yield pixels[i] as number;
    }
  }
  // The table is an array like any other: it is read back as the compiler stores it.
  const stored = openText(`${file.source.text}\n${tableOf(file, panel)}`, "made.cpp", { target: file.source.target });
  const array = stored.source.arrays.find((a) => a.name === table);
  yield* elementsOfArray(array as NonNullable<typeof array>) as Uint8Array;
}

function tableOf(file: BitmapFile, panel: Panel): string {
  const made = makeWired(file, panel, "table", { offset: file.source.text.length });
  return "text" in made ? made.text : "";
}

function program(cases: readonly Case[], target: "avr" | "host"): string {
  const flash = target === "avr";
  const calls = cases.map(({ name, panel, bitmap, table }) => {
    const { width = 0, height = 0 } = panel.options;
    const { depth } = bitmap.format;
    const value = depth <= 8 ? 8 : depth <= 16 ? 16 : 32;
    const read = `${table}[i]`;
    const most = Math.max(...(panel.wiring?.index ?? []));
    const entry = flash ? (most < 256 ? `pgm_read_byte(&${read})` : `pgm_read_word(&${read})`) : read;
    const draw =
      bitmap.frames > 1
        ? `for (uint16_t frame = 0; frame < ${bitmap.frames}; frame++) ${name}_draw_frame(${name}_art, frame, put${value});`
        : `${name}_draw(${name}_art, put${value});`;
    return `static void test_${name}() {
  sum = 17;
  for (uint16_t row = 0; row < ${height}; row++) for (uint16_t column = 0; column < ${width}; column++) tell(${name}_address(column, row));
  ${draw}
  for (uint16_t i = 0; i < ${width * height}; i++) tell(${entry});
  print_sum();
}`;
  });
  const io = flash
    ? `#include <avr/io.h>
#include <avr/sleep.h>
#include <avr/interrupt.h>
static void print_char(char c) { while (!(UCSR0A & (1 << UDRE0))) {} UDR0 = c; }
static void begin() { UCSR0B = 1 << TXEN0; }
static void end() { while (!(UCSR0A & (1 << TXC0))) {} cli(); sleep_enable(); sleep_cpu(); }`
    : `#include <cstdio>
static void print_char(char c) { putchar(c); }
static void begin() {}
static void end() {}`;
  return `#include <stdint.h>
${io}
static uint32_t sum;
static void tell(uint32_t n) { sum = sum * 31 + n; }
static void put8(uint16_t index, uint8_t value) { tell(index); tell(value); }
static void put16(uint16_t index, uint16_t value) { tell(index); tell(value); }
static void put32(uint16_t index, uint32_t value) { tell(index); tell(value); }
static void print_sum() {
  for (int8_t i = 7; i >= 0; i--) print_char("0123456789abcdef"[sum >> (4 * i) & 15]);
  print_char('\\n');
}
${cases.map(({ text }) => text).join("\n")}
${calls.join("\n")}
int main() { begin(); ${cases.map(({ name }) => `test_${name}();`).join(" ")} end(); return 0; }
`;
}

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "wiring-"));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** The sums that a program prints; those of the AVR over its serial line, which simavr shows. */
async function sumsOf(text: string, target: "avr" | "host"): Promise<string[]> {
  const source = join(folder, `${target}.cpp`);
  const out = join(folder, `${target}.elf`);
  await writeFile(source, text);
  const compiler = target === "avr" ? ["avr-g++", "-mmcu=atmega2560", "-std=gnu++14"] : ["g++", "-std=c++17"];
  const [name = "", ...flags] = compiler;
  await run(name, [...flags, "-Os", "-Wall", "-Wextra", "-Werror", source, "-o", out], { maxBuffer: 1 << 24 });
  const [command, ...args] = target === "avr" ? ["simavr", "-m", "atmega2560", "-f", "16000000", out] : [out];
  const { stdout, stderr } = await run(command as string, args, { maxBuffer: 1 << 24 });
  // simavr shows lines in colour, with a dot for the line break.
  return [...`${stdout}${stderr}`.matchAll(/^\S*?([0-9a-f]{8})\.?$/gm)].map((m) => m[1] as string);
}

describe.each(["host", "avr"] as const)("made for %s", (target) => {
  it("gives every pixel the address and the value that the model does", async () => {
    const cases = SAMPLES.map((sample, i) => caseOf(sample, i, target));
    const sums = await sumsOf(program(cases, target), target);
    const expected = cases.map((one) => summed(told(one)).toString(16).padStart(8, "0"));
    const wrong = cases.filter((_, i) => sums[i] !== expected[i]).map(({ text }) => text);
    expect(wrong.slice(0, 2)).toEqual([]);
    expect(sums).toEqual(expected);
    expect(cases.some(({ text }) => text.includes("_own[row * "))).toBe(true);
  });
});

const SERIAL = "struct { void begin(long) {} int available() { return 0; } int read() { return 0; } } Serial;";

it("is C as well as C++", async () => {
  const source = join(folder, "made.c");
  const cases = SAMPLES.slice(0, 40).map((sample, i) => caseOf(sample, i, "host"));
  await writeFile(source, cases.map(({ text }) => text).join("\n"));
  await run("gcc", ["-std=c99", "-Wall", "-Wextra", "-Werror", "-fsyntax-only", source], { maxBuffer: 1 << 24 });
});

describe("the probe's sketch", () => {
  it.each([
    ["9x9 gray8 cap=64", 81, 8],
    ["3x2 mono1 wire=16x9", 144, 1],
    ["40x20", 800, 8],
  ])("of a panel %s lights the addresses of each pattern", async (words, addresses, level) => {
    const file = openText(`// @panel sill ${words}\n`, "made.cpp");
    const sketch = makeWired(file, file.panels[0] as Panel, "probe", { offset: 0 });
    if ("refused" in sketch) throw new Error(sketch.refused);
    const patterns = 1 + Math.ceil(Math.log2(addresses));
    const source = join(folder, "probe.cpp");
    await writeFile(
      source,
      `#define PROBE_BY_NUMBER
${sketch.text}
#include <cstdio>
static void record(uint16_t address, uint8_t level) { if (level) printf("%d:%d ", address, level); }
int main() {
  for (int i = 0; i < ${patterns}; i++) { sill_probe(i, record); printf("\\n"); }
  probe_pattern(0);
}`,
    );
    const out = join(folder, "probe.elf");
    await run("g++", ["-std=c++17", "-Wall", "-Wextra", "-Werror", source, "-o", out]);
    // For the AVR with a stand-in for the core's serial line.
    const sketchFile = join(folder, "sketch.cpp");
    await writeFile(sketchFile, `${SERIAL}\n${sketch.text}`);
    await run("avr-g++", [
      "-mmcu=atmega328p",
      "-std=gnu++14",
      "-Wall",
      "-Wextra",
      "-Werror",
      "-c",
      sketchFile,
      "-o",
      `${out}.o`,
    ]);
    const { stdout } = await run(out);
    const all = Array.from({ length: addresses }, (_, i) => i);
    const expected = Array.from({ length: patterns }, (_, pattern) =>
      all
        .filter((i) => pattern === 0 || (i >> (pattern - 1)) % 2 === 1)
        .map((i) => `${i}:${level} `)
        .join(""),
    );
    expect(stdout.split("\n").slice(0, -1)).toEqual(expected);
  });
});
