/** The commands about memory and light of whole files. */
import { mkdtemp, rm, writeFile } from "node:fs/promises";
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
    "const uint8_t stem[16] = { 1, 3 };",
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
          message: { text: "stem is used here" },
        },
      ],
    });
  });
});
