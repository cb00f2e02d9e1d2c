import { execFile } from "node:child_process";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import type { CompileTarget } from "./compile.ts";

const run = promisify(execFile);

/** The controller that programs run on in simavr: 128 KB of flash, 16 KB of RAM. */
const MACHINE = "atmega1284p";

/**
 * Compiles a C++ program, runs it and gives the lines that it prints: the host's on its standard output, AVR's over the
 * first serial port, in simavr. Signed overflow wraps, as the interpreter has it.
 */
export async function runProgram(text: string, target: CompileTarget): Promise<string[]> {
  const folder = await mkdtemp(join(tmpdir(), "program-"));
  try {
    const source = join(folder, "program.cpp");
    const program = join(folder, "program.elf");
    await writeFile(source, text);
    const common = ["-w", "-fwrapv", source, "-o", program, "-lm"];
    if (target === "host") {
      await run("g++", ["-std=c++17", "-O0", ...common], { maxBuffer: 1 << 26 });
      const { stdout } = await run(program, [], { maxBuffer: 1 << 26 });
      return stdout.trimEnd().split("\n");
    }
    await run("avr-g++", ["-std=gnu++14", "-Os", `-mmcu=${MACHINE}`, ...common], { maxBuffer: 1 << 26 });
    const { stderr } = await run("simavr", ["-m", MACHINE, "-f", "16000000", program], { maxBuffer: 1 << 26 });
    return serialLines(stderr);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/**
 * simavr shows each line of the serial port in colour and with a point in place of its end, among what it says itself.
 * Lines are cut at 256 characters.
 */
function serialLines(output: string): string[] {
  const lines: string[] = [];
  for (const line of output.split("\n")) {
    const plain = line.split("\u001b").map((part) => part.replace(/^\[\d*m/, ""));
    const m = /^([0-9a-z -]+)\.$/.exec(plain.join("").trim());
    if (m) lines.push(m[1] as string);
  }
  return lines;
}
