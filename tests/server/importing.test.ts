import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { encodePng } from "../../server/png.ts";
import { type CliResult, runCli } from "../support/cli.ts";

let folder = "";
const cli = (...args: string[]): Promise<CliResult> => runCli(args, { cwd: folder });
const grey = (width: number, height: number, value: (i: number) => number) =>
  encodePng({ width, height, channels: 1, data: Uint8Array.from({ length: width * height }, (_, i) => value(i)) });

const art =
  "// @panel lantern 2x2 gray8 cap=64\n\n// @bitmap lantern\nconst uint8_t drop[4] = { 1, 2, 3, 4 }; // gr\u00fcn\n";

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "dotwright-import-"));
  await writeFile(
    join(folder, "ramp.png"),
    grey(16, 16, (i) => i),
  );
  await writeFile(
    join(folder, "seed-2.png"),
    grey(2, 2, (i) => 80 * i),
  );
  await writeFile(
    join(folder, "sheet.png"),
    grey(5, 2, (i) => i),
  );
  await writeFile(join(folder, "cut.png"), grey(16, 16, (i) => i).subarray(0, 60));
  await writeFile(join(folder, "notes.txt"), "no picture\n");
  await writeFile(join(folder, "latin1.h"), Buffer.from(art, "latin1"));
});

afterAll(() => rm(folder, { recursive: true, force: true }));

