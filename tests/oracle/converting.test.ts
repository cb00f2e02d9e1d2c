/** Compilers accept what was converted and store what is read from it; Pillow turns and mirrors pictures the same way. */
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { conversionsOf, convert } from "../../shared/bitmap/convert/convert.ts";
import { editPixels } from "../../shared/bitmap/edit.ts";
import { makeBitmap } from "../../shared/bitmap/make.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { placed, placeNear } from "../../shared/bitmap/place.ts";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { checkFile } from "../../shared/checks/all.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import { storedBits } from "../../shared/source/arrays.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { wordsOf } from "../property/wordsOf.ts";
import { arrayText } from "../support/arrayText.ts";
import { decodeRaw } from "../support/pillow.ts";
import { TARGETS } from "./corpus/arithmetic.ts";
import { seeded } from "./corpus/random.ts";
import { type Bench, judge, openBench } from "./judge.ts";

const HEADS = {
  "plain.cpp": "#include <stdint.h>\n",
  "plain.c": "#include <stdint.h>\n",
  "sketch.ino": "",
  "chars.cpp": `// @bitmap 8x1 mono1
static const unsigned char dot[] = {
	0x0a,
};
${[0, 1, 2, 3].map((n) => `// @bitmap 3x2\nconst unsigned char rows${n}[2][3] = {{1, 2, 3}, {${n}}};`).join("\n")}
${[0, 1, 2, 3].map((n) => `// @bitmap 5x3 mono1 pack=columns frames=2\nconst unsigned short glyphs${n}[][5] = {\n  {1, 2, 3}, {7, 7, 7, 7, ${n}}\n};`).join("\n")}
`,
};
const WORDS = fc.sample(wordsOf([...FORMATS.keys()]), { numRuns: 50, seed: 12 });

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench.close());

type Opened = ReturnType<typeof openText>;
type Open = (text: string) => Opened;

/** A file with a bitmap of few colours for each of the words. */
function painted(name: string, head: string, open: Open): string {
  const random = seeded(name.length);
  let text = head;
  WORDS.forEach(({ words }, i) => {
    const file = open(text);
    const made = makeBitmap(file, { words, name: `art${i}`, offset: text.length });
    if ("refused" in made) throw new Error(`${words}: ${made.refused}`);
    const body = `${made.annotation}\n${made.statement}`;
    text = applyEdits(text, [placed(placeNear(file.source, text.length), body, "\n").edit]);
    const bitmap = open(text).bitmaps.find((b) => b.array.name === `art${i}`) as Bitmap;
    const { width, height, frames, format } = bitmap;
    const values = [0, format.most, random.int(0, format.most)];
    const changes = Array.from({ length: width * height * frames }, (_, at) => {
      const pixel = at % (width * height);
      const [x, y] = [pixel % width, Math.floor(pixel / width)];
      return { frame: Math.floor(at / (width * height)), x, y, value: random.pick(values) };
    });
    const edited = editPixels(text, bitmap, changes);
    if ("refused" in edited) throw new Error(`${words}: ${edited.refused}`);
    text = applyEdits(text, edited.edits);
  });
  return text;
}

/** One conversion for each bitmap of the text; what was done to how many. */
function convertedAll(before: string, open: Open): { text: string; done: Map<string, number> } {
  const done = new Map<string, number>();
  let text = before;
  for (const { array } of open(before).bitmaps) {
    const file = open(text);
    const bitmap = file.bitmaps.find((b) => b.array.name === array.name);
    if (!bitmap) continue;
    // What has been done least comes first, so that every kind is judged.
    const times = (id: string) => done.get(id) ?? 0;
    const offered = conversionsOf(file, bitmap).map(({ id }) => id);
    for (const id of offered.sort((a, b) => times(a) - times(b))) {
      const made = convert(file, bitmap, id, { reopen: open, findings: checkFile });
      if ("refused" in made) continue;
      text = applyEdits(text, made.edits);
      done.set(id, times(id) + 1);
      break;
    }
  }
  return { text, done };
}

const CASES = TARGETS.flatMap((target) => Object.entries(HEADS).map(([name, head]) => [name, target, head] as const));

describe("the compiler stores what is read from a converted array", () => {
  it.each(CASES)("%s for %s", async (name, target, head) => {
    const open: Open = (text) => openText(text, name, { target });
    const { text, done } = convertedAll(painted(name, head, open), open);
    expect([...done.values()].reduce((sum, n) => sum + n, 0)).toBeGreaterThan(40);
    const kinds = new Set([...done.keys()].map((id) => id.replace(/:.*/, "")));
    for (const kind of ["format", "pack", "scan", "bits", "invert", "width", "turn", "literal", "frames"])
      expect(kinds).toContain(kind);
    expect(done.size).toBeGreaterThan(25);
    const path = join(bench.folder, `${target}-converted-${name}`);
    await writeFile(path, text);
    const stored = await judge(path, target, bench);
    const { bitmaps, palettes } = open(text);
    expect(bitmaps.length).toBeGreaterThan(40);
    for (const { array } of [...bitmaps, ...palettes]) {
      const [bytes] = stored.get(array.name) ?? [];
      const bits = storedBits(array);
      if (!bytes || !bits) throw new Error(`${array.name} is not in the object file`);
      expect([array.name, Buffer.from(bytes).toString("hex")]).toEqual([
        array.name,
        Buffer.from(bits.buffer, bits.byteOffset, bits.byteLength).toString("hex"),
      ]);
    }
  });
});

/** Pillow's names turn anticlockwise (handbook, Image.Transpose). */
const TURNS = {
  "turn:clockwise": "ROTATE_270",
  "turn:anticlockwise": "ROTATE_90",
  "turn:half": "ROTATE_180",
  "turn:left-right": "FLIP_LEFT_RIGHT",
  "turn:top-bottom": "FLIP_TOP_BOTTOM",
} as const;
const PICTURES = [
  { words: "7x4 gray8", bytes: 28, mode: "L", raw: "L" },
  { words: "13x5 mono1", bytes: 10, mode: "1", raw: "1" },
  { words: "9x9 gray4", bytes: 45, mode: "L", raw: "L;4" },
  { words: "5x6 mono1 bits=lsb", bytes: 6, mode: "1", raw: "1;R" },
] as const;

describe("Pillow's transpose", () => {
  const cases = PICTURES.flatMap((picture) => Object.entries(TURNS).map(([id, turn]) => ({ ...picture, id, turn })));
  it.each(cases)("agrees on $id of $words", async ({ words, bytes, mode, raw, id, turn }) => {
    const random = seeded(bytes);
    const data = Uint8Array.from({ length: bytes }, () => random.int(0, 255));
    const text = `// @bitmap ${words}\n${arrayText(data)}`;
    const open: Open = (t) => openText(t, "art.h");
    const file = open(text);
    const findings = () => [];
    const turned = convert(file, file.bitmaps[0] as Bitmap, id, { reopen: open, findings });
    if ("refused" in turned) throw new Error(turned.refused);
    const now = open(applyEdits(text, turned.edits)).bitmaps[0] as Bitmap;
    // Both pictures are decoded by Pillow, so that nothing of ours says where a pixel is.
    const bands = [Buffer.from(storedBits(now.array) as Uint8Array).toString("hex")];
    const [width, height] = words.split(/[x ]/).map(Number) as [number, number];
    const [wanted, got] = await decodeRaw([
      { mode, raw, size: [width, height], bands: [Buffer.from(data).toString("hex")], turns: [turn] },
      { mode, raw, size: [now.width, now.height], bands },
    ]);
    expect(got).toEqual(wanted);
    expect(new Set(got?.data).size).toBeGreaterThan(1);
  });
});
