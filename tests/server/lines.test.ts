/** What `dotwright/picture` tells of some lines: numbers with their light, zero-filled ends, rows. */
import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { BitmapLines, LspResult, RowPixels } from "../../shared/protocol/lsp.ts";
import type { LspClient } from "../support/lspClient.ts";
import { startClient } from "../support/lspClient.ts";

let client: LspClient;
beforeAll(async () => {
  client = await startClient();
});
afterAll(() => client.stop());

let opened = 0;
type Picture = LspResult<"dotwright/picture">;

/** Asks about lines of a text's first bitmap. */
async function ask(text: string, lines: readonly [number, number], rows = false): Promise<Picture> {
  const uri = `file:///garden/lines${opened++}.h`;
  client.open(uri, text);
  const listed = await client.own("dotwright/bitmaps", { uri });
  const identity = "ok" in listed ? listed.ok.bitmaps[0]?.identity : undefined;
  if (!identity) throw new Error("no bitmap");
  const reply = await client.own("dotwright/picture", { uri, identity, frames: [], lines, rows });
  client.close(uri);
  if ("err" in reply) throw new Error(reply.err);
  return reply.ok;
}

/** Line, column, length, mean and highest value of each. */
const numbersOf = ({ numbers }: BitmapLines) =>
  numbers.flatMap(({ line, numbers: own }) =>
    Array.from({ length: own.length / 4 }, (_, i) => [line, ...own.slice(i * 4, i * 4 + 4)]),
  );

describe("numbers", () => {
  const text = "// @bitmap 2x2 frames=2\nconst uint8_t a[8] = {1, 0x02,\n 3, 4,\n 5, 6, 7, 8};\n";

  test("are those that begin on the lines", async () => {
    const { lines, frames } = await ask(text, [1, 2]);
    expect(lines && numbersOf(lines)).toEqual([
      [1, 22, 1, 1, 1],
      [1, 25, 4, 2, 2],
      [2, 1, 1, 3, 3],
      [2, 4, 1, 4, 4],
    ]);
    expect(frames).toEqual([]);
    const rest = await ask(text, [3, 99]);
    expect(rest.lines && numbersOf(rest.lines).map((n) => n.slice(3))).toEqual([5, 6, 7, 8].map((v) => [v, v]));
    expect((await ask(text, [4, 9])).lines?.numbers).toEqual([]);
    expect((await ask(text, [2, 1])).lines?.numbers).toEqual([]);
    expect((await ask(text, [-5, 1])).lines?.numbers.map((n) => n.line)).toEqual([1]);
  });

  test("before a gap between designators are told, the gap has no brace to be told at", async () => {
    const { lines } = await ask("// @bitmap 6x1\nconst uint8_t a[6] = { 4, [3] = 5 };\n", [0, 9]);
    expect(lines && numbersOf(lines).map((n) => n.slice(3))).toEqual([4, 5].map((v) => [v, v]));
    expect(lines?.zeros.map((z) => z.count)).toEqual([2]);
  });

  test("count from the peak of all frames, whatever the lines", async () => {
    expect([(await ask(text, [1, 1])).peak, (await ask(text, [9, 9])).peak]).toEqual([8, 8]);
  });

  test("that hold several pixels tell their mean and their highest", async () => {
    const { lines, peak } = await ask("// @bitmap 8x2 mono1\nconst uint8_t a[] = {0b10000001,\n0};\n", [0, 9]);
    expect(lines && numbersOf(lines).map((n) => n.slice(3))).toEqual([
      [0.25, 1],
      [0, 0],
    ]);
    expect(peak).toBeUndefined();
  });

  test("of colours tell their mean colour and their highest channel", async () => {
    // RGB565 (Linux V4L2): full red, then green at half of its 63 steps; two indices in one number.
    const colours = await ask("// @bitmap 2x1 rgb565\nconst uint16_t a[] = {0xF800, 0x0400};\n", [0, 9]);
    expect(colours.lines && numbersOf(colours.lines).map((n) => n.slice(3))).toEqual([
      [0xff0000, 255],
      [0x008200, 130],
    ]);
    const palette = "// @palette rgb888\nconst uint32_t hues[] = {0x000000, 0xFF8000};\n";
    const indices = await ask(`${palette}// @bitmap 2x1 palette4 palette=hues\nconst uint8_t a[] = {0x01};\n`, [0, 9]);
    expect(indices.lines && numbersOf(indices.lines).map((n) => n.slice(3))).toEqual([[0x804000, 255]]);
  });

  test("without pixels are left out: those that are skipped, and those too many", async () => {
    const { lines } = await ask("// @bitmap 2x1 skip=1\nconst uint8_t a[] = {99, 1, 2, 98};\n", [0, 9]);
    expect(lines && numbersOf(lines).map((n) => n[3])).toEqual([1, 2]);
  });

  test("of a serpentine take the values of their own pixels", async () => {
    const { lines } = await ask(
      "// @bitmap 3x2 scan=serpentine invert\nconst uint8_t a[] = {1,2,3,\n4,5,6};\n",
      [2, 2],
    );
    expect(lines && numbersOf(lines).map((n) => n[3])).toEqual([251, 250, 249]);
  });

  test("of frames that flow into each other are found", async () => {
    const source = "// @bitmap 3x3 mono1 frames=4 pad=none\nconst uint8_t a[5] = {0xff,\n0xff, 0x00, 0xff,\n0xf0};\n";
    const means = async (line: number) => {
      const { lines } = await ask(source, [line, line]);
      return lines && numbersOf(lines).map((n) => n[3]);
    };
    // Four frames of nine pixels are 36: the last element holds four.
    expect([await means(1), await means(2), await means(3)]).toEqual([[1], [1, 0, 1], [1]]);
  });

  test("of a large bitmap are told for the lines in view alone", async () => {
    const body = Array.from({ length: 600 }, (_, y) => new Array(400).fill(y % 256).join(",")).join(",\n");
    const source = `// @bitmap 400x600\nconst uint8_t a[240000] = {\n${body}};\n`;
    const { lines, peak } = await ask(source, [300, 301]);
    expect(lines && numbersOf(lines).map((n) => n[3])).toEqual([
      ...new Array(400).fill(298 % 256),
      ...new Array(400).fill(299 % 256),
    ]);
    expect(peak).toBe(255);
  });
});

