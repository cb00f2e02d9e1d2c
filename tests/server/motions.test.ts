/** Motions through the server and the command: actions worked out when chosen, words offered and explained, files written. */
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { CodeAction, CompletionItem, Hover, TextEdit } from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import { runCli } from "../support/cli.ts";
import type { LspClient } from "../support/lspClient.ts";
import { FULL, startClient } from "../support/lspClient.ts";

const DROP = "// @bitmap 2x1 cap=64\nconst uint8_t drop[2] = { 9, 64 };\n";
/** By hand: over the mask values 0 and 255, a hard dark edge at 256, 128 and 0 shows 0 0, then 0 64, then 9 64. */
const WORDS = "image=drop mask=linear soft=0 level=0 from=256 to=0 step=128";
const array = (words: string, frames: string, list: string) =>
  `${DROP}// @motion ${words}\n// @bitmap 2x1 cap=64${frames}\nconst uint8_t reveal[] = { ${list} };\n`;

let client: LspClient;
let folder = "";
beforeAll(async () => {
  client = await startClient({ capabilities: FULL });
  folder = await mkdtemp(join(tmpdir(), "dotwright-motions-"));
});
afterAll(async () => {
  await client.stop();
  await rm(folder, { recursive: true, force: true });
});

let opened = 0;
function place(marked: string) {
  const uri = `untitled:motions${opened++}`;
  const text = marked.replace("|", "");
  client.open(uri, text);
  const doc = TextDocument.create(uri, "cpp", 1, text);
  return { uri, doc, text, position: doc.positionAt(marked.indexOf("|")) };
}

describe("actions", () => {
  async function actions(marked: string) {
    const { uri, doc, position } = place(marked);
    const context = { diagnostics: [], only: ["refactor.rewrite.dotwright.motion"] };
    const params = { textDocument: { uri }, range: { start: position, end: position }, context };
    const found: CodeAction[] = await client.request({ method: "textDocument/codeAction" }, params);
    return Promise.all(
      found.map(async (action) => {
        expect(action.edit).toBeUndefined();
        const { edit }: CodeAction = await client.request({ method: "codeAction/resolve" }, action);
        const [change] = edit?.documentChanges ?? [];
        const edits = change && "edits" in change ? (change.edits as TextEdit[]) : [];
        return [action.title, TextDocument.applyEdits(doc, edits)] as const;
      }),
    );
  }

  test.each([
    ["the annotation", "@mot|ion"],
    ["the array's head", "rev|eal"],
  ])("at %s: bake, and write the function", async (_what, at) => {
    const text = array(WORDS, " frames=2", "1, 1,  2, 2");
    const found = await actions(text.replace(at.replace("|", ""), at));
    expect(found.map(([title]) => title)).toEqual([
      "Bake 3 frames into reveal",
      "Write the function that computes reveal",
    ]);
    expect(found[0]?.[1]).toBe(array(WORDS, " frames=3", "0, 0,  0, 64,  9, 64"));
    expect(found[1]?.[1]).toContain(`\n\n// @motion ${WORDS}\nvoid reveal_frame(uint16_t frame, uint8_t *pixels) {\n`);
  });

  test("there and back: with a table too", async () => {
    const found = await actions(
      array(`${WORDS} loop=there-and-back`, " frames=2", "1, 1,  2, 2").replace("@mo", "@mo|"),
    );
    expect(found.map(([title]) => title)).toEqual([
      "Bake 4 frames into reveal",
      "Bake 3 frames into reveal, with a table of their order",
      "Write the function that computes reveal",
    ]);
    expect(found[1]?.[1]).toContain("const uint8_t reveal_order[4] = {\n  0, 1, 2, 1,\n};");
  });

  test("none elsewhere, and none for a motion that is not whole", async () => {
    expect(await actions(array(WORDS, "", "1, 1").replace("dr", "dr|"))).toEqual([]);
    expect(await actions(array("image=dorp", "", "1, 1").replace("@mo", "@mo|"))).toEqual([]);
  });
});

