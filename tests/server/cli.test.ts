import { spawn } from "node:child_process";
import { mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { PNG } from "pngjs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type CliResult, runCli } from "../support/cli.ts";

const files: Record<string, string | Uint8Array> = {
  "art.h": [
    "// @panel lantern 2x2 cap=64",
    "// @bitmap lantern frames=2 fps=20",
    "static const uint8_t",
    "  drop[8] = { 0, 1, 64, 7,  9, 8, 7, 6 };",
    "// @bitmap 8x2 mono1 pack=columns invert",
    "const uint8_t leaf[] = { 1, 2, 3, 0, 1, 2, 3, 0 };",
    "const int16_t tune[4] = { -1, 300 };",
    "const uint64_t wide[] = { 0xFFFFFFFFFFFFFFFFull, 1 };",
    "// @bitmap 1x1",
    "const uint8_t built[1] = { GLOW };",
  ].join("\n"),
  "clean.h": "// @bitmap 2x1\nconst uint8_t drop[] = { 1, 2 };\n",
  "bad.h":
    "int x;\n// @bitmap 2x1\nconst uint8_t drop[] = { 1, 300 };\n// @bitmap 2x1 cap=9\nconst uint8_t leaf[] = { 1, 10 };\n",
  "warned.h": "// @bitmap 2x1 cap=9\nconst uint8_t leaf[] = { 1, 10 };\n",
  "informed.h": "// @bitmap 2x1\nconst uint8_t leaf[] = { 7, 7 };\n",
  "twice.h":
    "// @bitmap 2x1\nconst uint8_t a[] = { 1, 2 };\nvoid f() {\n  // @bitmap 1x2\n  const uint8_t a[] = { 3, 4 };\n}\n",
  "numbers.h": "const uint8_t a[] = { 1, 2 };\n",
  "lantern.ino": "const int level[] = { 1, 0x8000 };\n",
  "wood.xbm": "#define wood_width 10\n#define wood_height 1\nstatic char wood_bits[] = { 0x01, 0x02 };\n",
  "driven.h":
    "// @panel sill 2x1 gray8 cap=64 night=16 drive=50% wire=bottom-right\n// @bitmap sill order=driver\nconst uint8_t lamp[] = { 1, 2 };\n// @bitmap sill mask\nconst uint8_t veil[] = { 0, 255 };\n",
  "empty.h": "",
  "binary.h": Uint8Array.from({ length: 4096 }, (_, i) => (i * 167) & 255),
  // `grün` in Latin-1, in a comment before the finding on its line.
  "latin1.h": Buffer.from("// @bitmap 2x1\nconst uint8_t a[] = { 1, /* gr\u00fcn */ 300 };\n", "latin1"),
  "bom.h": "\ufeff// @bitmap 2x1\r\nconst uint8_t a[] = { 1,\r\n 300 };\r\n",
  "two words.h": "// @bitmap 2x1\nconst uint8_t a[] = { 1, 300 };\n",
  "notes.txt": "// @bitmap 2x1\nconst uint8_t a[] = { 1, 300 };\n",
  "deep/under/icon.hpp": "// @bitmap 1x1\nconst uint8_t deep[] = { 7 };\n",
  "node_modules/other.h": "// @bitmap 1x1\nconst uint8_t other[] = { 7 };\n",
};

let folder = "";
const cli = (...args: string[]): Promise<CliResult> => runCli(args, { cwd: folder });

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "dotwright-cli-"));
  for (const [name, content] of Object.entries(files)) {
    await mkdir(join(folder, name, ".."), { recursive: true });
    await writeFile(join(folder, name), content);
  }
});

afterAll(() => rm(folder, { recursive: true, force: true }));

/** Standard output as JSON; nothing may stand on standard error. */
async function json(...args: string[]): Promise<unknown> {
  const { code, stdout, stderr } = await cli(...args);
  expect({ stderr, ends: stdout.endsWith("\n") }).toEqual({ stderr: "", ends: true });
  expect(code).toBeLessThan(2);
  return JSON.parse(stdout);
}