describe("zero-filled ends", () => {
  test.each([
    ["a list that ends early", "// @bitmap 3x3\nconst uint8_t a[9] = {\n1, 2, 3,\n};\n", [[3, 0, 6]]],
    ["an empty list", "// @bitmap 2x2\nconst uint8_t a[4] = {};\n", [[1, 22, 4]]],
    [
      "inner lists that end early, each at its own brace, and missing ones at the outer",
      "// @bitmap 4x3\nconst uint8_t a[3][4] = {\n {1, 2},\n {3},\n};\n",
      [
        [4, 0, 4],
        [2, 6, 2],
        [3, 3, 3],
      ],
    ],
    ["none where all are written", "// @bitmap 2x1\nconst uint8_t a[2] = {1, 2};\n", []],
  ])("%s", async (_what, text, wanted) => {
    const { lines } = await ask(text, [0, 9]);
    const told = lines?.zeros.map(({ line, character, count }) => [line, character, count]);
    expect(told?.sort()).toEqual([...wanted].sort());
  });

  test("are told with the line of their brace", async () => {
    const text = "// @bitmap 4x3\nconst uint8_t a[3][4] = {\n {1, 2},\n {3},\n};\n";
    expect((await ask(text, [2, 2])).lines?.zeros).toEqual([{ line: 2, character: 6, count: 2 }]);
  });
});