describe("words", () => {
  async function complete(marked: string) {
    const { uri, position } = place(marked);
    const found: CompletionItem[] = await client.request(
      { method: "textDocument/completion" },
      { textDocument: { uri }, position },
    );
    return found;
  }

  test.each([
    ["loop=|", ["once", "around", "there-and-back"]],
    ["ease=|", ["linear", "cubic-in", "cubic-out", "cubic-in-out"]],
    ["image=|", ["drop"]],
    ["mask=|", ["radial", "linear", "angular", "diamond", "noise", "drop"]],
  ])("%s offers its values", async (word, wanted) =>
    expect((await complete(`${DROP}// @motion ${word}`)).map((c) => c.label)).toEqual(wanted),
  );

  test("are explained in completion and hover, with what holds without them", async () => {
    const soft = (await complete(`${DROP}// @motion |`)).find((c) => c.label === "soft=");
    expect(soft?.documentation).toMatchObject({ value: expect.stringContaining("Without it: 64.") });
    const { uri, position } = place(`${DROP}// @motion image=drop st|ep=20`);
    const hover: Hover = await client.request({ method: "textDocument/hover" }, { textDocument: { uri }, position });
    expect(hover.contents).toMatchObject({
      value: expect.stringContaining("How far the edge goes from frame to frame."),
    });
  });
});