describe("list", () => {
  it("tells how a bitmap is driven and stored where that is not as usual", async () => {
    const [night, mask] = ((await json("list", "--json", "driven.h")) as { arrays: { bitmap: unknown }[] }).arrays;
    expect(night?.bitmap).toMatchObject({ cap: 64, night: 16, drive: 0.5, order: "driver", panel: "sill" });
    expect(mask?.bitmap).toMatchObject({ mask: true, panel: "sill" });
    expect(mask?.bitmap).not.toHaveProperty("cap");
  });

  it("prints the bitmaps with all they say of themselves", async () => {
    expect(await json("list", "--json", "art.h")).toEqual({
      arrays: [
        {
          file: "art.h",
          line: 4,
          name: "drop",
          elementBits: 8,
          signed: false,
          declared: 8,
          given: 8,
          bitmap: {
            width: 2,
            height: 2,
            frames: 2,
            format: "gray8",
            pack: "rows",
            bits: "msb",
            cap: 64,
            fps: 20,
            panel: "lantern",
          },
        },
        {
          file: "art.h",
          line: 6,
          name: "leaf",
          elementBits: 8,
          signed: false,
          declared: null,
          given: 8,
          bitmap: { width: 8, height: 2, frames: 1, format: "mono1", pack: "columns", bits: "lsb", invert: true },
        },
        {
          file: "art.h",
          line: 10,
          name: "built",
          elementBits: 8,
          signed: false,
          declared: 1,
          given: 1,
          readOnly: "`GLOW` is not defined in this file",
          bitmap: { width: 1, height: 1, frames: 1, format: "gray8", pack: "rows", bits: "msb" },
        },
      ],
    });
  });

  it("--all adds the arrays without an annotation, --values what the compiler stores", async () => {
    const { arrays } = (await json("list", "--all", "--values", "--json", "art.h")) as {
      arrays: Record<string, unknown>[];
    };
    expect(
      arrays.map(({ name, signed, declared, given, values }) => ({ name, signed, declared, given, values })),
    ).toEqual([
      { name: "drop", signed: false, declared: 8, given: 8, values: [0, 1, 64, 7, 9, 8, 7, 6] },
      { name: "leaf", signed: false, declared: null, given: 8, values: [1, 2, 3, 0, 1, 2, 3, 0] },
      { name: "tune", signed: true, declared: 4, given: 2, values: [-1, 300, 0, 0] },
      { name: "wide", signed: false, declared: null, given: 2, values: ["18446744073709551615", "1"] },
      { name: "built", signed: false, declared: 1, given: 1, values: undefined },
    ]);
  });

  it.each([
    [[], 16, [1, -32768]],
    [["--target", "avr"], 16, [1, -32768]],
    [["--target", "host"], 32, [1, 32768]],
    [["--target=arm32"], 32, [1, 32768]],
  ])("%j: a sketch is read for its target", async (options, elementBits, values) => {
    const listed = await json("list", "--all", "--values", "--json", ...options, "lantern.ino");
    expect(listed).toMatchObject({ arrays: [{ name: "level", elementBits, values }] });
  });

  it("XBM needs no annotation", async () => {
    expect(await json("list", "--json", "wood.xbm")).toMatchObject({
      arrays: [{ name: "wood_bits", bitmap: { width: 10, height: 1, format: "mono1", pack: "rows", bits: "lsb" } }],
    });
  });

  it("reads folders with what is below them, but only source files and not node_modules", async () => {
    const { arrays } = (await json("list", "--json", ".")) as { arrays: { file: string }[] };
    const listed = new Set(arrays.map(({ file }) => file));
    expect(listed).toContain(join("deep", "under", "icon.hpp"));
    expect([...listed].filter((file) => /node_modules|notes/.test(file))).toEqual([]);
    expect([...listed]).toEqual([...listed].sort());
  });

  it("a file named outright counts whatever its ending, and once", async () => {
    expect(await json("list", "--json", "notes.txt", "./notes.txt", "deep/../notes.txt")).toMatchObject({
      arrays: [{ file: "notes.txt" }],
    });
  });

  it.each([["empty.h"], ["binary.h"], ["numbers.h"]])("%s holds no bitmap", async (file) => {
    expect(await json("list", "--json", file)).toEqual({ arrays: [] });
  });

  it("without --json it prints a line for each array", async () => {
    const { code, stdout, stderr } = await cli("list", "art.h");
    expect({ code, stderr, lines: stdout.trimEnd().split("\n").length }).toEqual({ code: 0, stderr: "", lines: 3 });
    expect(stdout).toMatch(/^art\.h:4: drop: 2×2 gray8, 2 frames; 8 × 8 bits$/m);
  });
});

