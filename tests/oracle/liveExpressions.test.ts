import { describe, expect, it } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import type { Routine } from "../../shared/motion/interpret/context.ts";
import { readProgram } from "../../shared/motion/interpret/globals.ts";
import { Stopped } from "../../shared/motion/interpret/machine.ts";
import { call, entryOf, restart } from "../../shared/motion/interpret/run.ts";
import { runProgram } from "../support/firmwareRun.ts";
import { type Random, seeded } from "./corpus/random.ts";
import { PARAMETERS, real, whole } from "./live/expressions.ts";

type Target = "avr" | "host";

interface Sample {
  readonly code: string;
  readonly real: boolean;
}

/** Values of the parameters, in order; the last two are floats. */
type Values = readonly (number | bigint)[];

function valuesFrom(random: Random): Values {
  const edge = (bits: number, signed: boolean): bigint => {
    const edges = [0n, 1n, -1n, 1n << BigInt(bits - 1), (1n << BigInt(bits - 1)) - 1n, 7n];
    const any = BigInt(random.int(0, 2 ** 30)) * BigInt(random.int(0, 2 ** 30)) * 16n + BigInt(random.int(0, 15));
    const value = random.chance(0.4) ? random.pick(edges) : any;
    return signed ? BigInt.asIntN(bits, value) : BigInt.asUintN(bits, value);
  };
  const whole = [8, 8, 16, 16, 32, 32].map((bits, i) => Number(edge(bits, i % 2 === 0)));
  const float = () =>
    Math.fround(
      random.pick([0, 1, -0.5, 1 / 3, 1e10, -2.5e-8, random.int(-9999, 9999) / 97, random.int(-30000, 30000)]),
    );
  return [...whole, edge(64, true), edge(64, false), float(), float()];
}

function samplesFrom(random: Random, wholes: number, reals: number): Sample[] {
  const list: Sample[] = [];
  for (let i = 0; i < wholes; i++) list.push({ code: whole(random, random.int(1, 4), i % 5 === 0), real: false });
  for (let i = 0; i < reals; i++) list.push({ code: real(random, random.int(1, 4)), real: true });
  return list;
}

const functions = (samples: readonly Sample[]) =>
  samples.map(({ code, real: float }, i) => `${float ? "float" : "int64_t"} f${i}(${PARAMETERS}) { return ${code}; }`);

const hex = (v: number | bigint) => `0x${BigInt.asUintN(64, BigInt(v)).toString(16)}`;

function program(samples: readonly Sample[], rows: readonly Values[], target: Target): string {
  const avr = target === "avr";
  const argument = (v: number | bigint, i: number) =>
    i >= 8
      ? `${Math.fround(Number(v)) === 0 ? "0.0f" : `${(v as number).toExponential(12)}f`}`
      : `(${["int8_t", "uint8_t", "int16_t", "uint16_t", "int32_t", "uint32_t", "int64_t", "uint64_t"][i]})${hex(v)}ull`;
  return `#include <stdint.h>
#include <string.h>
#include <math.h>
${avr ? "#include <avr/io.h>\n#include <avr/interrupt.h>\n#include <avr/sleep.h>\nstatic void emit(char c) { while (!(UCSR0A & (1 << UDRE0))) { } UDR0 = c; }" : "#include <stdio.h>\nstatic void emit(char c) { putchar(c); }"}
static void put(uint8_t v) { emit("0123456789abcdef"[v >> 4]); emit("0123456789abcdef"[v & 15]); }
static void show(int64_t v) { for (int8_t i = 7; i >= 0; i--) put((uint8_t)(v >> (8 * i))); }
static void show(float v) { uint32_t bits; memcpy(&bits, &v, 4); if (v != v) bits = 0x7fc00000; for (int8_t i = 3; i >= 0; i--) put((uint8_t)(bits >> (8 * i))); }
${functions(samples)
  .map((f) => `static __attribute__((noinline)) ${f}`)
  .join("\n")}
static __attribute__((noinline)) void row(${PARAMETERS}) {
${samples.map((_, i) => `show(f${i}(a, b, c, d, e, g, h, k, p, q)); emit('\\n');`).join("\n")}
}
int main() {
${avr ? "UCSR0A = 1 << U2X0; UBRR0 = 0; UCSR0B = 1 << TXEN0;" : ""}
${rows.map((values) => `row(${values.map(argument).join(", ")});`).join("\n")}
${avr ? "cli(); sleep_enable(); sleep_cpu(); for (;;) { }" : ""}
}`;
}

function interpreted(samples: readonly Sample[], rows: readonly Values[], target: Target): string[] {
  const text = functions(samples).join("\n");
  const cx = readProgram(openText(text, "a.cpp", { target }).source, false);
  const routine = (i: number): Routine => {
    const meaning = cx.globals.get(`f${i}`);
    if (meaning?.kind !== "routines") throw new Error(`f${i} is not read`);
    return meaning.routines[0] as Routine;
  };
  const entries = samples.map((_, i) => entryOf(cx, routine(i)));
  if (cx.problems.length > 0)
    throw new Error(cx.problems.map((p) => `${p.message} ${text.slice(p.start, p.end)}`).join("\n"));
  restart(cx);
  const float = new Float32Array(1);
  const bits = new Uint32Array(float.buffer);
  const lines: string[] = [];
  for (const values of rows)
    for (const [i, entry] of entries.entries()) {
      try {
        const result = call(cx, entry, values);
        if (!samples[i]?.real) lines.push(BigInt.asUintN(64, BigInt(result)).toString(16).padStart(16, "0"));
        else {
          float[0] = Number(result);
          lines.push(Number.isNaN(result) ? "7fc00000" : (bits[0] as number).toString(16).padStart(8, "0"));
        }
      } catch (error) {
        lines.push(error instanceof Stopped ? error.message : String(error));
      }
    }
  return lines;
}

/** How many expressions, and with how many rows of values: what fits in a controller's flash is fewer. */
const SIZES = { host: [800, 250, 8], avr: [180, 120, 12] } as const;

describe.each(["host", "avr"] as const)("random expressions give what the compiler's code gives: %s", (target) => {
  it("to the last bit", async () => {
    const random = seeded(20_261_126);
    const [wholes, reals, count] = SIZES[target];
    const samples = samplesFrom(random, wholes, reals);
    const rows = Array.from({ length: count }, () => valuesFrom(random));
    const theirs = await runProgram(program(samples, rows, target), target);
    const own = interpreted(samples, rows, target);
    expect(theirs.length).toBe(own.length);
    const wrong = own.flatMap((line, i) => {
      const sample = samples[i % samples.length] as Sample;
      const row = rows[Math.floor(i / samples.length)];
      return line === theirs[i] ? [] : [`${sample.code}\n  of ${row?.join(", ")}: ${line}, not ${theirs[i]}`];
    });
    // The shortest tells most.
    wrong.sort((a, b) => a.length - b.length);
    expect(`${wrong.length} wrong\n${wrong.slice(0, 6).join("\n")}`).toBe("0 wrong\n");
  });
});