describe("the command", () => {
  const file = async (text: string | Uint8Array) => {
    const path = join(folder, `art${opened++}.h`);
    await writeFile(path, text);
    return path;
  };

  test("bake prints the array, and changes nothing", async () => {
    const text = array(WORDS, "", "1, 1");
    const path = await file(text);
    const { code, stdout, stderr } = await runCli(["bake", path, "reveal"]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: "dotwright: reveal: 3 frames, 6 pixels\n" });
    expect(stdout).toBe(array(WORDS, " frames=3", "0, 0, 0, 64, 9, 64").slice(DROP.length));
    expect(await readFile(path, "utf8")).toBe(text);
  });

  test("bake --write edits the file, whatever its encoding and line breaks", async () => {
    const before = array(WORDS, " frames=2", "1, 1,  2, 2").replaceAll("\n", "\r\n");
    const after = array(WORDS, " frames=3", "0, 0,  0, 64,  9, 64").replaceAll("\n", "\r\n");
    const latin = await file(Buffer.from(`// gr\u00fcn\r\n${before}`, "latin1"));
    expect((await runCli(["bake", latin, "reveal", "--write"])).code).toBe(0);
    expect(await readFile(latin, "latin1")).toBe(`// gr\u00fcn\r\n${after}`);
    const bom = await file(`\ufeff// gr\u00fcn\r\n${before}`);
    expect((await runCli(["bake", bom, "reveal", "--write"])).code).toBe(0);
    expect(await readFile(bom, "utf8")).toBe(`\ufeff// gr\u00fcn\r\n${after}`);
  });

  test("image and mask may stand in headers that are included, also for a check", async () => {
    await writeFile(join(folder, "drops.h"), `${DROP}// @bitmap 2x1\nconst uint8_t from_left[2] = { 0, 255 };\n`);
    const text = `#include "drops.h"\n${array(WORDS, "", "1, 1").slice(DROP.length)}`.replace("linear", "from_left");
    const path = await file(text);
    expect((await runCli(["bake", path, "reveal", "--write"])).code).toBe(0);
    const after = await readFile(path, "utf8");
    expect(after).toContain("const uint8_t reveal[] = { 0, 0, 0, 64, 9, 64 };");
    expect((await runCli(["firmware", path, "reveal", "--write"])).code).toBe(0);
    expect(await readFile(path, "utf8")).toContain("(int16_t)from_left[i] - position;");
    expect((await runCli(["check", path])).stdout).toBe("");
    await writeFile(
      join(folder, "drops.h"),
      `${DROP.replace("9,", "8,")}// @bitmap 2x1\nconst uint8_t from_left[2] = { 0, 255 };\n`,
    );
    expect((await runCli(["check", path])).stdout).toContain("frame 2 is the first that differs");
  });

  test("the same frames are told", async () => {
    const path = await file(array(WORDS.replace("from=256", "from=384"), "", "1, 1"));
    expect((await runCli(["bake", path, "reveal"])).stderr).toBe(
      "dotwright: reveal: 4 frames, 8 pixels; the same frame again: 1 as 0\n",
    );
  });

  test("firmware prints the function; with --write a check of the file is clean and a second time changes nothing", async () => {
    const path = await file(array(`${WORDS} fps=4`, " frames=3", "0, 0,  0, 64,  9, 64"));
    const { code, stdout, stderr } = await runCli(["firmware", path, "reveal"]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: "dotwright: reveal: reads 4 bytes of data in flash\n" });
    expect(stdout).toMatch(/^static inline void reveal_frame\(uint16_t frame, uint8_t \*pixels\) \{\n[\s\S]*\n\}\n$/);
    expect((await runCli(["firmware", path, "reveal", "--write"])).code).toBe(0);
    const once = await readFile(path, "utf8");
    expect(once).toContain(stdout);
    for (const name of ["reveal", "reveal_frame"]) await runCli(["firmware", path, name, "--write"]);
    expect(await readFile(path, "utf8")).toBe(once);
    expect((await runCli(["check", path])).stdout).toBe("");
    // Another step is out of date, and is written anew.
    await writeFile(path, once.replaceAll("step=128", "step=64"));
    expect((await runCli(["check", path])).stdout).toContain("reveal_frame is not what its @motion says.");
    await runCli(["firmware", path, "reveal", "--write"]);
    await runCli(["bake", path, "reveal", "--write"]);
    expect((await runCli(["check", path])).code).toBe(0);
  });

  test.each([
    ["an unknown name", ["bake", "revael"], "there is no @motion of revael; did you mean reveal?"],
    ["what is wrong with the words", ["bake", "wrong"], "`dorp` is not a bitmap of this file"],
    ["a word that can't be read", ["firmware", "misspelt"], "`check` names them"],
    ["frames that can't be shared", ["bake", "reveal", "--share"], "does not go there and back"],
    ["no name", ["firmware"], "takes a file and the name"],
  ])("%s is said, with nothing on stdout", async (_what, [command = "", ...rest], says) => {
    const path = await file(
      `${array(WORDS, "", "1, 1")}// @motion image=dorp\n// @bitmap 2x1\nconst uint8_t wrong[2] = {1, 2};\n// @motion image=drop ease=fast\n// @bitmap 2x1\nconst uint8_t misspelt[2] = {1, 2};\n`,
    );
    const { code, stdout, stderr } = await runCli([command, path, ...rest]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toContain(says);
  });
});