describe("check", () => {
  it("prints findings with their place, 1-based", async () => {
    expect(await json("check", "--json", "bad.h")).toEqual({
      findings: [
        {
          file: "bad.h",
          line: 3,
          column: 29,
          code: "out-of-range",
          severity: "error",
          message: expect.stringContaining("300"),
        },
        {
          file: "bad.h",
          line: 5,
          column: 29,
          code: "over-cap",
          severity: "warning",
          message: expect.stringContaining("10"),
        },
      ],
    });
  });

  it.each([
    ["clean.h", 0],
    ["numbers.h", 0],
    ["empty.h", 0],
    ["binary.h", 0],
    ["informed.h", 0],
    ["warned.h", 1],
    ["bad.h", 1],
    ["deep", 0],
    [".", 1],
  ])("%s: exit %i in every form of output", async (path, expected) => {
    for (const form of [[], ["--json"], ["--sarif"]]) {
      const { code, stderr } = await cli("check", ...form, path);
      expect({ form, code, stderr }).toEqual({ form, code: expected, stderr: "" });
    }
  });

  it("nothing found is an empty list, and no text", async () => {
    expect(await json("check", "--json", "clean.h")).toEqual({ findings: [] });
    expect((await cli("check", "clean.h")).stdout).toBe("");
  });

  it("information is printed but is no finding for the exit code", async () => {
    expect(await json("check", "--json", "informed.h")).toMatchObject({
      findings: [{ code: "uniform", severity: "information" }],
    });
  });

  it("as text: file, line, column, severity, message and code", async () => {
    const { stdout } = await cli("check", "warned.h");
    expect(stdout).toMatch(/^warned\.h:2:29: warning: .+ \[over-cap\]\n$/);
  });

  it.each([
    ["latin1.h", 2, 37],
    ["bom.h", 3, 2],
  ])("%s: place of the finding", async (file, line, column) => {
    expect(await json("check", "--json", file)).toMatchObject({ findings: [{ line, column, code: "out-of-range" }] });
  });

  it("the target decides what fits", async () => {
    await writeFile(join(folder, "big.ino"), "// @bitmap 16x2 mono1\nconst unsigned int a[] = { 65536, 1 };\n");
    expect((await cli("check", "big.ino")).code).toBe(1);
    expect(await json("check", "--json", "--target", "avr", "big.ino")).toMatchObject({
      findings: [{ code: "out-of-range" }],
    });
  });
});

/** OASIS SARIF 2.1.0: sections 3.13 (log), 3.14 (run), 3.18-3.19 (tool), 3.27 (result), 3.30 (region). */
describe("check --sarif", () => {
  interface Log {
    version: string;
    $schema: string;
    runs: {
      tool: { driver: { name: string; rules: { id: string; shortDescription: { text: string } }[] } };
      columnKind: string;
      results: {
        ruleId: string;
        level: string;
        message: { text: string };
        locations: { physicalLocation: { artifactLocation: { uri: string }; region: Record<string, number> } }[];
      }[];
    }[];
  }

  it("has what the standard requires", async () => {
    const log = (await json("check", "--sarif", "bad.h", "informed.h", "two words.h", "bom.h")) as Log;
    expect(log.version).toBe("2.1.0");
    expect(log.$schema).toMatch(/^https:\/\/.+sarif.+2\.1\.0.*\.json$/);
    expect(log.runs).toHaveLength(1);
    const [run] = log.runs;
    const ids = run?.tool.driver.rules.map(({ id }) => id) ?? [];
    expect(run?.tool.driver.name).toBe("Dotwright");
    expect(new Set(ids).size).toBe(ids.length);
    expect(run?.columnKind).toBe("utf16CodeUnits");
    expect(run?.results.map(({ ruleId, level }) => [ruleId, level])).toEqual([
      ["out-of-range", "error"],
      ["over-cap", "warning"],
      ["uniform", "note"],
      ["out-of-range", "error"],
      ["out-of-range", "error"],
    ]);
    for (const { ruleId, message, locations } of run?.results ?? []) {
      expect(ids).toContain(ruleId);
      expect(message.text).not.toBe("");
      expect(locations).toHaveLength(1);
      // RFC 3986: a URI reference holds no blanks.
      expect(locations[0]?.physicalLocation.artifactLocation.uri).toMatch(/^[\w.~%/-]+$/);
    }
    const places = run?.results.map(({ locations }) => locations[0]?.physicalLocation);
    expect(places?.map((place) => [place?.artifactLocation.uri, place?.region])).toEqual([
      ["bad.h", { startLine: 3, startColumn: 29, endLine: 3, endColumn: 32 }],
      ["bad.h", { startLine: 5, startColumn: 29, endLine: 5, endColumn: 31 }],
      ["informed.h", { startLine: 2, startColumn: 15, endLine: 2, endColumn: 19 }],
      ["two%20words.h", { startLine: 2, startColumn: 26, endLine: 2, endColumn: 29 }],
      ["bom.h", { startLine: 3, startColumn: 2, endLine: 3, endColumn: 5 }],
    ]);
  });

  it("nothing found: a run without results", async () => {
    expect(await json("check", "--sarif", "clean.h")).toMatchObject({ runs: [{ results: [] }] });
  });
});

