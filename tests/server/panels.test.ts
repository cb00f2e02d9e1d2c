/** The command knows panels of all the files that it is given, and of those beside a file. */
import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listArrays, runCli } from "../support/cli.ts";

const ART = "// @bitmap lantern\nconst unsigned char drop[] = { 1, 2 };\n";
const FILES: Record<string, string> = {
  "beds/src/art.h": ART,
  "beds/src/board.h": "// @panel lantern 2x1 gray8 cap=9\n",
  "beds/src/below/art.h": ART,
  "beds/doc/board.h": "\n// @panel lantern 1x2 gray8\n",
  "beds/.git/board.h": "// @panel lantern 7x7\n",
  "beds/node_modules/x/board.h": "// @panel lantern 8x8\n",
  "shed/art.h": '#include "boards/board.h"\n// @bitmap lantern\nconst unsigned char drop[] = { 1, 2 };\n',
  "shed/boards/board.h": "// @panel lantern 2x1 gray8\n",
  "alone/art.h": ART,
};

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "dotwright-panels-"));
  for (const [name, text] of Object.entries(FILES)) {
    await mkdir(dirname(join(folder, name)), { recursive: true });
    await writeFile(join(folder, name), text);
  }
});
afterAll(() => rm(folder, { recursive: true, force: true }));

interface Shown {
  readonly file: string;
  readonly line: number;
  readonly code: string;
  readonly severity: string;
  readonly message: string;
}

async function check(...paths: string[]): Promise<[number, readonly Shown[]]> {
  const { code, stdout } = await runCli(["check", "--json", ...paths], { cwd: folder });
  return [code, (JSON.parse(stdout) as { findings: Shown[] }).findings];
}

describe("a panel of another file", () => {
  it("beside a single file is known, and of a folder below where it is included", async () => {
    expect(await check("beds/src/art.h")).toEqual([0, []]);
    expect(await check("shed/art.h")).toEqual([0, []]);
    const [code, findings] = await check("alone/art.h");
    expect([code, findings]).toMatchObject([1, [{ code: "unknown-panel", line: 1 }]]);
  });

  it("anywhere in the folders given is known; of two the nearer holds, and each is told of the other", async () => {
    const [code, findings] = await check("beds");
    expect(code).toBe(0);
    expect(findings.map(({ file, line, severity }) => [file, line, severity])).toEqual([
      [join("beds", "doc", "board.h"), 2, "information"],
      [join("beds", "src", "board.h"), 1, "information"],
    ]);
    expect(findings[0]?.message).toContain(`defined otherwise in ${join("beds", "src", "board.h")}:1.`);
    const arrays = await listArrays([join(folder, "beds")]);
    expect(arrays.map(({ bitmap }) => bitmap)).toMatchObject([
      { width: 2, height: 1, cap: 9, panel: "lantern" },
      { width: 2, height: 1, cap: 9, panel: "lantern" },
    ]);
  });

  it("is known to render and sheet", async () => {
    const out = join(folder, "drop.png");
    expect(await runCli(["render", "beds/src/art.h", "drop", "--out", out], { cwd: folder })).toMatchObject({
      code: 0,
    });
    const sheet = await runCli(["sheet", "beds", "--out", out], { cwd: folder });
    expect([sheet.code, sheet.stdout]).toEqual([0, expect.stringContaining("2 bitmaps")]);
  });

  it("is a related location of a SARIF result", async () => {
    const { stdout } = await runCli(["check", "--sarif", "beds"], { cwd: folder });
    const [result] = JSON.parse(stdout).runs[0].results;
    expect(result.relatedLocations).toEqual([
      {
        physicalLocation: {
          artifactLocation: { uri: "beds/src/board.h" },
          region: { startLine: 1, startColumn: 11, endLine: 1, endColumn: 18 },
        },
        message: { text: "@panel lantern 2x1 gray8 cap=9" },
      },
    ]);
  });
});
