/** The commands about memory and light of whole files. */
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type CliResult, runCli } from "../support/cli.ts";

const files: Record<string, string> = {
  "art.ino": [
    "// @palette rgb565",
    "const uint16_t colours[2] PROGMEM = { 0, 0xFFFF };",
    "// @bitmap 8x2 palette1 palette=colours",
    "const uint8_t leaf[2] PROGMEM = { 1, 2 };",
    "// @bitmap 8x16 palette1 palette=colours",
    "const uint8_t stem[16] = { 1, 3, 1, 3, 1, 3, 1, 3, 1, 3, 1, 3, 1, 3, 1, 3 };",
    "int f() { return stem[0]; }",
  ].join("\n"),
  "drop.h": "// @bitmap 2x1\nconst uint8_t drop[] = { 1, 2 };\n// @bitmap 2x1\nconst Unknown odd[] = { 1, 2 };\n",
};

let folder = "";
const cli = (...args: string[]): Promise<CliResult> => runCli(args, { cwd: folder });

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "dotwright-light-"));
  for (const [name, content] of Object.entries(files)) await writeFile(join(folder, name), content);
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe("memory", () => {
  it("adds up flash and RAM by file and in all", async () => {
    expect(await cli("memory", ".")).toEqual({
      code: 0,
      stderr: "",
      stdout: [
        "art.ino: 3 arrays, 22 bytes of flash, 16 bytes of RAM",
        "drop.h: 2 arrays, 2 bytes of flash, 0 bytes of RAM; 1 of unknown size left out",
        "2 files: 5 arrays, 24 bytes of flash, 16 bytes of RAM; 1 of unknown size left out",
        "",
      ].join("\n"),
    });
  });

  it("as JSON, array by array", async () => {
    const { stdout } = await cli("memory", "--json", "art.ino");
    expect(JSON.parse(stdout)).toEqual({
      arrays: [
        { file: "art.ino", line: 2, name: "colours", storage: "flash", flash: 4, ram: 0 },
        { file: "art.ino", line: 4, name: "leaf", storage: "flash", flash: 2, ram: 0 },
        { file: "art.ino", line: 6, name: "stem", storage: "copied", flash: 16, ram: 16 },
      ],
      flash: 22,
      ram: 16,
    });
  });

  it("needs a path", async () => {
    expect(await cli("memory")).toMatchObject({ code: 2, stdout: "" });
  });
});

describe("current", () => {
  it("tells the worst frame and the mean of each panel, and all panels at once", async () => {
    const lit = await runCli(["current", "sample-workspace/lantern_art.h"]);
    expect(lit.stdout).toMatch(
      /^lantern: about \d+ mA of a budget of 250 mA \(\w+, frame \d+, sample-workspace\/lantern_art\.h\), \d+ mA in the mean of 11 bitmaps\nThis is an estimate: .*licensed practice\.\n$/,
    );
    const source = [
      "// @panel door 4x1 full=10mA idle=1mA budget=20mA",
      "// @panel bed 1x1 full=5mA",
      "// @bitmap door frames=2",
      "const uint8_t a[] = { 255, 255, 0, 0,  255, 255, 255, 0 };",
      "// @bitmap door 1x1",
      "const uint8_t b[] = { 255 };",
      "// @bitmap bed",
      "const uint8_t c[] = { 51 };",
      "// @bitmap door mask",
      "const uint8_t d[] = { 255, 255, 255, 255 };",
    ].join("\n");
    await writeFile(join(folder, "supply.h"), source);
    const { code, stdout } = await cli("current", "--json", "supply.h");
    expect(code).toBe(0);
    expect(JSON.parse(stdout)).toEqual({
      panels: [
        // 3 · 10 + 1 · 1; the mean of 22, 31 and, with three dark pixels around it, 13.
        { panel: "door", worst: 31, mean: 22, budget: 20, file: "supply.h", name: "a", frame: 1, bitmaps: 2 },
        { panel: "bed", worst: 1, mean: 1, file: "supply.h", name: "c", frame: 0, bitmaps: 1 },
      ],
      worst: 32,
    });
    const words = (await cli("current", "supply.h")).stdout.split("\n");
    expect(words[0]).toBe(
      "door: about 31 mA of a budget of 20 mA, over it (a, frame 1, supply.h), 22 mA in the mean of 2 bitmaps",
    );
    expect(words[2]).toBe("All of them at once: about 32 mA at most.");
    expect((await cli("current", "drop.h")).stdout).toBe("No bitmap says what its pixels draw (full=).\n");
    await rm(join(folder, "supply.h"));
  });
});

describe("lightness", () => {
  it("prints a C array", async () => {
    // round(15 · Y(100 · i / 3)): L* 33.3 and 66.7 are Y 0.0769 and 0.3619 (CIE 15:2018).
    const { code, stdout } = await cli("lightness", "--from", "2", "--to", "4", "--name", "steps");
    expect({ code, stdout }).toEqual({
      code: 0,
      stdout: `// Duty of 4 levels that are even to the eye (CIE 1976 lightness), 15 at most.\nconst uint8_t steps[4] = {\n   0,  1,  5, 15,\n};\n`,
    });
  });

  it.each<[string[], RegExp]>([
    [["lightness", "--from", "17"], /--from takes 1 to 16 bits, not 17/],
    [["lightness", "--most", "256"], /--most 256 does not fit in 8 bits/],
    [["lightness", "--name", "for"], /`for` is a keyword/],
    [["lightness", "art.ino"], /reads no files/],
    [["dim", "--way", "half", "."], /--way takes clamp, linear, even, not half/],
    [["dim"], /files or folders/],
  ])("%j is refused", async (args, says) => {
    const { code, stdout, stderr } = await cli(...args);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toMatch(says);
  });
});

