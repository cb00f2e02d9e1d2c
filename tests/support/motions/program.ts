/**
 * Programs that compute the frames of motions with the functions that Dotwright writes, and print them; for this
 * machine and for an ATmega1284P in simavr.
 */
import { execFile } from "node:child_process";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { openText } from "../../../shared/bitmap/open.ts";
import { pixelsOf } from "../../../shared/bitmap/resolve.ts";
import { styleOf } from "../../../shared/motion/firmware/place.ts";
import { functionOf } from "../../../shared/motion/firmware/write.ts";
import { frameAt, framesOf } from "../../../shared/motion/kernel/frame.ts";
import { orderOf } from "../../../shared/motion/kernel/timeline.ts";
import type { Motion } from "../../../shared/motion/resolve.ts";
import { motionsOf } from "../../../shared/motion/resolve.ts";
import { numbers } from "./random.ts";

const run = promisify(execFile);

export type Machine = "host" | "avr";

/** One call of a function and the levels that must come of it. */
interface Call {
  readonly text: string;
  readonly wanted: Uint8Array;
}

export interface Program {
  /** Source of the whole program in C++. */
  readonly text: string;
  /** The motions' arrays, and the functions alone. */
  readonly source: string;
  readonly functions: string;
  readonly motions: number;
  readonly calls: readonly Call[];
}

/** Frames that are asked for beyond the end of a run. */
const BEYOND = 2;
/** Frames of a run that are asked for; of longer ones the first and the last. */
const MOST = 24;

/** The program of a source with motions before functions that are to be written. Throws where one can't be. */
export function programOf(source: string): Program {
  const file = openText(source, "motions.cpp");
  const next = numbers(source.length);
  const functions: string[] = [];
  const calls: Call[] = [];
  const motions = motionsOf(file);
  for (const motion of motions) {
    const written = functionOf(file, motion, motion.name, styleOf(file));
    if (typeof written !== "string") throw new Error(`${motion.name}: ${written.refused}`);
    functions.push(written);
    calls.push(...(motion.glyphs ? glyphCalls(motion, next) : frameCalls(motion)));
  }
  const most = Math.max(...calls.map((c) => c.wanted.length));
  const printed = calls.map(({ text, wanted }) => `  ${text} print(${wanted.length});`);
  // A function for some calls each: one of thousands of calls takes a compiler long.
  const groups: string[] = [];
  for (let i = 0; i < printed.length; i += 50)
    groups.push(`void NOT_INLINE group${i / 50}() {\n${printed.slice(i, i + 50).join("\n")}\n}`);
  const main = `int main() {\n  begin();\n${groups.map((_, i) => `  group${i}();`).join("\n")}\n  end();\n}`;
  const text = [PRELUDE.replaceAll("MOST", String(most)), source, ...functions, ...groups, main].join("\n");
  return { text, source, functions: functions.join("\n"), motions: motions.length, calls };
}

function frameCalls(motion: Motion): Call[] {
  if (!motion.moving) return [];
  const frames = framesOf(motion.moving);
  const order = orderOf(motion.moving.timeline);
  const { loop } = motion.moving.timeline;
  const asked = Array.from({ length: order.length + BEYOND }, (_, n) => n).filter(
    (n) => n < MOST - 4 || n > order.length - 4,
  );
  return asked.map((n) => {
    const place = loop === "once" ? Math.min(n, order.length - 1) : n % order.length;
    return { text: `${motion.name}(${n}, pixels);`, wanted: frames[order[place] as number] as Uint8Array };
  });
}

function glyphCalls({ name, moving, image }: Motion, next: (below: number) => number): Call[] {
  if (!moving || !image) return [];
  const { bitmap } = image;
  const glyph = (frame: number) => Uint8Array.from(pixelsOf(bitmap, frame) ?? []);
  const calls: Call[] = [];
  for (let k = 0; k < 6; k++) {
    const [before, after] = [next(bitmap.frames), next(bitmap.frames)];
    const { positions } = moving.timeline;
    const position = k === 0 ? (positions[0] as number) : next(500) - 120;
    const first = frameAt({ ...moving, image: glyph(after), under: glyph(before) }, position);
    calls.push({ text: `${name}(${before}, ${after}, 0, ${position}, pixels);`, wanted: first });
    // A change in the middle of that one begins with what it shows.
    const other = next(bitmap.frames);
    const later = next(500) - 120;
    const over = frameAt({ ...moving, image: glyph(other), under: first }, later);
    calls.push({ text: `${name}(${after}, ${other}, kept, ${later}, pixels);`, wanted: over });
  }
  return calls;
}

