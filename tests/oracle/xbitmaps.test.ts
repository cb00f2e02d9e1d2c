import { mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { PNG } from "pngjs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type ListedArray, listArrays, runCli } from "../support/cli.ts";
import { compileBytes, type StoredObject } from "../support/compile.ts";
import { readXbm } from "../support/netpbm.ts";
import { concurrently } from "./concurrent.ts";
import { type Bench, disagreement, openBench } from "./judge.ts";

/** X bitmap files of the Debian package `xbitmaps`: open data with two independent readers, netpbm and gcc. */
const FOLDER = "/usr/include/X11/bitmaps";

interface XBitmap {
  readonly file: string;
  readonly name: string;
}

let bench: Bench;
let bitmaps: readonly XBitmap[];
let listed: readonly ListedArray[];

beforeAll(async () => {
  bench = await openBench();
  const files = (await readdir(FOLDER)).map((name) => join(FOLDER, name));
  const found = await Promise.all(files.map(arraysIn));
  bitmaps = found.flat();
  listed = await listArrays(
    bitmaps.map(({ file }) => file),
    "host",
  );
});

afterAll(() => bench.close());

/** `1x1_bits` and `2x2_bits` are no names in C, so those two files are left out. */
async function arraysIn(file: string): Promise<XBitmap[]> {
  const text = await readFile(file, "latin1");
  return [...text.matchAll(/\b([A-Za-z_]\w*_bits)\s*\[/g)].map(([, name = ""]) => ({ file, name }));
}

function entryOf({ file, name }: XBitmap): ListedArray | undefined {
  return listed.find((entry) => basename(entry.file) === basename(file) && entry.name === name);
}

describe("Debian's xbitmaps", () => {
  it("are all listed, with the size that xbmtopbm reads", async () => {
    expect(bitmaps.length).toBeGreaterThanOrEqual(69);
    const sizes = await concurrently(bitmaps, 2, async (bitmap) => {
      const { width, height } = await readXbm(bitmap.file);
      return [bitmap.name, width, height];
    });
    const read = bitmaps.map((bitmap) => [
      bitmap.name,
      entryOf(bitmap)?.bitmap?.width,
      entryOf(bitmap)?.bitmap?.height,
    ]);
    expect(read).toEqual(sizes);
  });

  it("hold the values that gcc stores", async () => {
    const stored = await allStored();
    const problems = bitmaps.flatMap((bitmap, i) => {
      const entry = entryOf(bitmap);
      const expected = { name: bitmap.name, bits: 8, readOnly: "never" } as const;
      const bytes = stored.get(`file_${i}::${bitmap.name}`)?.bytes;
      const problem = entry ? disagreement(entry, expected, bytes ? [bytes] : []) : "is not listed";
      return problem === undefined ? [] : [`${bitmap.file}: ${bitmap.name} ${problem}`];
    });
    expect(problems.join("\n\n")).toBe("");
  });

  it("are drawn pixel for pixel as xbmtopbm draws them", async () => {
    const problems = await concurrently(bitmaps, 2, drawnWrong);
    expect(problems.filter((problem) => problem !== undefined).join("\n")).toBe("");
  });
});

/** All files in one translation unit, each in a namespace of its own, since two hold an `icon_bits`. */
async function allStored(): Promise<Map<string, StoredObject>> {
  const unit = join(bench.folder, "xbitmaps.cpp");
  await writeFile(unit, bitmaps.map(({ file }, i) => `namespace file_${i} {\n#include "${file}"\n}\n`).join(""));
  return compileBytes(unit, { target: "host" });
}

/** XBM's foreground (1) is ink in netpbm and lit, white, in a rendered `mono1` bitmap. */
async function drawnWrong({ file, name }: XBitmap): Promise<string | undefined> {
  const folder = await mkdtemp(join(tmpdir(), "render-"));
  try {
    const out = join(folder, "drawn.png");
    const [expected, result] = await Promise.all([readXbm(file), runCli(["render", file, name, "--out", out])]);
    if (result.code !== 0) return `${file}: render ended with ${result.code}: ${result.stderr}`;
    const { width, height, data } = PNG.sync.read(await readFile(out));
    if (width !== expected.width || height !== expected.height)
      return `${file}: ${width}x${height}, not ${expected.width}x${expected.height}`;
    const wrong = expected.ink.findIndex(
      (ink, i) => [0, 1, 2].some((c) => data[i * 4 + c] !== ink * 255) || data[i * 4 + 3] !== 255,
    );
    return wrong < 0
      ? undefined
      : `${file}: pixel ${wrong % width},${Math.floor(wrong / width)} is ${data[wrong * 4]}, ink ${expected.ink[wrong]}`;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
