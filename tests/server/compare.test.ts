import { spawn } from "node:child_process";
import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runCli } from "../support/cli.ts";

const DROP = "// @bitmap 2x1\nconst uint8_t drop[] = { 1, 2 };\n";
const files: Record<string, string> = {
  "old/art.h": DROP,
  "old/gone.h": "// @bitmap 1x1\nconst uint8_t leaf[] = { 3 };\n",
  "old/deep/same.h": DROP,
  "new/art.h": `\n${DROP.replace("2 }", "34 }")}`,
  "new/deep/same.h": DROP.replace("1, 2", "0x1, 0x2"),
  "new/notes.h": "int x;\n",
};
let folder = "";
const cli = (...args: string[]) => runCli(["compare", ...args], { cwd: folder });

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "dotwright-compare-"));
  for (const [name, content] of Object.entries(files)) {
    await mkdir(dirname(join(folder, name)), { recursive: true });
    await writeFile(join(folder, name), content);
  }
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe("compare", () => {
  it("says what differs in two files, and ends with 1", async () => {
    const stdout = "new/art.h:3: drop: 1 of 2 pixels changed, up to +32\n";
    expect(await cli("old/art.h", "new/art.h")).toEqual({ code: 1, stdout, stderr: "" });
  });

  it("ends with 0 where nothing looks otherwise", async () => {
    expect(await cli("old/deep/same.h", "new/deep/same.h")).toEqual({ code: 0, stdout: "", stderr: "" });
  });

  it("pairs the files of two folders", async () => {
    const { code, stdout, stderr } = await cli("--json", "old", "new");
    expect({ code, stderr }).toEqual({ code: 1, stderr: "" });
    const side = { name: "drop", width: 2, height: 1, frames: 1, format: "gray8" };
    expect(JSON.parse(stdout)).toEqual({
      differences: [
        {
          file: "new/art.h",
          name: "drop",
          change: "changed",
          before: { ...side, line: 2 },
          after: { ...side, line: 3 },
          frames: [{ frame: 0, changed: 1, rise: 32, fall: 0 }],
        },
        {
          file: "old/gone.h",
          name: "leaf",
          change: "removed",
          before: { ...side, name: "leaf", width: 1, line: 2 },
        },
      ],
    });
  });

  it("takes the older one from standard input, such as what a version control prints", async () => {
    const command = new URL("../../dist/cli.js", import.meta.url).pathname;
    const child = spawn(process.execPath, [command, "compare", "-", "new/art.h"], { cwd: folder });
    let stdout = "";
    child.stdout.on("data", (part) => {
      stdout += part;
    });
    child.stdin.end(DROP);
    const code = await new Promise((resolve) => child.on("close", resolve));
    expect({ code, stdout }).toEqual({ code: 1, stdout: "new/art.h:3: drop: 1 of 2 pixels changed, up to +32\n" });
  });

  it.each<[string[], RegExp]>([
    [["old"], /compare takes two files or two folders/],
    [["old", "new/art.h"], /old is a folder and new\/art\.h is a file/],
    [["old/art.h", "new"], /new is a folder and old\/art\.h is none/],
    [["old/art.h", "none.h"], /none\.h: there is no such file or folder/],
  ])("refuses %j", async (args, message) => {
    const { code, stdout, stderr } = await cli(...args);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toMatch(message);
  });
});