describe("render", () => {
  /** Grey values of a PNG file, row by row. */
  async function greys(name: string) {
    const { width, height, data } = PNG.sync.read(await readFile(join(folder, name)));
    const pixels = Array.from({ length: width * height }, (_, i) => [...data.subarray(4 * i, 4 * i + 4)]);
    for (const [r, g, b, a] of pixels) expect([g, b, a]).toEqual([r, r, 255]);
    return { width, height, values: pixels.map(([v]) => v) };
  }

  it.each([
    ["art.h", "drop", [], 2, 2, [0, 1, 64, 7]],
    ["art.h", "drop", ["--frame", "1"], 2, 2, [9, 8, 7, 6]],
    ["clean.h", "drop", ["--scale", "2"], 4, 2, [1, 1, 2, 2, 1, 1, 2, 2]],
    ["wood.xbm", "wood_bits", [], 10, 1, [255, 0, 0, 0, 0, 0, 0, 0, 0, 255]],
    ["art.h", "leaf", [], 8, 2, [0, 255, 0, 255, 0, 255, 0, 255, 255, 0, 0, 255, 255, 0, 0, 255]],
  ])("%s %s %j", async (file, name, options, width, height, values) => {
    const out = `${name}-${options.join("")}.png`;
    expect(await cli("render", file, name, "--out", out, ...options)).toEqual({ code: 0, stdout: "", stderr: "" });
    expect(await greys(out)).toEqual({ width, height, values });
  });

  it("says which bitmap of a name it takes, and takes that of --line", async () => {
    expect(await cli("render", "twice.h", "a", "--out", "first.png")).toEqual({
      code: 0,
      stdout: "",
      stderr: expect.stringContaining("2 bitmaps are named a, on lines 2, 5; this is the first"),
    });
    expect(await greys("first.png")).toEqual({ width: 2, height: 1, values: [1, 2] });
    const second = await cli("render", "twice.h", "a", "--out", "second.png", "--line", "5");
    expect(second).toEqual({ code: 0, stdout: "", stderr: "" });
    expect(await greys("second.png")).toEqual({ width: 1, height: 2, values: [3, 4] });
  });
});

