/** Compilers accept arrays with other frames and sizes, and store what is read from them. */
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import type { Restructuring } from "../../shared/bitmap/restructure/change.ts";
import { restructure } from "../../shared/bitmap/restructure/restructure.ts";
import { checkFile } from "../../shared/checks/all.ts";
import { storedBits } from "../../shared/source/arrays.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { TARGETS } from "./corpus/arithmetic.ts";
import { seeded } from "./corpus/random.ts";
import { type Bench, judge, openBench } from "./judge.ts";

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench.close());

/** Every way of declaring a size, and lists set in several ways. */
const TEXT = `#include <stdint.h>
#define FRAMES 2
#define ROWS 2
#define COLUMNS 3
#define MASK_W 12
#define MASK_H 4
#define MASK_BYTES (((MASK_W + 7) / 8) * MASK_H)
#define DARK 0
#define GLOW 64
enum { GLYPHS = 3 };
// @bitmap 3x2 frames=2
const uint8_t named[FRAMES * ROWS * COLUMNS] = {
  DARK, GLOW, DARK, /* frame 0 */
  1, 2, 3,
  GLOW, DARK, GLOW, /* frame 1 */
  4, 5, 6,
};
// @bitmap 12x4 mono1
const uint8_t mask[MASK_BYTES] = {
  0x0F, 0x00, // ....####....
  0xF0, 0xF0, // ####....####
  0x00, 0x10, // ...........#
  0x80, 0x00, // #...........
};
// @bitmap 2x2 frames=2
const uint8_t cube[2][2][2] = {{{1, 2}, {3, 4}}, {{5, 6}, {7, 8}}};
// @bitmap 5x7 mono1 pack=columns frames=2
const uint8_t glyphs[][5] = {
  {0x7E, 0x11, 0x11, 0x11, 0x7E},
  {0x7F, 0x49, 0x49, 0x49, 0x36}
};
const uint8_t widths[GLYPHS] = {3, 2, 1};
// @bitmap 3x1 mono1 frames=3 first='A' widths=widths
const uint8_t letters[3] = {0x20, 0x40, 0xE0};
// @bitmap 2x1 rgb565
const uint16_t sky[2] = {0xF81F, 0x07E0};
// @bitmap 4x2 gray4
const uint8_t half[] = {0x12, 0x34, 0x56, 0x78};
// @bitmap 8x16 mono1 pack=pages
const uint8_t pages[16] = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16};
// @bitmap 2x2
const int8_t wave[4] = {1, 2, -3, 4};
// @bitmap 9x9
const uint8_t blank[81] = {0};
`;

type Opened = ReturnType<typeof openText>;

function changesOf({ frames, width, height }: Bitmap): Restructuring[] {
  const random = seeded(width * height * frames);
  const all = Array.from({ length: frames }, (_, i) => i);
  return [
    { kind: "frames", order: [...all, "dark"] },
    { kind: "frames", order: ["dark", ...all.reverse(), random.int(0, frames - 1)] },
    { kind: "frames", order: [random.int(0, frames - 1)] },
    { kind: "size", left: 0, top: 1, right: 1, bottom: 0 },
    { kind: "size", left: 0, top: 0, right: -1, bottom: 2 },
    { kind: "size", left: 5, top: 0, right: 0, bottom: 0 },
  ];
}

describe("the compiler stores what is read from a restructured array", () => {
  const cases = TARGETS.flatMap((target) => ["art.cpp", "art.c"].map((name) => [name, target] as const));
  it.each(cases)("%s for %s", async (name, target) => {
    const open = (text: string): Opened => openText(text, name, { target });
    const world = { reopen: open, findings: checkFile };
    const done = new Map<string, number>();
    for (let round = 0; round < 6; round++) {
      let text = TEXT;
      for (const { array } of open(TEXT).bitmaps) {
        const file = open(text);
        const bitmap = file.bitmaps.find((b) => b.array.name === array.name) as Bitmap;
        const change = changesOf(bitmap)[round] as Restructuring;
        const made = restructure(file, bitmap, change, world);
        if ("refused" in made) continue;
        text = applyEdits(text, made.edits);
        done.set(array.name, (done.get(array.name) ?? 0) + 1);
      }
      const path = join(bench.folder, `${target}-restructured-${round}-${name}`);
      await writeFile(path, text);
      const stored = await judge(path, target, bench);
      for (const array of open(text).source.arrays) {
        const [bytes] = stored.get(array.name) ?? [];
        const bits = storedBits(array);
        if (!bytes || !bits) throw new Error(`${array.name} is not in the object file`);
        expect([array.name, Buffer.from(bytes).toString("hex")]).toEqual([
          array.name,
          Buffer.from(bits.buffer, bits.byteOffset, bits.byteLength).toString("hex"),
        ]);
      }
    }
    for (const { array } of open(TEXT).bitmaps)
      expect([array.name, done.get(array.name) ?? 0]).toEqual([array.name, expect.toSatisfy((n: number) => n >= 4)]);
  });
});
