/** What a motion's function costs an ATmega1284P: cycles a frame, counted by its timer in simavr, and bytes of flash. */
import { execFile } from "node:child_process";
import { promisify } from "node:util";
import { openText } from "../../../shared/bitmap/open.ts";
import { firmwareBytes } from "../../../shared/motion/facts.ts";
import { styleOf } from "../../../shared/motion/firmware/place.ts";
import { functionOf } from "../../../shared/motion/firmware/write.ts";
import { orderOf } from "../../../shared/motion/kernel/timeline.ts";
import { motionsOf } from "../../../shared/motion/resolve.ts";
import { compiled, inFolder, simulated } from "./program.ts";

const run = promisify(execFile);

export interface Cost {
  readonly frames: number;
  /** Cycles of the dearest frame and of the mean one, the call included. */
  readonly most: number;
  readonly mean: number;
  /** Bytes of flash: of the function's instructions, and of its tables, the image and the mask. */
  readonly code: number;
  readonly data: number;
}

/** The cost of the only motion of a source. */
export async function costOf(source: string): Promise<Cost> {
  const file = openText(source, "cost.cpp");
  const [motion] = motionsOf(file);
  const written = motion && functionOf(file, motion, motion.name, styleOf(file));
  if (!motion?.moving || typeof written !== "string") throw new Error("no function");
  const frames = orderOf(motion.moving.timeline).length;
  const text = `${PRELUDE}uint8_t pixels[${motion.moving.image.length}];
${source}
__attribute__((noinline)) ${written}
int main() {
  UCSR0B = 1 << TXEN0;
  TCCR1B = 1 << CS10;
  for (uint16_t n = 0; n < ${frames}; n++) {
    TCNT1 = 0;
    ${motion.name}(n, pixels);
    print(TCNT1);
  }
  cli();
  sleep_enable();
  sleep_cpu();
}
`;
  return inFolder(async (folder) => {
    const program = await compiled(text, "avr", folder);
    const cycles = (await simulated(program)).map((line) => Number.parseInt(line, 16));
    if (cycles.length !== frames) throw new Error(`${cycles.length} of ${frames} frames were counted`);
    const { stdout } = await run("avr-nm", ["-S", "--demangle", program]);
    const size = new RegExp(`^\\w+ (\\w+) [Tt] ${motion.name}\\(`, "m").exec(stdout)?.[1];
    if (size === undefined) throw new Error(`no size of ${motion.name}`);
    const mean = cycles.reduce((sum, n) => sum + n, 0) / frames;
    const code = Number.parseInt(size, 16);
    return { frames, most: Math.max(...cycles), mean: Math.round(mean), code, data: firmwareBytes(motion) };
  });
}

const PRELUDE = `#include <stdint.h>
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/pgmspace.h>
#include <avr/sleep.h>
static void put(char c) {
  while (!(UCSR0A & (1 << UDRE0))) {
  }
  UDR0 = c;
}
static void print(uint16_t n) {
  for (int8_t shift = 12; shift >= 0; shift -= 4) put("0123456789abcdef"[(n >> shift) & 15]);
  put('\\n');
}
`;