describe("dim", () => {
  // CR LF, a byte order mark, and bytes that are no UTF-8, in files that may not change elsewhere.
  const crlf = "\ufeff// @bitmap 3x1 cap=64\r\nconst uint8_t bright[] = { 0x80, 0xFF, 0x01 };\r\n";
  const latin1 = Buffer.from(
    "// gr\u00fcn\n// @bitmap 3x1 full=10mA budget=15mA\nconst uint8_t hot[] = {255,255,128};",
    "latin1",
  );
  const palette =
    "// @palette rgb888 pack=each\nconst uint32_t c[2] = { 0, 0xFFFFFF };\n// @bitmap 8x1 palette1 palette=c cap=64\nconst uint8_t p[1] = { 1 };\n";
  const names = ["crlf.h", "latin1.h", "palette.h"];
  let own = "";
  beforeAll(async () => {
    own = await mkdtemp(join(tmpdir(), "dotwright-dim-"));
    await writeFile(join(own, "crlf.h"), crlf);
    await writeFile(join(own, "latin1.h"), latin1);
    await writeFile(join(own, "palette.h"), palette);
  });
  afterAll(() => rm(own, { recursive: true, force: true }));
  const told = [
    "crlf.h:2: bright: 2 pixels from 255 to 64 (even)",
    "latin1.h:3: hot: 3 pixels within 15 mA (even)",
    "palette.h:4: p: left as it is: the colours of its palette may serve other bitmaps too",
  ];
  const bytes = () => Promise.all(names.map((name) => readFile(join(own, name))));

  it("tells what it would change, and changes nothing", async () => {
    const before = await bytes();
    const { code, stdout } = await runCli(["dim", "."], { cwd: own });
    expect({ code, lines: stdout.trim().split("\n") }).toEqual({ code: 0, lines: told });
    expect(await bytes()).toEqual(before);
  });

  it("--write changes the numbers and no other byte", async () => {
    const { stdout } = await runCli(["dim", "--write", "."], { cwd: own });
    expect(stdout.trim().split("\n")).toEqual(told);
    const [one, two, three] = (await bytes()) as [Buffer, Buffer, Buffer];
    // 255 comes to the cap; L* 76.19 of 128 to 43.57, which is 35; a lit pixel stays lit.
    expect(one.toString("utf8")).toBe(crlf.replace("0x80, 0xFF", "0x23, 0x40"));
    const list = /\{(\d+),(\d+),(\d+)\};$/;
    expect(two.toString("latin1").replace(list, "")).toBe(latin1.toString("latin1").replace(list, ""));
    const values = (list.exec(two.toString("latin1")) ?? []).slice(1).map(Number);
    expect(values.reduce((sum, v) => sum + (v / 255) * 10, 0)).toBeLessThanOrEqual(15);
    expect(values.reduce((sum, v) => sum + (v / 255) * 10, 0)).toBeGreaterThan(14.8);
    expect(three.toString("utf8")).toBe(palette);
    const again = await runCli(["dim", "."], { cwd: own });
    expect(again.stdout.trim().split("\n")).toEqual(told.slice(2));
    const checked = await runCli(["check", "crlf.h", "latin1.h"], { cwd: own });
    expect(checked).toMatchObject({ code: 0, stdout: "" });
  });
});

describe("check", () => {
  it("tells the places that read an array in RAM below it", async () => {
    const { code, stdout } = await cli("check", "art.ino");
    expect(code).toBe(0);
    expect(stdout).toMatch(
      /^art\.ino:6:15: information: On AVR, stem takes 16 bytes .* \[memory\]\n {2}art\.ino:7:18: stem is read here\n$/,
    );
    const json = JSON.parse((await cli("check", "--json", "art.ino")).stdout);
    expect(json.findings[0].related).toEqual([
      { file: expect.stringMatching(/\.(ino|cpp|h)$/), line: 7, column: 18, message: "stem is read here" },
    ]);
  });
});

describe("check --sarif", () => {
  it("names the places that read an array in RAM", async () => {
    const { stdout } = await cli("check", "--sarif", "art.ino");
    const results: { ruleId: string; message: { text: string } }[] = JSON.parse(stdout).runs[0].results;
    const result = results.find(({ message }) => message.text.includes("RAM"));
    // SARIF 2.1.0, 3.27.22: related locations are location objects, with a message each.
    expect(result).toMatchObject({
      ruleId: "memory",
      level: "note",
      relatedLocations: [
        {
          physicalLocation: { artifactLocation: { uri: "art.ino" }, region: { startLine: 7, startColumn: 18 } },
          message: { text: "stem is read here" },
        },
      ],
    });
  });
});
