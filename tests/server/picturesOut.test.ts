import { spawn } from "node:child_process";
import { mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { PNG } from "pngjs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type CliResult, runCli } from "../support/cli.ts";
import { parsePbm } from "../support/netpbm.ts";

const files: Record<string, string> = {
  "art.h": [
    "// @panel lantern 2x2 cap=64 tint=#ff0000 lattice=diamond",
    "// @bitmap lantern frames=2 fps=2",
    "static const uint8_t",
    "  drop[8] = { 0, 1, 64, 7,  9, 8, 7, 6 };",
    "// @bitmap 8x2 mono1 pack=columns",
    "const uint8_t leaf[] = { 1, 2, 3, 0, 1, 2, 3, 0 };",
    "// @bitmap 1x1",
    "const uint8_t built[1] = { GLOW };",
  ].join("\n"),
  "deep/two words & more.h": "// @bitmap 2x1 frames=2 fps=30\nconst uint8_t blink[] = { 0, 0, 255, 255 };\n",
};

let folder = "";
const cli = (...args: string[]): Promise<CliResult> => runCli(args, { cwd: folder });
const read = (name: string) => readFile(join(folder, name));

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "dotwright-pictures-"));
  for (const [name, content] of Object.entries(files)) {
    await mkdir(join(folder, name, ".."), { recursive: true });
    await writeFile(join(folder, name), content);
  }
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe("render", () => {
  it("takes the format from the ending of the name", async () => {
    for (const name of ["leaf.pbm", "leaf.PGM", "leaf.ppm", "leaf.xbm", "leaf.svg", "leaf.apng"])
      expect(await cli("render", "art.h", "leaf", "--out", name), name).toEqual({ code: 0, stdout: "", stderr: "" });
    const { width, height, ink } = parsePbm(await read("leaf.pbm"));
    expect({ width, height, dark: ink.reduce((sum, bit) => sum + bit, 0) }).toEqual({ width: 8, height: 2, dark: 8 });
    expect((await read("leaf.PGM")).toString("latin1")).toMatch(/^P5\n8 2\n1\n/);
    expect((await read("leaf.ppm")).toString("latin1")).toMatch(/^P6\n8 2\n255\n/);
    expect((await read("leaf.xbm")).toString("utf8")).toContain("{\n   0x55, 0x66 };");
    expect((await read("leaf.svg")).toString("utf8")).toContain('width="128" height="32" viewBox="0 0 8 2"');
    // One frame needs no animation.
    expect((await read("leaf.apng")).includes("acTL")).toBe(false);
  });

  it("writes all frames into an APNG, and the one of --frame into others", async () => {
    await cli("render", "art.h", "drop", "--out", "drop.apng");
    const moving = await read("drop.apng");
    expect([moving.includes("acTL"), moving.includes("fdAT")]).toEqual([true, true]);
    await cli("render", "art.h", "drop", "--out", "drop.pgm", "--frame", "1");
    expect([...(await read("drop.pgm")).subarray(-4)]).toEqual([9, 8, 7, 6]);
  });

  it("shows cells upright, and lamps as they hang, in the panel's tint with the cap as full light", async () => {
    await cli("render", "art.h", "drop", "--out", "cells.png", "--look", "cells");
    const cells = PNG.sync.read(await read("cells.png"));
    const at = ({ width, data }: PNG, x: number, y: number) => [
      ...data.subarray(4 * (y * width + x), 4 * (y * width + x) + 3),
    ];
    expect([cells.width, cells.height]).toEqual([32, 32]);
    expect([at(cells, 8, 8), at(cells, 8, 24)]).toEqual([
      [0, 0, 0],
      [255, 0, 0],
    ]);
    await cli("render", "art.h", "drop", "--out", "panel.png", "--look", "panel");
    const panel = PNG.sync.read(await read("panel.png"));
    // Steps of half the diagonal of 16, rounded to 11: two rows and two columns are four steps each way.
    expect([panel.width, panel.height]).toEqual([44, 44]);
    // Pixel 0,1 is on the left in a diamond that hangs upright.
    expect([at(panel, 11, 22), at(panel, 33, 22)[0]]).toEqual([[255, 0, 0], expect.any(Number)]);
    expect(at(panel, 33, 22)[0]).toBeLessThan(80);
  });

  it("writes to standard output, as PNG or as it is asked", async () => {
    const out = await new Promise<Buffer>((resolve, reject) => {
      const command = new URL("../../dist/cli.js", import.meta.url).pathname;
      const child = spawn(process.execPath, [command, "render", "art.h", "drop", "--out", "-"], { cwd: folder });
      const parts: Buffer[] = [];
      child.stdout.on("data", (part: Buffer) => parts.push(part));
      child.on("error", reject);
      child.on("close", () => resolve(Buffer.concat(parts)));
    });
    expect(PNG.sync.read(out)).toMatchObject({ width: 2, height: 2 });
    const { stdout } = await cli("render", "art.h", "leaf", "--out", "-", "--format", "svg", "--scale", "1");
    expect(stdout).toMatch(/^<svg .*width="8" height="2"/);
  });

  it.each<[string[], RegExp]>([
    [["drop", "--out", "x.xbm"], /drop is gray8, which a XBM file can't hold: it has one bit a pixel; PGM holds greys/],
    [["drop", "--out", "x.bmp"], /x\.bmp: the name must end in \.png, \.apng/],
    [["drop", "--out", "x.png", "--format", "gif"], /--format takes png, apng, .* or ppm, not gif/],
    [["drop", "--out", "x.png", "--look", "lit"], /--look takes values, cells or panel, not lit/],
    [["drop", "--out", "x.pgm", "--look", "panel"], /cells and panels go to PNG, APNG or SVG/],
    [["drop", "--out", "x.png", "--fps", "9"], /--fps is for an APNG/],
    [["drop", "--out", "x.png", "--look", "panel", "--scale", "4000"], /at scale 4000 it would be .* more than/],
    [["built", "--out", "x.svg"], /built has no picture: `GLOW` is not defined/],
  ])("refuses %j", async (args, message) => {
    const { code, stdout, stderr } = await cli("render", "art.h", ...args);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toMatch(message);
  });
});

describe("sheet", () => {
  it("writes a page that needs nothing else, with facts, findings and links to the lines", async () => {
    expect(await cli("sheet", "--out", "deep/sheet.html", "art.h", "deep")).toEqual({
      code: 0,
      stdout: "deep/sheet.html: 4 bitmaps\n",
      stderr: "",
    });
    const page = (await read("deep/sheet.html")).toString("utf8");
    expect(page).not.toMatch(/<script|https?:|url\(|<link/);
    expect(page).toContain("4 bitmaps · 21 bytes · 3 findings");
    expect(page).toContain('<a href="../art.h#L4">drop</a>');
    expect(page).toContain('href="two%20words%20%26%20more.h#L2"');
    expect(page).toContain('alt="drop: 2×2 gray8, 2 frames, 8 bytes, peak 64 of cap 64, 2 frames a second"');
    expect(page.replaceAll("\u00a0", "_")).toContain(
      "<p>2×2_gray8,_2_frames · 8_bytes · peak_64_of_cap_64 · 2_frames_a_second</p>",
    );
    expect(page).toContain("no picture: `GLOW` is not defined in this file");
    // Who wants no motion gets the frames side by side; what flashes never moves.
    expect(page.match(/<picture>/g)).toHaveLength(1);
    expect(page).toMatch(/<b>warning<\/b> At 30 fps light flashes .*<i>flashing<\/i>/);
  });
});

describe("text", () => {
  it("keeps the format where only a packing is asked for", async () => {
    const { code, stdout, stderr } = await cli("text", "art.h", "leaf", "--as", "pack=pages");
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    expect(stdout).toMatch(/^\/\/ @bitmap 8x2 mono1 pack=pages\n/);
    expect((await cli("text", "art.h", "leaf", "--as", "")).stdout).toMatch(/^\/\/ @bitmap 8x2 mono1\n/);
  });

  it("prints the bitmap in another format and packing, with what belongs to the picture", async () => {
    const { code, stdout, stderr } = await cli("text", "art.h", "drop", "--as", "mono1 pack=pages");
    // 1, 7, 9, 8, 7 and 6 are neither dark nor the brightest.
    expect({ code, stderr }).toEqual({ code: 0, stderr: "dotwright: 6 of 8 pixels look otherwise in mono1\n" });
    expect(stdout).toMatch(/^\/\/ @bitmap 2x2 mono1 pack=pages frames=2 fps=2\nconst uint8_t drop_2\[\] = \{\n/);
    await writeFile(join(folder, "copied.h"), stdout);
    await cli("render", "copied.h", "drop_2", "--out", "copied.pgm");
    expect([...(await read("copied.pgm")).subarray(-4)]).toEqual([0, 0, 1, 0]);
  });

  it.each<[string[], RegExp]>([
    [["drop", "--as", "gary8"], /`gary8` is not a word of @bitmap\. Did you mean `gray8`\?/],
    [["drop", "--as", "gray8 frames=3"], /The size, the frames and the panel are those of the bitmap/],
    [["drop", "--as", "palette4"], /drop has no palette of palette4/],
    [["built"], /built has no picture/],
  ])("refuses %j", async (args, message) => {
    const { code, stdout, stderr } = await cli("text", "art.h", ...args);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toMatch(message);
  });
});