const PRELUDE = `#include <stdint.h>
#include <string.h>
#define NOT_INLINE __attribute__((noinline))
#ifdef __AVR__
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/pgmspace.h>
#include <avr/sleep.h>
static void put(char c) {
  while (!(UCSR0A & (1 << UDRE0))) {
  }
  UDR0 = c;
}
static void begin() { UCSR0B = 1 << TXEN0; UBRR0 = 0; }
static void end() { cli(); sleep_enable(); sleep_cpu(); }
#else
#include <stdio.h>
#define PROGMEM
#define pgm_read_byte(address) (*(const uint8_t *)(address))
#define pgm_read_word(address) (*(const uint16_t *)(address))
static void put(char c) { putchar(c); }
static void begin() {}
static void end() {}
#endif
uint8_t pixels[MOST];
/* What was printed last. */
uint8_t kept[MOST];
static void NOT_INLINE print(uint16_t count) {
  for (uint16_t i = 0; i < count; i++) {
    if (i % 64 == 0 && i > 0) put('\\n');
    put("0123456789abcdef"[pixels[i] >> 4]);
    put("0123456789abcdef"[pixels[i] & 15]);
  }
  put('\\n');
  memcpy(kept, pixels, sizeof kept);
  memset(pixels, 0xEE, sizeof pixels);
}
`;

/** What the program prints, as the bytes of all its calls one after the other. */
export async function outputOf(text: string, machine: Machine): Promise<Uint8Array> {
  return inFolder(async (folder) => {
    const program = await compiled(text, machine, folder);
    if (machine === "host") {
      const { stdout } = await run(program, { maxBuffer: 1 << 28 });
      return Buffer.from(stdout.replaceAll("\n", ""), "hex");
    }
    return Buffer.from((await simulated(program)).join(""), "hex");
  });
}

/** The lines that a program for the controller prints in simavr, which shows them in green, with a point at each end. */
export async function simulated(program: string): Promise<string[]> {
  const options = { maxBuffer: 1 << 28, timeout: 200_000 };
  const { stderr } = await run("simavr", ["-m", "atmega1284p", "-f", "16000000", program], options);
  const [green, plain] = ["\u001b[32m", "\u001b[0m"];
  const lines = stderr.split("\n").filter((line) => line.includes(green));
  return lines.map((line) => line.replace(plain, "").replace(green, "").replace(/\.$/, ""));
}

/** Compiles with all warnings as errors, since the functions go into other people's builds. Returns the program's file. */
export async function compiled(text: string, machine: Machine, folder: string): Promise<string> {
  const source = join(folder, "program.cpp");
  const program = join(folder, "program.elf");
  await writeFile(source, text);
  const warnings = ["-Wall", "-Wextra", "-Werror", "-Wno-unused-function"];
  // Of two equal constants, one in flash and one in memory, avr-gcc 5 makes one (GCC bug 92606, from memory).
  const apart = ["-fno-ipa-icf"];
  const [compiler, ...flags] =
    machine === "host"
      ? ["g++", "-std=c++11", "-O1"]
      : ["avr-g++", "-std=gnu++11", "-Os", "-mmcu=atmega1284p", ...apart];
  await run(compiler as string, [...flags, ...warnings, source, "-o", program], { maxBuffer: 1 << 26 });
  return program;
}

/** Throws with the compiler's message where a text is no C11 without warnings. */
export async function acceptedAsC(text: string, machine: Machine): Promise<void> {
  await inFolder(async (folder) => {
    const file = join(folder, "motions.c");
    const flash =
      "#define PROGMEM\n#define pgm_read_byte(a) (*(const uint8_t *)(a))\n#define pgm_read_word(a) (*(const uint16_t *)(a))\n";
    await writeFile(file, `#include <stdint.h>\n${machine === "avr" ? "#include <avr/pgmspace.h>\n" : flash}${text}`);
    const compiler = machine === "avr" ? ["avr-gcc", "-mmcu=atmega328p"] : ["gcc"];
    const flags = ["-std=c11", "-Wall", "-Wextra", "-Werror", "-Wno-unused-function", "-fsyntax-only"];
    await run(compiler[0] as string, [...compiler.slice(1), ...flags, file]);
  });
}

export async function inFolder<T>(use: (folder: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), "motions-"));
  try {
    return await use(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
