/** Motions: how fast the preview computes frames, and what the function written for firmware costs a controller. */
import { openText } from "../../shared/bitmap/open.ts";
import { frameAt } from "../../shared/motion/kernel/frame.ts";
import { motionsOf } from "../../shared/motion/resolve.ts";
import { costOf } from "../support/motions/cycles.ts";
import type { Row } from "./measure.ts";
import { median, row } from "./measure.ts";

/** Frames a second that a preview may need: 60 at any size, and so many motions at once in a gallery. */
const ENOUGH = 600;
/** An ATmega1284P at 16 MHz that shows 60 frames a second has 266,666 cycles for each; half of them for the picture. */
const CYCLES = 133_333;
/** Less than the frames take, baked: at 16×16 four of them. */
const FLASH = 1024;

export async function benchMotions(): Promise<Row[]> {
  const rows: Row[] = [];
  for (const [width, height] of [
    [9, 9],
    [16, 16],
    [128, 64],
  ] as const) {
    const [motion] = motionsOf(openText(reveal(width, height), "bench.cpp"));
    const moving = motion?.moving;
    if (!moving) throw new Error("no motion");
    const { positions } = moving.timeline;
    const ms =
      median(() => positions.map((position) => frameAt(moving, position)[0] as number), 0.5) / positions.length;
    const rate = 1000 / ms;
    rows.push(
      row(
        `Frames of a motion computed, ${width}×${height}`,
        `${thousands(rate)} a second`,
        `≥ ${ENOUGH}`,
        rate >= ENOUGH,
      ),
    );
  }
  for (const [width, height] of [
    [9, 9],
    [16, 16],
  ] as const) {
    const { mean, most, code, data } = await costOf(reveal(width, height));
    const cycles = `${thousands(mean)} cycles, at most ${thousands(most)}`;
    const what = `A frame in firmware (avr-gcc -Os, ATmega1284P in simavr), ${width}×${height}`;
    rows.push(row(what, cycles, `≤ ${thousands(CYCLES)} cycles`, most <= CYCLES));
    const flash = `${code} + ${data} bytes of flash`;
    rows.push(row("… its function and the data that it reads", flash, `≤ ${FLASH} bytes`, code + data <= FLASH));
  }
  return rows;
}

/** The lantern's motion at a size: a soft ring that uncovers a gradient. */
function reveal(width: number, height: number): string {
  const levels = Array.from({ length: width * height }, (_, i) => (i * 7) % 65);
  return `// @bitmap ${width}x${height} cap=64
const uint8_t drop[${width * height}] PROGMEM = { ${levels.join(", ")} };
// @motion image=drop mask=radial soft=90 rim=8 from=345 to=-90 step=15 loop=there-and-back
void after();
`;
}

function thousands(n: number): string {
  return Math.round(n).toLocaleString("en-US");
}