describe("what a painter asks", () => {
  async function painter(text: string) {
    const { uri, doc } = place(`${text}|`);
    const list = await client.request<object, { ok: { bitmaps: { name: string; identity: object }[] } }>(
      { method: "dotwright/bitmaps" },
      { uri },
    );
    const identity = list.ok.bitmaps.find((b) => b.name === "reveal")?.identity;
    const ask = async (method: string, more: object) => {
      const params = { uri, version: 1, identity, ...more };
      const reply = await client.request<object, { ok?: { edits: TextEdit[] }; err?: string }>({ method }, params);
      return reply.err ?? TextDocument.applyEdits(doc, reply.ok?.edits ?? []);
    };
    return { uri, identity, ask };
  }
  const STALE = array(`${WORDS} loop=around`, " frames=3 fps=5", "0, 0,  0, 64,  9, 63");

  test("the motion of a bitmap, with its image and mask", async () => {
    const { uri, identity } = await painter(STALE);
    const reply = await client.request<object, { ok: { motion: object } }>(
      { method: "dotwright/picture" },
      { uri, identity, motion: true },
    );
    expect(reply.ok.motion).toEqual({
      words: {
        image: "drop",
        mask: "linear",
        soft: "0",
        level: "0",
        from: "256",
        to: "0",
        step: "128",
        loop: "around",
      },
      image: [9, 64],
      mask: [0, 255],
      soft: 0,
      rim: 0,
      level: 0,
      from: 256,
      to: 0,
      step: 128,
      count: 3,
      ease: "linear",
      loop: "around",
      cap: 64,
      bakes: 3,
      stale: true,
    });
  });

  test("other words: changed, added and taken away", async () => {
    const { ask } = await painter(STALE);
    expect(await ask("dotwright/changeMotion", { words: { step: "64", ease: "cubic-in", loop: null } })).toBe(
      array(`${WORDS.replace("128", "64")} ease=cubic-in`, " frames=3 fps=5", "0, 0,  0, 64,  9, 63"),
    );
  });

  test.each([
    [{ soft: "wide" }, "`wide` is not a value of `soft`"],
    [{ tint: "#ffffff" }, "`tint` is not an option of @motion"],
    [{ rim: "9" }, "The rim of 9 is wider than the edge"],
    [{ image: null }, "needs `image=`"],
  ])("refused: %j", async (words, why) => {
    const { ask } = await painter(STALE);
    expect(await ask("dotwright/changeMotion", { words })).toContain(why);
  });

  test("its frames baked", async () => {
    const { ask } = await painter(STALE);
    expect(await ask("dotwright/bake", {})).toBe(STALE.replace("63 }", "64 }"));
    const bare = await painter(`${DROP}// @bitmap 2x1\nconst uint8_t reveal[] = { 1, 2 };\n`);
    expect(await bare.ask("dotwright/bake", {})).toBe("reveal has no @motion");
  });
});

describe("hovers", () => {
  async function hoverAt(marked: string): Promise<string> {
    const { uri, position } = place(marked);
    const hover: Hover = await client.request({ method: "textDocument/hover" }, { textDocument: { uri }, position });
    return (hover.contents as { value: string }).value;
  }

  test("on the marker play the motion and tell its ends and sizes", async () => {
    const said = await hoverAt(array(`${WORDS} fps=4`, " frames=3", "0, 0,  0, 64,  9, 64").replace("@mo", "@mo|"));
    expect(said).toContain("- 3 frames, once (0.75 s): the edge goes from 256 to 0");
    expect(said).toContain("- With this mask all is dark from 256 on, and all is shown up to 0");
    expect(said).toContain("- 6 bytes of flash baked, 4 and a function in firmware");
    // An APNG of three frames (PNG Third Edition, 11.3.6.1: the animation control chunk holds their number).
    const bytes = Buffer.from(/base64,([^)]+)/.exec(said)?.[1] ?? "", "base64");
    const control = bytes.indexOf("acTL");
    expect([control > 0, bytes.readUInt32BE(control + 4)]).toEqual([true, 3]);
  });

  test("on an array that shares its frames play the whole run", async () => {
    const text = array(`${WORDS} loop=there-and-back`, " frames=3", "0, 0,  0, 64,  9, 64");
    const said = await hoverAt(text.replace("reveal[", "rev|eal["));
    const bytes = Buffer.from(/base64,([^)]+)/.exec(said)?.[1] ?? "", "base64");
    expect(bytes.readUInt32BE(bytes.indexOf("acTL") + 4)).toBe(4);
  });

  test("of a motion that is not whole say what is wrong", async () => {
    expect(await hoverAt(array("image=dorp", "", "1, 1").replace("@mo", "@mo|"))).toContain("Did you mean `drop`?");
  });

  test("on the array and on the function tell of it", async () => {
    const text = array(WORDS, " frames=3", "0, 0,  0, 64,  9, 64");
    expect(await hoverAt(text.replace("reveal[", "rev|eal["))).toContain(
      "Frames of an `@motion`: 6 bytes of flash baked",
    );
    const computed = `${DROP}// @motion ${WORDS}\nvoid fa|de(uint16_t frame, uint8_t *pixels) {\n}\n`;
    expect(await hoverAt(computed)).toContain("3 frames, once");
  });
});