describe("rows", () => {
  const short = ({ frame, x, y, width, height, line, pixels }: RowPixels) =>
    `${line}: ${frame} ${x},${y} ${width}x${height} ${pixels.join(" ")}`;
  const rowsOf = async (text: string, lines: readonly [number, number] = [0, 99]) =>
    (await ask(text, lines, true)).lines?.rows?.map(short);

  test.each([
    [
      "one to a line",
      "// @bitmap 3x2\nconst uint8_t a[] = {\n1, 2, 3,\n4, 5, 6};\n",
      ["2: 0 0,0 3x1 1 2 3", "3: 0 0,1 3x1 4 5 6"],
    ],
    [
      "over several lines: on that of the last element",
      "// @bitmap 3x2\nconst uint8_t a[] = {\n1, 2,\n3, 4,\n5, 6};\n",
      ["3: 0 0,0 3x1 1 2 3", "4: 0 0,1 3x1 4 5 6"],
    ],
    [
      "several to a line",
      "// @bitmap 2x2\nconst uint8_t a[] = {1, 2, 3, 4};\n",
      ["1: 0 0,0 2x1 1 2", "1: 0 0,1 2x1 3 4"],
    ],
    [
      "columns",
      "// @bitmap 2x3 mono1 pack=columns\nconst uint8_t a[] = {1,\n6};\n",
      ["1: 0 0,0 1x3 1 0 0", "2: 0 1,0 1x3 0 1 1"],
    ],
    [
      "bands",
      "// @bitmap 2x10 mono1 pack=pages\nconst uint8_t a[] = {1, 128,\n2, 1};\n",
      ["1: 0 0,0 2x8 1 0 0 0 0 0 0 0 0 0 0 0 0 0 0 1", "2: 0 0,8 2x2 0 1 1 0"],
    ],
    [
      "upside down, in the order of the text",
      "// @bitmap 2x2 from=bottom-left\nconst uint8_t a[] = {1, 2,\n3, 4};\n",
      ["1: 0 0,1 2x1 1 2", "2: 0 0,0 2x1 3 4"],
    ],
    [
      "written in part",
      "// @bitmap 3x3\nconst uint8_t a[9] = {\n1, 2, 3,\n4};\n",
      ["2: 0 0,0 3x1 1 2 3", "3: 0 0,1 3x1 4 0 0"],
    ],
    [
      "of nested lists",
      "// @bitmap 3x2\nconst uint8_t a[2][3] = {\n{1},\n{4, 5, 6}};\n",
      ["2: 0 0,0 3x1 1 0 0", "3: 0 0,1 3x1 4 5 6"],
    ],
  ])("%s", async (_what, text, rows) => {
    expect(await rowsOf(text)).toEqual(rows);
  });

  test("are those that end on the lines", async () => {
    const text = "// @bitmap 3x2\nconst uint8_t a[] = {\n1, 2,\n3, 4,\n5, 6};\n";
    expect(await rowsOf(text, [2, 2])).toEqual([]);
    expect(await rowsOf(text, [3, 3])).toEqual(["3: 0 0,0 3x1 1 2 3"]);
  });

  test("are left out where nobody asks", async () => {
    const { lines } = await ask("// @bitmap 1x1\nconst uint8_t a[] = {1};\n", [0, 9]);
    expect(lines?.rows).toBeUndefined();
  });

  test("of the sample's font are its glyphs' columns", async () => {
    const font = readFileSync(new URL("../../sample-workspace/font5x7.h", import.meta.url), "utf8");
    const line = font.split("\n").findIndex((l) => l.includes("/* '!' */"));
    const rows = await rowsOf(font, [line, line]);
    // 0x4F in the middle column: bits 0 to 3 and 6, the lowest on top.
    expect(rows).toEqual(
      [0, 1, 2, 3, 4].map((x) => `${line}: 1 ${x},0 1x7 ${x === 2 ? "1 1 1 1 0 0 1" : "0 0 0 0 0 0 0"}`),
    );
  });
});

test("lines of a bitmap without a picture are refused with the reason", async () => {
  await expect(ask("// @bitmap 1x1\nconst uint8_t a[1] = {NEVER};\n", [0, 9])).rejects.toThrow("NEVER");
});
