import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { storedValues } from "../../shared/source/arrays.ts";
import { readSource } from "../../shared/source/read.ts";
import { rewriteElements } from "../../shared/source/rewrite.ts";
import type { TextEdit } from "../../shared/source/text.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { formsCorpus } from "../support/formsCorpus.ts";
import { TARGETS } from "./corpus/arithmetic.ts";
import { seeded } from "./corpus/random.ts";
import { type Bench, judge, openBench } from "./judge.ts";

const SEED = 20_250_117;
/** Files of the corpus that are painted in; each is compiled once a target. */
const FILES = formsCorpus(SEED)
  .filter(({ bytes }) => !Buffer.from(bytes).includes(0xfc))
  .slice(0, 12);

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench.close());

describe.each(TARGETS)("what was written is what the compiler stores, --target %s", (target) => {
  it.each(FILES.filter((file) => file.targets.includes(target)))("$path", async (file) => {
    const random = seeded(SEED + file.path.length);
    const text = Buffer.from(file.bytes).toString("utf8");
    const source = readSource(text, { target });
    const wanted = new Map<string, (number | string)[]>();
    const edits: TextEdit[] = [];
    const known = new Set(file.arrays.map(({ name }) => name));
    for (const array of source.arrays) {
      const values = storedValues(array);
      if (!values || !array.type || values.length === 0 || !known.has(array.name) || array.name.includes(".")) continue;
      const { bits, signed, truth } = array.type;
      const changes = new Map(
        Array.from({ length: random.int(1, 4) }, () => [
          random.int(0, values.length - 1),
          truth ? BigInt(random.int(0, 1)) : BigInt(random.pick([0, 1, 65, 97, 55, 34, 92, 255, random.int(0, 255)])),
        ]),
      );
      const one = [...changes].map(([slot, value]) => ({ slot, bits: BigInt.asUintN(bits, value) }));
      const edited = rewriteElements(text, array, one);
      if ("refused" in edited) continue;
      edits.push(...edited.edits);
      for (const [slot, value] of changes) {
        const stored = signed ? BigInt.asIntN(bits, value) : value;
        values[slot] = bits === 64 ? String(stored) : Number(stored);
      }
      wanted.set(array.name, values);
    }
    expect(wanted.size).toBeGreaterThan(20);
    const path = join(bench.folder, file.path);
    const written = applyEdits(text, edits);
    await writeFile(path, written);
    const after = readSource(written, { target }).arrays;
    const judged = await judge(path, target, bench);
    for (const [name, values] of wanted) {
      const array = after.find((a) => a.name === name);
      expect([name, array && storedValues(array)]).toEqual([name, values]);
      const bytes = judged.get(name)?.[0];
      expect([name, bytes && [...bytes]]).toEqual([name, bytesOf(values, (array?.type?.bits ?? 8) / 8)]);
    }
  });
});

/** Little-endian bytes of elements. */
function bytesOf(values: readonly (number | string)[], width: number): number[] {
  return values.flatMap((value) => {
    const bits = BigInt.asUintN(width * 8, BigInt(value));
    return Array.from({ length: width }, (_, k) => Number((bits >> BigInt(8 * k)) & 0xffn));
  });
}
