import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { PNG } from "pngjs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { CodeLens, Hover } from "vscode-languageserver/node";
import { runCli } from "../support/cli.ts";
import type { LspClient } from "../support/lspClient.ts";
import { positionOf, startClient } from "../support/lspClient.ts";

/** The greenhouse's colour grid: a palette, an icon in it, a gradient in 16-bit colours, a font. */
const GRID = `// @palette rgb565
const uint16_t leaf_colours[3] = { 0x0000, 0x07E0, 0xFD20 };
// @bitmap 4x1 palette2 palette=leaf_colours
const uint8_t leaf[1] = { 0x1A };
// @bitmap 2x1 rgb565 cap=50%
const uint8_t dawn[4] = { 0xF8, 0x00, 0x00, 0x10 };
// @palette rgb888
// @bitmap 2x1 palette8 skip=6 palette=head
const uint8_t sprout[8] = { 0, 0, 0, 255, 184, 77, 1, 0 };
// @bitmap 4x1 palette2
const uint8_t unnamed[1] = { 0x1B };
const uint8_t widths[2] = { 3, 2 };
// @bitmap 3x1 mono1 frames=2 first='A' widths=widths
const uint8_t font[2] = { 0xE0, 0xC0 };
`;

let client: LspClient;
const uri = "file:///garden/grid.h";
beforeAll(async () => {
  client = await startClient();
  client.open(uri, GRID);
});
afterAll(() => client.stop());

async function hoverOn(piece: string, into = 0, n = 0): Promise<string> {
  const position = positionOf(GRID, piece, into, n);
  const hover: Hover | null = await client.request(
    { method: "textDocument/hover" },
    { textDocument: { uri }, position },
  );
  return (hover?.contents as { value: string } | undefined)?.value ?? "";
}

/** Red, green and blue of each pixel of a picture enlarged k times, at the top left of its block. */
function pixelsOf(png: PNG, width: number): number[][] {
  const k = png.width / width;
  return Array.from({ length: width }, (_, x) => Array.from(png.data.subarray(x * k * 4, x * k * 4 + 3)));
}

function pictureIn(markdown: string): PNG {
  const data = /base64,([A-Za-z0-9+/=]+)/.exec(markdown)?.[1];
  if (data === undefined) throw new Error(`no picture in ${markdown}`);
  return PNG.sync.read(Buffer.from(data, "base64"));
}

describe("a hover on a name", () => {
  test("shows the colours of the palette", async () => {
    const markdown = await hoverOn("leaf[1]");
    expect(pixelsOf(pictureIn(markdown), 4)).toEqual([
      [0, 0, 0],
      [0, 255, 0],
      [255, 166, 0],
      [255, 166, 0],
    ]);
    expect(markdown).toContain("- 3 colours, their brightest channel at 100 %\n");
    expect(markdown).toContain("- The 3 colours of `leaf_colours`, in rgb565\n");
  });

  test("shows the cap as full light, and says that it is passed", async () => {
    const markdown = await hoverOn("dawn");
    // A cap of 50 % is 127; blue is 16 of 31: 132 in eight bits.
    expect(pixelsOf(pictureIn(markdown), 2)).toEqual([
      [255, 0, 0],
      [0, 0, 255],
    ]);
    expect(markdown).toContain("Cap 127: the brightest pixel is over it");
  });

  test("tells of colours before the pixels, and of a palette that is not known", async () => {
    expect(await hoverOn("sprout")).toContain("- The 2 colours before its pixels, in rgb888\n");
    const unnamed = await hoverOn("unnamed");
    expect(unnamed).toContain("Its palette is not known: indices are drawn as greys; `palette=` names it");
    expect(pixelsOf(pictureIn(unnamed), 4).map(([v]) => v)).toEqual([0, 85, 170, 255]);
  });
});

describe("a hover on a palette", () => {
  const list = "**`leaf_colours`** · 3 colours, rgb565";
  const colours = "0 #000000, 1 #00ff00, 2 #ffa600";
  test("shows and lists its colours", async () => {
    const markdown = await hoverOn("leaf_colours[3]");
    expect(pixelsOf(pictureIn(markdown), 3)).toEqual([
      [0, 0, 0],
      [0, 255, 0],
      [255, 166, 0],
    ]);
    expect(markdown.replace(/!\[.*\)/, "PICTURE")).toBe(`${list}\n\nPICTURE\n\n${colours}`);
  });

  test("by its name in an annotation", async () => {
    expect(await hoverOn("palette=leaf_colours", 10)).toBe(`**\`palette=leaf_colours\`**\n\n${list}\n\n${colours}`);
    expect(await hoverOn("palette=head", 10)).toContain("2 colours, rgb888\n\n0 #000000, 1 #ffb84d");
  });
});

