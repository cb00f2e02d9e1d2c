/** Files found for the command and among open documents: what they include, and odd encodings. */
import { mkdir, mkdtemp, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listArrays, runCli } from "../support/cli.ts";
import type { LspClient } from "../support/lspClient.ts";
import { startClient } from "../support/lspClient.ts";

const FILES: Record<string, string | Uint8Array> = {
  "inside/main.cpp":
    '#include "art/levels.h"\n#include "../outside.h"\n#include "link.h"\n// @bitmap 2x1\nconst uint8_t a[] = { DIM, 1 };\nconst uint8_t b[] = { OUT };\nconst uint8_t c[] = { LINKED };\nconst uint8_t d[] = {\n#include "art/rows.inc"\n};\n',
  "inside/art/levels.h": '#pragma once\n#include "base.h"\n#define DIM (BASE + 2)\n',
  "inside/art/base.h": '#include "levels.h"\n#define BASE 40\n',
  "inside/art/rows.inc": "7, 8,\n9\n",
  "outside.h": "#define OUT 1\n",
  "linked.h": "#define LINKED 1\n",
  "marks/bom.h": "\ufeff/* @bitmap 2x1 */ const uint8_t a[] = { 1, 300 };\n",
  "marks/wide.h": Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from("// @bitmap 2x1\n", "utf16le")]),
  "bytes/latin1.h": Buffer.from('const char a[] = "\u00fc";\n', "latin1"),
};

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "dotwright-includes-"));
  for (const [name, content] of Object.entries(FILES)) {
    await mkdir(join(folder, name, ".."), { recursive: true });
    await writeFile(join(folder, name), content);
  }
  await symlink(join(folder, "linked.h"), join(folder, "inside/link.h"));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe("the command", () => {
  it("follows includes beside the file, but not out of the folders that it was given", async () => {
    const arrays = await listArrays([join(folder, "inside")]);
    const of = (name: string) => arrays.find((array) => array.name === name);
    expect(of("a")).toMatchObject({ values: [42, 1], bitmap: { width: 2 } });
    expect(of("b")?.readOnly).toBe("`OUT` is not defined in this file");
    expect(of("c")?.readOnly).toBe("`LINKED` is not defined in this file");
    expect(of("d")).toMatchObject({ values: [7, 8, 9], readOnly: "its elements stand in `art/rows.inc`" });
    const [whole] = (await listArrays([folder])).filter(({ name }) => name === "b");
    expect(whole?.values).toEqual([1]);
  });

  it("a byte order mark is no column", async () => {
    const { stdout } = await runCli(["check", "--json", join(folder, "marks/bom.h")]);
    const { findings } = JSON.parse(stdout) as { findings: { line: number; column: number }[] };
    // `300` is the 44th character behind the mark.
    expect(findings.map(({ line, column }) => [line, column])).toEqual([[1, 44]]);
  });

  it("a UTF-16 file is named, not called clean", async () => {
    const wide = join(folder, "marks/wide.h");
    const checked = await runCli(["check", "--json", wide]);
    expect(checked.code).toBe(1);
    expect(JSON.parse(checked.stdout)).toMatchObject({
      findings: [{ line: 1, column: 1, code: "unreadable", severity: "warning" }],
    });
    const rendered = await runCli(["render", wide, "a", "--out", join(folder, "a.png")]);
    expect([rendered.code, rendered.stderr]).toEqual([2, expect.stringContaining("UTF-16")]);
    expect((await runCli(["list", "--json", wide])).stderr).toContain("UTF-16");
  });

  it("a string of a file that is not UTF-8 holds its bytes", async () => {
    const [array] = await listArrays([join(folder, "bytes")]);
    expect(array?.values).toEqual([-4, 0]);
  });
});

describe("the server", () => {
  let client: LspClient;
  beforeAll(async () => {
    client = await startClient();
  });
  afterAll(() => client.stop());

  it("follows includes among the open documents, and reads anew when one changes", async () => {
    const [art, levels] = ["file:///garden/art.h", "file:///garden/sub/levels.h"];
    const read = async () => {
      const reply = await client.own("dotwright/bitmaps", { uri: art });
      return "ok" in reply ? reply.ok.bitmaps.map((b) => b.why ?? "read") : reply;
    };
    client.open(art, '#include "sub/levels.h"\n// @bitmap 1x1\nconst uint8_t a[] = { DIM };\n');
    expect(await read()).toEqual(["`DIM` is not defined in this file"]);
    client.open(levels, "#define DIM 4\n");
    expect(await read()).toEqual(["read"]);
    client.change(levels, 2, [{ text: "#define BRIGHT 4\n" }]);
    expect(await read()).toEqual(["`DIM` is not defined in this file"]);
    client.close(levels);
    expect(await read()).toEqual(["`DIM` is not defined in this file"]);
  });
});
