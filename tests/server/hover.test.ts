import { readFileSync } from "node:fs";
import { crc32 } from "node:zlib";
import { PNG } from "pngjs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Hover } from "vscode-languageserver/node";
import type { LspClient } from "../support/lspClient.ts";
import { positionOf, startClient } from "../support/lspClient.ts";

const sample = (name: string) => readFileSync(new URL(`../../sample-workspace/${name}`, import.meta.url), "utf8");

let client: LspClient;
beforeAll(async () => {
  client = await startClient();
});
afterAll(() => client.stop());

let opened = 0;
async function hoverOn(
  text: string,
  piece: string,
  into = 1,
  n = 0,
): Promise<{ markdown: string; hover: Hover } | null> {
  const uri = `file:///garden/hover${opened++}.h`;
  client.open(uri, text);
  const position = positionOf(text, piece, into, n);
  const hover: Hover | null = await client.request(
    { method: "textDocument/hover" },
    { textDocument: { uri }, position },
  );
  return hover && { markdown: (hover.contents as { value: string }).value, hover };
}

function pngOf(markdown: string): Buffer {
  const m = /!\[[^\]]*(?:\[\d+\])*[^\]]*\]\(data:image\/png;base64,([A-Za-z0-9+/=]+)\)/.exec(markdown);
  if (!m) throw new Error(`no picture in ${markdown.slice(0, 200)}`);
  return Buffer.from(m[1] as string, "base64");
}

const without = (markdown: string) => markdown.replace(/!\[.*\)/, "PICTURE");

/** sRGB (IEC 61966-2-1): linear light to code value and back, both 0 to 1. */
const encode = (l: number) => (l <= 0.0031308 ? 12.92 * l : 1.055 * l ** (1 / 2.4) - 0.055);
const decode = (v: number) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);

/** Code values of a duty, as light in a tint; `top` is full light. */
const shown = (value: number, top: number, tint: readonly number[]) =>
  tint.map((t) => Math.round(255 * encode(Math.min(1, value / top) * decode(t / 255))));

