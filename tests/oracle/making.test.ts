/** The compilers accept the bitmaps that are made, and store as many elements as their words ask for. */
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, expect, it } from "vitest";
import { makeLike } from "../../shared/bitmap/like.ts";
import { makeBitmap } from "../../shared/bitmap/make.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { placed, placeNear } from "../../shared/bitmap/place.ts";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import { storedBits } from "../../shared/source/arrays.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { wordsOf } from "../property/wordsOf.ts";
import { TARGETS } from "./corpus/arithmetic.ts";
import { type Bench, judge, openBench } from "./judge.ts";

const HEADS = {
  "plain.cpp": "#include <stdint.h>\n",
  "plain.c": "#include <stdint.h>\n",
  "sketch.ino": "",
  "styled.h":
    "#include <stdint.h>\nnamespace art {\n// @bitmap 2x1\nstatic constexpr uint8_t dot[] = {0x0a, 0xff};\n}\n",
  "flash.cpp": "// @bitmap 8x1 mono1\nextern const byte PROGMEM dot[1] = {\n\tB00011000\n};\n",
};

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench.close());

const WORDS = fc.sample(wordsOf([...FORMATS.keys()]), { numRuns: 40, seed: 9 });

/** A file with a bitmap for each of the words, and one like each of them. */
function fileOf(name: string, head: string, target: "avr" | "host"): string {
  let text = head;
  const open = () => openText(text, name, { target });
  WORDS.forEach(({ words }, i) => {
    const file = open();
    const place = placeNear(file.source, text.length);
    const made = makeBitmap(file, { words, name: `made${i}`, offset: text.length });
    if ("refused" in made) throw new Error(`${words}: ${made.refused}`);
    text = applyEdits(text, [placed(place, `${made.annotation}\n${made.statement}`, "\n").edit]);
    const after = open();
    const edit = makeLike(after, after.bitmaps.find((b) => b.array.name === `made${i}`) as Bitmap);
    if ("refused" in edit) throw new Error(`${words}: ${edit.refused}`);
    text = applyEdits(text, [edit]);
  });
  return text;
}

it.each(TARGETS.flatMap((target) => Object.entries(HEADS).map(([name, head]) => [name, target, head] as const)))(
  "%s for %s",
  async (name, target, head) => {
    const text = fileOf(name, head, target);
    const path = join(bench.folder, `${target}-${name}`);
    await writeFile(path, text);
    const stored = await judge(path, target, bench);
    const { bitmaps } = openText(text, name, { target });
    const expected = bitmaps.filter((b) => b.array.name.startsWith("made"));
    expect(expected.length).toBe(2 * WORDS.length);
    for (const { array, layout } of expected) {
      const [bytes] = stored.get(array.name) ?? [];
      const bits = storedBits(array);
      if (!bytes || !bits || !layout) throw new Error(`${array.name} is not in the object file`);
      expect(bytes.length, array.name).toBe((layout.elements * layout.elementBits) / 8);
      expect(Buffer.from(bytes).equals(Buffer.from(bits.buffer, bits.byteOffset, bits.byteLength)), array.name).toBe(
        true,
      );
    }
  },
);