/** [arguments, what standard error says] */
const failures: [string[], RegExp][] = [
  [[], /command is missing[\s\S]*Usage:/],
  [["lst", "art.h"], /lst is not a command; did you mean list\?/],
  [["chekc", "art.h"], /did you mean check\?/],
  [["zzzzzz"], /^dotwright: zzzzzz is not a command\nThe commands are list, check, .*; --help explains them\.\n$/],
  [["list"], /files or folders/],
  [["check"], /files or folders/],
  [["list", "--jsn", "art.h"], /^dotwright: --jsn is not an option\n$/],
  [["list", "none.h"], /none\.h: there is no such file or folder/],
  [["list", "--json", "art.h", "none.h"], /none\.h/],
  [["check", "--json", "bad.h", "none.h"], /none\.h/],
  [["check", "--sarif", "none.h"], /none\.h/],
  [["list", "--target", "z80", "art.h"], /z80 is not a target: avr, arm32 or host/],
  [["check", "--target"], /target/],
  [["render", "art.h"], /render takes a file and the name of a bitmap/],
  [["render", "art.h", "drop", "leaf", "--out", "x.png"], /render takes a file and the name of a bitmap/],
  [["render", "art.h", "drop"], /--out/],
  [["render", "twice.h", "a", "--out", "x.png", "--line", "4"], /a is not named on line 4, but on 2, 5/],
  [["check", "--values", "art.h"], /check takes no --values/],
  [["list", "--frame", "0", "art.h"], /list takes no --frame/],
  [["render", "none.h", "drop", "--out", "x.png"], /none\.h/],
  [["render", "art.h", "drp", "--out", "x.png"], /drp is not a bitmap of this file; did you mean drop\?/],
  [["render", "art.h", "tune", "--out", "x.png"], /tune is an array without an annotation/],
  [["render", "art.h", "built", "--out", "x.png"], /built has no picture: `GLOW` is not defined in this file/],
  [
    ["render", "art.h", "drop", "--out", "x.png", "--frame", "2"],
    /drop has 2 frames, numbered from 0; there is no frame 2/,
  ],
  [["render", "art.h", "drop", "--out", "x.png", "--frame", "-1"], /frame/],
  [["render", "art.h", "drop", "--out", "x.png", "--frame", "one"], /--frame takes a whole number from 0, not one/],
  [["render", "art.h", "drop", "--out", "x.png", "--scale", "0"], /--scale takes a whole number from 1, not 0/],
  [["render", "art.h", "drop", "--out", "x.png", "--scale", "99999"], /more than \d+ pixels/],
  [["render", "art.h", "drop", "--out", "none/x.png"], /none\/x\.png: can't be written \(ENOENT\)/],
  [["render", "deep", "drop", "--out", "x.png"], /deep: can't be read \(EISDIR\)/],
];

describe("a reader that goes away", () => {
  it("is no reason for a stack trace", async () => {
    const values = Array.from({ length: 200_000 }, (_, i) => i & 255).join(",");
    await writeFile(join(folder, "large.h"), `const uint8_t a[] = {${values}};`);
    const command = fileURLToPath(new URL("../../dist/cli.js", import.meta.url));
    const child = spawn(process.execPath, [command, "list", "--all", "--values", "--json", "large.h"], { cwd: folder });
    let stderr = "";
    child.stderr.on("data", (part) => {
      stderr += part;
    });
    child.stdout.once("data", () => child.stdout.destroy());
    await new Promise((resolve) => child.once("close", resolve));
    expect(stderr).toBe("");
  });
});

describe("what can't run", () => {
  it.each(failures)("%j", async (args, says) => {
    const { code, stdout, stderr } = await cli(...args);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toMatch(says);
    expect(stderr).not.toMatch(/^\s+at /m);
  });

  it("a picture that could not be made leaves no file", async () => {
    await cli("render", "art.h", "built", "--out", "nothing.png");
    await expect(readFile(join(folder, "nothing.png"))).rejects.toThrow("ENOENT");
  });

  it("--help of a command prints its usage alone", async () => {
    const { code, stdout } = await cli("memory", "--help");
    expect({ code, commands: stdout.match(/cli\.js \w+/g) }).toEqual({ code: 0, commands: ["cli.js memory"] });
  });

  it("a source is not taken for the place of a picture", async () => {
    const before = await readFile(join(folder, "art.h"), "utf8");
    for (const [says, ...args] of [
      [/art\.h: the name must end in \.png or \.html/, "sheet", "art.h", "--out", "art.h"],
      [/art\.h is what is read/, "render", "art.h", "drop", "--format", "png", "--out", "./art.h"],
    ] as const) {
      const { code, stderr } = await cli(...args);
      expect(code).toBe(2);
      expect(stderr).toMatch(says);
    }
    expect(await readFile(join(folder, "art.h"), "utf8")).toBe(before);
  });

  it("--help prints the usage and is no failure", async () => {
    const { code, stdout, stderr } = await cli("--help");
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    for (const command of ["list", "check", "render"]) expect(stdout).toContain(command);
  });
});