describe("import", () => {
  it("prints annotation and array, every grey as it was", async () => {
    const { code, stdout, stderr } = await cli("import", "ramp.png", "--as", "16x16 gray8", "--name", "ramp");
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    const [annotation, opening] = stdout.split("\n");
    expect([annotation, opening]).toEqual(["// @bitmap 16x16 gray8", "const uint8_t ramp[256] = {"]);
    const numbers = stdout.split("\n").slice(2).join("").match(/\d+/g)?.map(Number);
    expect(numbers).toEqual(Array.from({ length: 256 }, (_, v) => v));
  });

  it("names the array after the file, and says on stderr what was decided", async () => {
    const { code, stdout, stderr } = await cli("import", "seed-2.png", "--as", "gray8 cap=64");
    expect(code).toBe(0);
    expect(stdout).toBe("// @bitmap 2x2 gray8 cap=64\nconst uint8_t seed_2[4] = {\n   0, 20,\n  40, 60,\n};\n");
    expect(stderr).toBe("dotwright: scaled, so that white is the cap of 64\n");
  });

  it("takes every choice by an option", async () => {
    const options = [
      "--invert",
      "--turn",
      "90",
      "--mirror",
      "left-right",
      "--over-cap",
      "clamp",
      "--background",
      "#102030",
    ];
    const { stdout } = await cli("import", "seed-2.png", "--as", "2x2", "--name", "seed", ...options);
    expect(stdout).toContain("{\n  255,  95,\n  175,  15,\n};");
    const mono = await cli(
      "import",
      "ramp.png",
      "--as",
      "8x1 mono1",
      "--name",
      "m",
      "--crop",
      "0,8,16x2",
      "--threshold",
      "56%",
    );
    expect(mono.stdout).toContain("0x0F");
    const dithered = await cli(
      "import",
      "ramp.png",
      "--as",
      "16x16 mono1",
      "--name",
      "m",
      "--dither",
      "ordered-4",
      "--linear",
    );
    expect(dithered.code).toBe(0);
    const colours = await cli(
      "import",
      "ramp.png",
      "--as",
      "16x16 palette4",
      "--name",
      "m",
      "--colours",
      "3",
      "--palette-format",
      "rgb332",
    );
    expect(colours.stdout).toContain("// @palette rgb332\nconst uint8_t m_colours[3] = {");
  });

  it("takes several files, or the cells of a sheet, as frames", async () => {
    const two = await cli("import", "seed-2.png", "seed-2.png", "--as", "gray8", "--name", "grow");
    expect(two.stdout).toContain("// @bitmap 2x2 gray8 frames=2\n");
    const cells = await cli(
      "import",
      "sheet.png",
      "--cell",
      "1x2",
      "--gap",
      "1",
      "--as",
      "gray8",
      "--name",
      "grow",
      "--chars",
      "012",
    );
    expect(cells.stdout.split("\n").slice(0, 5)).toEqual([
      "// @bitmap 1x2 gray8 frames=3 first='0'",
      "const uint8_t grow[6] = {",
      "  /* '0' */",
      "    0,",
      "    5,",
    ]);
  });

  it("puts a picture into a file, whatever its encoding, and changes nothing else", async () => {
    const shown = await cli("import", "seed-2.png", "--into", "latin1.h", "--name", "drop");
    expect(shown.stdout).toBe("// @bitmap lantern\nconst uint8_t drop[4] = { 0, 20, 40, 60 };\n");
    expect(await readFile(join(folder, "latin1.h"), "latin1")).toBe(art);
    await cli("import", "seed-2.png", "--into", "latin1.h", "--name", "drop", "--write");
    await cli("import", "seed-2.png", "--frame-of", "latin1.h", "--name", "drop", "--over-cap", "clamp", "--write");
    const last = await cli(
      "import",
      "seed-2.png",
      "--as",
      "lantern",
      "--into",
      "latin1.h",
      "--name",
      "seed",
      "--write",
    );
    expect({ code: last.code, stdout: last.stdout }).toEqual({ code: 0, stdout: "" });
    expect(await readFile(join(folder, "latin1.h"), "latin1")).toBe(
      "// @panel lantern 2x2 gray8 cap=64\n\n// @bitmap lantern frames=2\nconst uint8_t drop[8] = { 0, 20, 40, 60, 0, 64, 64, 64 }; // gr\u00fcn\n\n" +
        "// @bitmap lantern\nconst uint8_t seed[4] = {\n  0, 20,\n  40, 60\n};\n",
    );
  });

  it.each<[string, string, string]>([
    ["a guard alone", "#ifndef A\n#define A\n#endif\n", "#ifndef A\n#define A\n\nNEW\n\n#endif\n"],
    [
      "a guard with a statement",
      "#ifndef A\n#define A\nint kettles;\n#endif\n",
      "#ifndef A\n#define A\nint kettles;\n\nNEW\n\n#endif\n",
    ],
    ["nothing", "", "NEW\n"],
    ["a panel", "// @panel p 2x2\n", "// @panel p 2x2\n\nNEW\n"],
  ])("puts a new array into a file with %s", async (name, before, after) => {
    const file = `${name.replaceAll(" ", "-")}.h`;
    await writeFile(join(folder, file), before);
    await cli("import", "seed-2.png", "--as", "2x2", "--name", "seed", "--into", file, "--write");
    const written = await readFile(join(folder, file), "utf8");
    expect(written.replace(/\/\/ @bitmap 2x2\nstatic const uint8_t seed[^;]*;/, "NEW")).toBe(after);
  });

  it.each<[string, string[], string]>([
    [
      "no picture",
      ["notes.txt", "--as", "2x2", "--name", "a"],
      "notes.txt: it is neither a picture nor a font that can be read",
    ],
    ["cut off", ["cut.png", "--as", "2x2", "--name", "a"], "cut.png: the PNG file ends early"],
    ["missing", ["none.png", "--as", "2x2", "--name", "a"], "none.png: there is no such file"],
    ["folder", [".", "--as", "2x2", "--name", "a"], ".: is no file"],
    ["no words", ["ramp.png", "--name", "a"], "import needs --as"],
    ["wrong words", ["ramp.png", "--as", "16x16 grey8", "--name", "a"], "grey8"],
    ["wrong name", ["ramp.png", "--as", "16x16", "--name", "int"], "`int` is a keyword of C or C++."],
    [
      "wrong channel",
      ["ramp.png", "--as", "16x16", "--name", "a", "--channel", "luminence"],
      "--channel takes luminance, alpha, red, green, blue, lightness, colours, not luminence; did you mean luminance?",
    ],
    [
      "wrong crop",
      ["ramp.png", "--as", "4x4", "--name", "a", "--crop", "left"],
      "--crop takes the corner and perhaps the size",
    ],
    [
      "crop outside",
      ["ramp.png", "--as", "4x4", "--name", "a", "--crop", "14,0"],
      "4×4 from 14,0 is not inside the picture, which is 16×16",
    ],
    [
      "not exact",
      ["ramp.png", "--as", "4x4", "--name", "a", "--fit", "exact"],
      "the picture is 16×16, and the bitmap 4×4",
    ],
    ["gap without cells", ["ramp.png", "--as", "4x4", "--name", "a", "--gap", "1"], "--gap and --margin need --cell"],
    [
      "cells that do not fit",
      ["ramp.png", "--as", "5x5", "--name", "a", "--cell", "5x5"],
      "do not fill the sheet of 16×16",
    ],
    ["write nowhere", ["ramp.png", "--as", "16x16", "--name", "a", "--write"], "--write needs --into"],
    [
      "no such bitmap",
      ["ramp.png", "--into", "latin1.h", "--name", "dorp"],
      "dorp is not a bitmap of this file; did you mean drop?",
    ],
    [
      "unknown panel",
      ["ramp.png", "--as", "lampion", "--name", "a"],
      "No panel `lampion` is known here. Panels are those of the file that --into names.",
    ],
    [
      "unknown panel of a file",
      ["ramp.png", "--as", "lampion", "--into", "latin1.h"],
      "No panel `lampion` is known here.\n",
    ],
    ["too many", ["ramp.png", "--as", "2000x2000", "--name", "a"], "at most"],
  ])("%s: nothing on stdout, the reason on stderr, exit 2", async (_name, args, message) => {
    const { code, stdout, stderr } = await cli("import", ...args);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toContain(message);
    expect(stderr).not.toMatch(/\n\s+at /);
  });
});
