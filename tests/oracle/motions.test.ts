/**
 * The functions that Dotwright writes for motions, compiled by g++ and by avr-g++, and run: the latter in Debian's
 * simavr, an instruction-level simulator of AVR controllers. Every frame must be that of the preview, byte for byte.
 */
import { expect, test } from "vitest";
import { acceptedAsC, outputOf, programOf } from "../support/motions/program.ts";
import { randomSource } from "../support/motions/random.ts";

/** Motions of one program, so that its tables stay within the 64 kB of flash that 16-bit pointers reach. */
const EACH = 104;
const PROGRAMS = 5;

const programs = Array.from({ length: PROGRAMS }, (_, i) => programOf(randomSource(1000 + i, EACH)));

test("the random motions are many, and of all kinds", () => {
  const all = programs.map((p) => p.text).join("\n");
  expect(programs.reduce((sum, p) => sum + p.motions, 0)).toBeGreaterThanOrEqual(500);
  for (const [what, least] of [
    [/uint16_t before/g, 50],
    [/int16_t positions\[/g, 100],
    [/pack=pages/g, 5],
    [/invert/g, 5],
    [/mask=m\d/g, 100],
    [/mask=noise/g, 30],
  ] as const)
    expect(all.match(what)?.length ?? 0, String(what)).toBeGreaterThanOrEqual(least);
});

test.each(["host", "avr"] as const)("%s: every frame is that of the preview", async (machine) => {
  let compared = 0;
  for (const { text, calls } of programs) {
    const bytes = await outputOf(text, machine);
    let at = 0;
    const wrong: string[] = [];
    for (const { text: call, wanted } of calls) {
      const got = bytes.subarray(at, at + wanted.length);
      if (Buffer.compare(got, wanted) !== 0) wrong.push(`${call} gave ${[...got]}, not ${[...wanted]}`);
      at += wanted.length;
    }
    expect(wrong.slice(0, 3)).toEqual([]);
    expect(bytes.length).toBe(at);
    compared += at;
  }
  console.info(
    `${machine}: ${compared} bytes of ${programs.reduce((sum, p) => sum + p.calls.length, 0)} frames compared`,
  );
});

test.each(["host", "avr"] as const)("%s: the functions are C11 as well", async (machine) => {
  for (const { functions, source } of programs) await acceptedAsC(`${source}\n${functions}`, machine);
});