describe("a hover on a number", () => {
  test.each<[string, string, number, number, string]>([
    ["indices", "0x1A", 0, 0, "`0 1 2 2`\n\nindex 0 #000000, index 1 #00ff00, index 2 #ffa600"],
    ["a byte of a colour", "0xF8", 0, 0, "Pixel x 0, y 0: 0xF800 #ff0000\n\nOver the cap of 127."],
    ["which byte it is", "0x10", 0, 0, "Element 2 of the 2 that make this pixel."],
    ["a colour of a palette", "0xFD20", 0, 0, "`leaf_colours` element 2\n\nColour 2 of 3: 0xFD20 #ffa600"],
    ["a colour before the pixels", "184", 0, 0, "`sprout` element 4\n\nColour 1 of 2: 0xFFB84D #ffb84d"],
    ["an index behind them", "77, 1", 4, 0, "Pixel x 0, y 0: index 1 #ffb84d"],
    ["a glyph", "0xC0", 0, 0, "frame 1 ('B')"],
  ])("%s", async (_what, piece, into, n, words) => {
    expect(await hoverOn(piece, into, n)).toContain(words);
  });
});

test("the line above a bitmap counts its colours", async () => {
  const lenses: CodeLens[] = await client.request({ method: "textDocument/codeLens" }, { textDocument: { uri } });
  const titles = await Promise.all(
    lenses.map(async (lens) => {
      const resolved: CodeLens = await client.request({ method: "codeLens/resolve" }, lens);
      return resolved.command?.title;
    }),
  );
  expect(titles.slice(0, 2)).toEqual([
    "leaf · 4×1 palette2 · 1 byte · 3 colours",
    "dawn · 2×1 rgb565 · 4 bytes · 2 colours · peak 255 of cap 127",
  ]);
});

describe("dotwright/bitmaps", () => {
  test("tells what a painter needs to colour raw values", async () => {
    const reply = await client.own("dotwright/bitmaps", { uri });
    if ("err" in reply) throw new Error(reply.err);
    const [leaf, dawn, , unnamed, font] = reply.ok.bitmaps;
    expect(leaf).toMatchObject({
      kind: "palette",
      most: 3,
      full: 255,
      light: "srgb",
      palette: "leaf_colours",
      colours: [0, 0x00ff00, 0xffa600],
    });
    expect(dawn).toMatchObject({ kind: "rgb", most: 65535, full: 255, cap: 127, limit: 127 });
    expect(unnamed?.colours).toBeUndefined();
    expect(font).toMatchObject({ kind: "mono", full: 1, light: "linear", characters: [65, 66], widths: [3, 2] });
  });

  test("painting a colour changes the byte that differs", async () => {
    const listed = await client.own("dotwright/bitmaps", { uri });
    if ("err" in listed) throw new Error(listed.err);
    const { version } = listed.ok;
    const identity = listed.ok.bitmaps.find((b) => b.name === "dawn")?.identity;
    if (!identity) throw new Error("no dawn");
    const changes = [{ frame: 0, x: 0, y: 0, value: 0xf81f, before: 0xf800 }];
    const reply = await client.own("dotwright/paint", { uri, version, identity, changes });
    if ("err" in reply) throw new Error(reply.err);
    const start = positionOf(GRID, "0x00, 0x00, 0x10");
    const end = { ...start, character: start.character + 4 };
    expect(reply.ok.edits).toEqual([{ range: { start, end }, newText: "0x1F" }]);
  });
});

describe("the command", () => {
  let folder: string;
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), "grid-"));
    await writeFile(join(folder, "grid.h"), GRID);
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  test.each([
    [
      "leaf",
      [
        [0, 0, 0],
        [0, 255, 0],
        [255, 166, 0],
        [255, 166, 0],
      ],
    ],
    [
      "dawn",
      [
        [255, 0, 0],
        [0, 0, 132],
      ],
    ],
    [
      "sprout",
      [
        [255, 184, 77],
        [0, 0, 0],
      ],
    ],
  ])("render %s: RGB, raw values", async (name, colours) => {
    const out = join(folder, `${name}.png`);
    const result = await runCli(["render", join(folder, "grid.h"), name, "--out", out]);
    expect(result).toMatchObject({ code: 0, stderr: "" });
    const bytes = await readFile(out);
    expect(pixelsOf(PNG.sync.read(bytes), colours.length)).toEqual(colours);
    // PNG Third Edition, §11.2.1: depth 8, colour type 2 (truecolour) in the header.
    expect([bytes[24], bytes[25]]).toEqual([8, 2]);
  });

  test("the sheet shows colours as they are", async () => {
    const out = join(folder, "sheet.png");
    const result = await runCli(["sheet", "--out", out, join(folder, "grid.h")]);
    expect(result).toMatchObject({ code: 0 });
    const { data } = PNG.sync.read(await readFile(out));
    const seen = new Set<number>();
    for (let i = 0; i < data.length; i += 4) seen.add(data.readUIntBE(i, 3));
    for (const colour of [0x00ff00, 0xffa600, 0xffb84d]) expect(seen).toContain(colour);
  });

  test("list names the palette", async () => {
    const { stdout } = await runCli(["list", "--json", join(folder, "grid.h")]);
    const { arrays } = JSON.parse(stdout) as { arrays: { name: string; bitmap: { palette?: string } }[] };
    expect(arrays.map(({ name, bitmap }) => [name, bitmap.palette])).toEqual([
      ["leaf", "leaf_colours"],
      ["dawn", undefined],
      ["sprout", "sprout"],
      ["unnamed", undefined],
      ["font", undefined],
    ]);
  });
});