/** The numbers between the braces after a name, as they are written. */
function written(text: string, name: string): number[] {
  const body = text.slice(text.indexOf("{", text.indexOf(name)) + 1);
  const inside = body.slice(0, body.indexOf("}")).replace(/\/\*.*?\*\//gs, "");
  return (inside.match(/\b(?:0x[0-9a-fA-F]+|\d+)\b/g) ?? []).map(Number);
}

/** Every k×k block of a decoded picture has one colour, that of its pixel. */
function expectBlocks(
  png: { width: number; height: number; data: Buffer },
  k: number,
  colours: number[][],
  width: number,
): void {
  const height = colours.length / width;
  expect([png.width, png.height]).toEqual([width * k, height * k]);
  let wrong = 0;
  for (let y = 0; y < png.height; y++) {
    for (let x = 0; x < png.width; x++) {
      const at = (y * png.width + x) * 4;
      const colour = colours[Math.floor(y / k) * width + Math.floor(x / k)] as number[];
      for (let c = 0; c < 3; c++) if (Math.abs((png.data[at + c] as number) - (colour[c] as number)) > 1) wrong++;
    }
  }
  expect(wrong).toBe(0);
}

interface Chunk {
  readonly type: string;
  readonly data: Buffer;
}

/** The chunks of a PNG file; a chunk whose CRC is wrong is an error (PNG Third Edition §5.3, §5.5). */
function chunksOf(file: Buffer): Chunk[] {
  expect(file.subarray(0, 8).toString("hex")).toBe("89504e470d0a1a0a");
  const chunks: Chunk[] = [];
  for (let at = 8; at < file.length; ) {
    const length = file.readUInt32BE(at);
    const type = file.toString("latin1", at + 4, at + 8);
    expect(file.readUInt32BE(at + 8 + length), type).toBe(crc32(file.subarray(at + 4, at + 8 + length)));
    chunks.push({ type, data: file.subarray(at + 8, at + 8 + length) });
    at += length + 12;
  }
  return chunks;
}

/** A frame of an animation as a PNG of its own: its `fdAT` data without the sequence number is `IDAT` data (§11.3.6.3). */
function framePng(chunks: readonly Chunk[], frame: number): Buffer {
  const starts = chunks.flatMap((c, i) => (c.type === "fcTL" ? [i] : []));
  const own = chunks.slice((starts[frame] as number) + 1, starts[frame + 1] ?? chunks.length);
  const data = own.flatMap(({ type, data }) => (type === "IDAT" ? [data] : type === "fdAT" ? [data.subarray(4)] : []));
  const header = chunks.find((c) => c.type === "IHDR") as Chunk;
  const pack = ({ type, data: body }: Chunk) => {
    const out = Buffer.alloc(body.length + 12);
    out.writeUInt32BE(body.length, 0);
    out.write(type, 4, "latin1");
    body.copy(out, 8);
    out.writeUInt32BE(crc32(out.subarray(4, body.length + 8)), body.length + 8);
    return out;
  };
  const parts = [header, { type: "IDAT", data: Buffer.concat(data) }, { type: "IEND", data: Buffer.alloc(0) }];
  return Buffer.concat([Buffer.from("89504e470d0a1a0a", "hex"), ...parts.map(pack)]);
}

describe("a hover on a name", () => {
  test("shows every pixel as a block of the light that its value gives", async () => {
    const text = sample("lantern_art.h");
    const found = await hoverOn(text, "drop_icon");
    const png = PNG.sync.read(pngOf(found?.markdown ?? ""));
    const amber = [0xff, 0xb8, 0x4d];
    expectBlocks(
      png,
      22,
      written(text, "drop_icon").map((v) => shown(v, 64, amber)),
      9,
    );
    expect(found?.hover.range).toEqual({
      start: positionOf(text, "drop_icon"),
      end: positionOf(text, "drop_icon", "drop_icon".length),
    });
    expect(without(found?.markdown ?? "")).toBe(`**\`drop_icon\`** · 9×9 gray8 · 81 bytes

PICTURE

- Values 0 to 64, up to 25.1 % of full scale
- Cap 64: the brightest pixel is within it; drawn with the cap as full light
- Draws about 22 mA, of a budget of 250 mA (an estimate)
- A frame of 81 bytes takes at least 0.16 ms to send
- \`@bitmap lantern\`, on the panel \`lantern\``);
  });

  test("shows packed pages as lit and dark", async () => {
    const text = sample("status_screen.h");
    const found = await hoverOn(text, "status_screen[");
    // SSD1306 data sheet §8.7: a page is 8 rows, D0 of each byte is its top row.
    const bytes = written(text, "status_screen[");
    const lit = Array.from(
      { length: 128 * 32 },
      (_, i) => ((bytes[(i >> 10) * 128 + (i & 127)] as number) >> ((i >> 7) & 7)) & 1,
    );
    expectBlocks(
      PNG.sync.read(pngOf(found?.markdown ?? "")),
      2,
      lit.map((v) => [v * 255, v * 255, v * 255]),
      128,
    );
    expect(found?.markdown).toContain(`- ${lit.filter((v) => v === 1).length} of 4096 pixels lit`);
  });

  test("moves where there are frames", async () => {
    const text = sample("lantern_art.h");
    const found = await hoverOn(text, "drip[");
    const chunks = chunksOf(pngOf(found?.markdown ?? ""));
    const frames = 16;
    // PNG Third Edition §11.3.6: acTL before IDAT with the number of frames, one fcTL each, one sequence over all.
    const types = chunks.map((c) => c.type);
    expect(types.indexOf("acTL")).toBeLessThan(types.indexOf("IDAT"));
    expect(chunks.find((c) => c.type === "acTL")?.data.readUInt32BE(0)).toBe(frames);
    const controls = chunks.filter((c) => c.type === "fcTL");
    expect(controls).toHaveLength(frames);
    for (const { data } of controls) expect(data.readUInt16BE(22) / data.readUInt16BE(20)).toBeCloseTo(12, 1);
    const numbers = chunks.filter((c) => c.type === "fcTL" || c.type === "fdAT").map((c) => c.data.readUInt32BE(0));
    expect(numbers).toEqual(numbers.map((_, i) => i));
    const values = written(
      text
        .slice(text.indexOf("drip["))
        .replace(/\}\s*,\s*\{/g, ",")
        .replace(/\{\s*\{/, "{"),
      "drip[",
    );
    const k = (chunks[0] as Chunk).data.readUInt32BE(0) / 9;
    expect(k).toBeGreaterThan(20);
    for (const frame of [0, 7, 15]) {
      const own = values.slice(frame * 81, frame * 81 + 81).map((v) => shown(v, 64, [0xff, 0xb8, 0x4d]));
      expectBlocks(PNG.sync.read(framePng(chunks, frame)), k, own, 9);
    }
    expect(found?.markdown).not.toContain("is not given");
  });

  test("says which speed it took where none is given", async () => {
    const found = await hoverOn("// @bitmap 2x1 gray8 frames=2\nconst uint8_t blink[4] = {1,2,3,4};\n", "blink");
    const controls = chunksOf(pngOf(found?.markdown ?? "")).filter((c) => c.type === "fcTL");
    expect(controls.map(({ data }) => data.readUInt16BE(22) / data.readUInt16BE(20))).toEqual([4, 4]);
    expect(found?.markdown).toContain("Shown at 4 frames a second; `fps=` is not given.");
  });

  const noise = (count: number, seed = 1) => {
    // Linear congruential generator of ISO C's example rand() (C17 7.22.2): noise that PNG can't compress.
    let next = seed;
    return Array.from({ length: count }, () => {
      next = (Math.imul(next, 1103515245) + 12345) >>> 0;
      return (next >>> 16) & 255;
    });
  };

  test.each([
    ["one large picture", 200, 150, 1],
    ["many frames of noise", 32, 32, 90],
    ["hundreds of small frames", 1, 9, 255],
    ["a tall strip", 3, 300, 1],
    ["a picture too large for any hover", 400, 400, 1],
  ])("stays within what the editor shows: %s", async (_, width, height, frames) => {
    const values = noise(width * height * frames);
    const text = `// @bitmap ${width}x${height} gray8 frames=${frames} light=srgb fps=9\nconst uint8_t noise[] = {${values}};\n`;
    const found = await hoverOn(text, "noise[");
    const markdown = found?.markdown ?? "";
    expect(markdown.length).toBeLessThanOrEqual(90_000);
    expect(markdown).toContain(`**\`noise\`** · ${width}×${height} gray8`);
    if (!markdown.includes("data:image/png")) {
      expect(markdown).toContain("too large for a hover");
      expect(width).toBe(400);
      return;
    }
    const chunks = chunksOf(pngOf(markdown));
    const count = chunks.filter((c) => c.type === "fcTL").length || 1;
    if (count < frames) expect(markdown).toContain(`Only the first ${count} of ${frames} frames are shown`);
    else expect(markdown).not.toContain("Only the first");
    const k = (chunks[0] as Chunk).data.readUInt32BE(0) / width;
    const last = count === 1 ? pngOf(markdown) : framePng(chunks, count - 1);
    const own = values.slice((count - 1) * width * height, count * width * height);
    expectBlocks(
      PNG.sync.read(last),
      k,
      own.map((v) => [v, v, v]),
      width,
    );
  });

  test.each([
    [
      "says why there is none",
      "// @bitmap 2x1\nconst uint8_t far[2] = { SOMEWHERE, 1 };",
      "far",
      "Read-only, without a picture: ",
    ],
    [
      "counts what the compiler fills",
      "// @bitmap 3x1\nconst uint8_t part[3] = {5};",
      "part",
      "2 of 3 elements are not written",
    ],
    [
      "warns of light",
      "// @bitmap 1x1 cap=9\nconst uint8_t lamp[1] = {10};",
      "lamp",
      "Bright LEDs can hurt eyes at close range",
    ],
    ["is there for the whole head", "// @bitmap 1x1\nstatic const uint8_t lamp[1] = {10};", "static", "**`lamp`**"],
    [
      "counts drive",
      "// @bitmap 1x1 cap=64 drive=25%\nconst uint8_t a[1] = {255};",
      "a[",
      "Driven at 25 %: at most 63.8",
    ],
    [
      "tells of a table",
      'struct I { const char *n; uint8_t d[1]; };\n// @bitmap 1x1 entries\nconst I table[2] = { {"a", {1}}, {"b", {2}} };',
      "table",
      "The first of 2 bitmaps in this table.",
    ],
  ])("%s", async (_, text, piece, expected) => {
    expect((await hoverOn(`${text}\n`, piece))?.markdown).toContain(expected);
  });

  test("says nothing of arrays without an annotation, nor of other code", async () => {
    const text = "const uint8_t tune[2] = {1, 2};\nint main() { return 0; }\n";
    expect(await hoverOn(text, "tune")).toBeNull();
    expect(await hoverOn(text, "{1", 1)).toBeNull();
    expect(await hoverOn(text, "main")).toBeNull();
  });
});

describe("a hover on a number", () => {
  // L* after CIE 15:2018 for Y = 0.18 is 49.4961, for Y = 0.5 76.0693: 46/255 = .1804, 128/255 = .50196.
  test.each([
    [
      "// @bitmap 3x2\nconst uint8_t a[6] = {0, 46, 0, 0, 0, 128};",
      "46",
      ["`a` element 1 · 46 · 0x2E", "Pixel x 1, y 0: 18 % of full scale, lightness L* 49.5"],
    ],
    [
      "// @bitmap 3x2\nconst uint8_t a[6] = {0, 46, 0, 0, 0, 128};",
      "128",
      ["Pixel x 2, y 1: 50.2 % of full scale, lightness L* 76.2"],
    ],
    [
      "// @bitmap 1x1 cap=64\nconst uint8_t a[1] = {0x20};",
      "0x20",
      ["`a` element 0 · 32 · 0x20", "50 % of the cap of 64"],
    ],
    ["// @bitmap 1x1 cap=64\nconst uint8_t a[1] = {200};", "200", ["Over the cap of 64. Bright LEDs"]],
    // sRGB code value 188 is .502886 linear (IEC 61966-2-1), L* of .502886 is 76.25.
    ["// @bitmap 1x1 light=srgb\nconst uint8_t a[1] = {188};", "188", ["lightness L* 76.2"]],
    ["// @bitmap 2x1 frames=3\nconst uint8_t a[6] = {0,1,2,3,4,77};", "77", ["Pixel x 1, y 0, frame 2"]],
    ["// @bitmap 1x1 skip=1\nconst uint8_t a[2] = {9, 1};", "9", ["Skipped: not a pixel"]],
    ["// @bitmap 1x1 invert\nconst uint8_t a[1] = {9};", "9", ["96.5 % of full scale (inverted: 246)"]],
    [
      "// @bitmap 8x2 mono1\nconst uint8_t a[2] = {0x18, 0x3C};",
      "0x3C",
      ["8 pixels: x 0 to 7, y 1", "`··####··`", "Bits `0b00111100`"],
    ],
    ["// @bitmap 5x1 mono1\nconst uint8_t a[1] = {0x98};", "0x98", ["5 pixels: x 0 to 4, y 0", "`#··##`"]],
    [
      "// @bitmap 2x8 mono1 pack=pages\nconst uint8_t a[2] = {1, 0x81};",
      "0x81",
      ["8 pixels: x 1, y 0 to 7, top to bottom", "`#······#`"],
    ],
    // XReadBitmapFile (Xlib manual): the least significant bit is the leftmost pixel.
    ["#define k_width 8\n#define k_height 1\nstatic char k_bits[] = {0x05};", "0x05", ["`#·#·····`"]],
    [
      'struct I { const char *n; uint8_t d[1]; };\n// @bitmap 1x1 entries\nconst I table[2] = { {"a", {1}}, {"b", {0x2F}} };',
      "0x2F",
      ["`table[1].d` element 0 · 47 · 0x2F", "18.4 % of full scale"],
    ],
    ["// @bitmap 1x1 mono1 pack=each\nconst uint8_t a[1] = {7};", "7", ["Pixel x 0, y 0: lit"]],
    [
      "// @bitmap 4x1 mono1 pad=none frames=2\nconst uint8_t a[1] = {0xA5};",
      "0xA5",
      ["y 0, frame 0", "`#·#·`", "frame 1", "`·#·#`"],
    ],
    ["// @bitmap 1x1\nconst uint8_t a[1] = {1, 22};", "22", ["One too many: the array has room for 1."]],
    ["// @bitmap 1x1\nconst uint8_t a[1] = {NEVER};", "NEVER", ["`a` is read-only: "]],
  ])("%s", async (text, piece, expected) => {
    const found = await hoverOn(`${text}\n`, piece);
    for (const part of expected) expect(found?.markdown).toContain(part);
    expect(found?.hover.range).toEqual({ start: positionOf(text, piece), end: positionOf(text, piece, piece.length) });
  });
});

describe("a hover in an annotation", () => {
  const text =
    "// @panel shelf 5x4 gray8 cap=64 lattice=diamond\n// @bitmap shelf fps=2 invert 5x4\nconst uint8_t a[20] = {1};\n";
  test.each([
    ["@bitmap", "The next list of numbers is a bitmap"],
    ["cap=", "Highest value allowed."],
    ["diamond", "Takes one of `square`, `diamond`."],
    ["fps", "Frames a second."],
    ["invert", "0 is lit."],
    ["gray8", "8 bits a pixel: brightness, 0 to 255."],
    ["5x4", "5 columns × 4 rows of one frame."],
    ["shelf", "@panel shelf 5x4 gray8 cap=64 lattice=diamond"],
  ])("on %s", async (piece, expected) => {
    expect((await hoverOn(text, piece))?.markdown).toContain(expected);
  });

  test("a client that reads no Markdown gets plain words", async () => {
    const plain = await startClient({ capabilities: { textDocument: { hover: { contentFormat: ["plaintext"] } } } });
    const uri = "file:///garden/plain.h";
    plain.open(uri, text);
    const ask = (piece: string): Promise<Hover> =>
      plain.request({ method: "textDocument/hover" }, { textDocument: { uri }, position: positionOf(text, piece, 1) });
    expect(await ask("fps")).toMatchObject({
      contents: { kind: "plaintext", value: expect.stringMatching(/^fps=2\n/) },
    });
    expect((await ask("a[20")).contents).toMatchObject({ value: expect.not.stringContaining("data:") });
    expect(await plain.stop()).toBe(0);
  });
});

describe("a hover on a panel's name", () => {
  test("says what it draws at most, and in which frame", async () => {
    const text = [
      "// @panel shelf 2x1 full=10mA budget=15mA",
      "// @bitmap shelf frames=2",
      "const uint8_t a[] = { 255, 0, 255, 255 };",
      "// @bitmap shelf",
      "const uint8_t b[] = { 51, 0 };",
    ].join("\n");
    const says =
      "Draws about 20 mA at most in frame 1 of `a`, of a budget of 15 mA, 11 mA in the mean of all frames (an estimate)";
    // (10 + 20 + 2) / 3
    expect((await hoverOn(text, "shelf 2x1"))?.markdown).toContain(says);
    expect((await hoverOn(text, "shelf frames"))?.markdown).toContain(says);
  });

  test("says nothing of it where no current is given", async () => {
    const text = "// @panel shelf 2x1\n// @bitmap shelf\nconst uint8_t b[] = { 51, 0 };\n";
    expect((await hoverOn(text, "shelf 2x1"))?.markdown).not.toContain("mA");
  });
});

describe("a hover about a wiring", () => {
  const wired = (wire: string, body: string) => `// @panel sill 3x2${wire}\n${body}`;
  const ART = "// @bitmap sill\nconst uint8_t a[6] = {1, 2, 3, 44, 5, 6};\n";
  const TABLE = "// @wiring sill\nconst uint8_t order[6] = {5, 4, 3, 0, 1, 2};\n";

  test("on a number says where its pixel sits at the driver", async () => {
    const on = async (text: string) => (await hoverOn(text, "44"))?.markdown;
    expect(await on(wired(" wire=serpentine", ART))).toContain("Driver x 2, y 1, index 5");
    expect(await on(wired(" wire=6x1;serpentine", ART))).toContain("Driver x 5, y 0, index 5");
    expect(await on(wired("", TABLE + ART))).toContain("Driver x 0, y 0, index 0");
    expect(await on(wired("", ART))).not.toContain("Driver");
    expect(
      await on(wired(" wire=serpentine", "// @bitmap sill 2x2\nconst uint8_t a[4] = {1, 2, 3, 44};\n")),
    ).not.toContain("Driver");
  });

  test("on a number in driver order too, and on one that holds several pixels", async () => {
    const ordered = wired(" wire=serpentine", ART.replace("sill", "sill order=driver"));
    const markdown = (await hoverOn(ordered, "44"))?.markdown;
    expect(markdown).toContain("Pixel x 2, y 1");
    expect(markdown).toContain("Driver x 0, y 1, index 3");
    const packed = wired(" mono1 wire=bottom-left", "// @bitmap sill\nconst uint8_t a[2] = {0xA0, 0x44};\n");
    expect((await hoverOn(packed, "0x44"))?.markdown).toContain("Driver indices 0, 1, 2");
  });

  test("on an entry of a table names its pixel and its place at the driver", async () => {
    const found = await hoverOn(wired(" wire=2x3", TABLE), "3, 0");
    expect(found?.markdown).toBe("`order` entry 2\n\nPixel x 2, y 0 of `sill`: driver x 1, y 1, index 3");
  });

  test("on `wire=` and on @wiring shows the order of the addresses", async () => {
    const wire = await hoverOn(wired(" wire=serpentine;top-right", ART), "wire=");
    expect(wire?.markdown).toContain("![order of addresses](data:image/svg+xml;base64,");
    expect(wire?.markdown).toContain("Driver's canvas 3×2: 6 addresses. The first address, 0, is pixel x 2, y 0.");
    const svg = Buffer.from(/base64,([^)]+)/.exec(wire?.markdown ?? "")?.[1] ?? "", "base64").toString();
    // Pixels are 20 wide: from the top right to the left, down, and back.
    expect(svg).toContain('d="M50 10L30 10L10 10L10 30L30 30L50 30"');
    const table = await hoverOn(wired("", TABLE), "@wiring", 3);
    expect(table?.markdown).toContain("which says the same as `wire=");
    expect(table?.markdown).toContain("From the table `order`");
  });
});
