/** What the fix for arrays in RAM writes is judged by avr-g++: it compiles, and the array lies in program memory. */
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { storageOf } from "../../shared/bitmap/storage.ts";
import { checkFile, fixesOf } from "../../shared/checks/all.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { compileBytes } from "../support/compile.ts";

const SKETCH = `#include <stdint.h>
#include <avr/pgmspace.h>
// @bitmap 4x4
static const uint8_t bytes[16] = { 1, 2, 3, 4, 5, 6 };
// @bitmap 8x2
const uint8_t rows[2][8] = { { 1, 2, 3 }, { 4, 5, 6 } };
// @bitmap 8x1 rgb565
uint16_t colours[] = { 0xF81F, 0x0A33, 1, 2, 3, 4, 5, 6 };
// @bitmap 4x1 pack=each
static int32_t wide[4] = { 7, -1 };
// @bitmap 4x4 pack=each
constexpr int8_t small[16] = { 7, -1 };
uint8_t plain(const uint8_t *from) { return *from; }
int sum(uint8_t i) {
  // @bitmap 16x1
  static const uint8_t local[16] = { 9, 8 };
  int all = bytes[i] + bytes[bytes[i] & 3] * rows[i & 1][2];
  all += wide[1] > small[1] ? local[0] : -small[0];
  return (all & colours[i]) + sizeof(bytes) / sizeof(bytes[0]);
}
uint8_t kept[2] = { 1, 1 };
uint8_t use() { return plain(kept); }
`;

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "in-ram-"));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

it("moves every array to program memory, with the same bytes", async () => {
  let text = SKETCH;
  const name = "sketch.cpp";
  const open = () => openText(text, name, { target: "avr" });
  const before = await compiled(text);
  const names = open().bitmaps.map((b) => b.array.name);
  expect(names).toEqual(["bytes", "rows", "colours", "wide", "small", "local"]);
  for (const bitmap of open().bitmaps) {
    expect(storageOf(open().source, bitmap.array)?.kind).toBe("copied");
    expect(sectionOf(before, bitmap.array.name)).toMatch(/^\.(ro)?data/);
  }
  const pictures = open().bitmaps.map((b) => Array.from(pixelsOf(b, 0) ?? []));
  for (;;) {
    const file = open();
    const fix = checkFile(file)
      .flatMap((finding) => fixesOf(file, finding))
      .find(({ kind }) => kind === "to-flash");
    if (!fix) break;
    text = applyEdits(text, fix.edits);
  }
  const after = await compiled(text);
  for (const array of names) {
    expect([array, sectionOf(after, array)]).toEqual([array, ".progmem.data"]);
    expect(bytesOf(after, array)).toEqual(bytesOf(before, array));
  }
  expect(open().bitmaps.map((b) => Array.from(pixelsOf(b, 0) ?? []))).toEqual(pictures);
  for (const { array } of open().bitmaps) expect(storageOf(open().source, array)?.kind).toBe("flash");
  // Nothing reads an element of them any more but by what reads flash.
  expect(text.match(/pgm_read_\w+\(&/g)).toHaveLength(9);
});

async function compiled(text: string) {
  const path = join(folder, "sketch.cpp");
  await writeFile(path, text);
  return compileBytes(path, { target: "avr" });
}

type Objects = Awaited<ReturnType<typeof compiled>>;

function find(objects: Objects, name: string) {
  return [...objects].find(([qualified]) => qualified === name || qualified.endsWith(`::${name}`))?.[1];
}

function sectionOf(objects: Objects, name: string): string | undefined {
  return find(objects, name)?.section;
}

function bytesOf(objects: Objects, name: string): number[] {
  return Array.from(find(objects, name)?.bytes ?? []);
}
