import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { PNG } from "pngjs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { CodeLens, Hover } from "vscode-languageserver/node";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { runCli } from "../support/cli.ts";
import type { LspClient } from "../support/lspClient.ts";
import { positionOf, startClient } from "../support/lspClient.ts";

const RAMP = `// @panel bed 4x3 gray8 cap=64
uint8_t lamps[12];
// @motion bed code fps=25 buffer=lamps
void ramp(uint8_t t) {
  for (uint8_t i = 0; i < 12; i++) lamps[i] = (i + t) % 64;
}
`;

let client: LspClient;
beforeAll(async () => {
  client = await startClient({ initializationOptions: { commands: ["dotwright.paint"] } });
});
afterAll(() => client.stop());

let opened = 0;
function document(text: string): string {
  const uri = `file:///garden/live${opened++}.cpp`;
  client.open(uri, text);
  return uri;
}

async function hover(uri: string, text: string, piece: string): Promise<Hover> {
  const position = positionOf(text, piece, 1);
  const found: Hover | null = await client.request(
    { method: "textDocument/hover" },
    { textDocument: { uri }, position },
  );
  if (!found) throw new Error(`there is no hover on ${piece}`);
  return found;
}

async function live(uri: string): Promise<readonly BitmapInfo[]> {
  const reply = await client.own("dotwright/bitmaps", { uri });
  if ("err" in reply) throw new Error(reply.err);
  return reply.ok.live ?? [];
}

describe("the hover of live code", () => {
  test.each(["ramp(", "@motion", "buffer=lamps"])("plays it on %s", async (piece) => {
    const found = await hover(document(RAMP), RAMP, piece);
    const { value } = found.contents as { value: string };
    expect(value).toMatch(
      /^\*\*`ramp`\*\* · 4×3 gray8 · code, 25 frames a second · \[Play\]\(command:dotwright\.paint\?/,
    );
    const bytes = Buffer.from(/base64,([A-Za-z0-9+/=]+)\)/.exec(value)?.[1] ?? "", "base64");
    const png = PNG.sync.read(bytes);
    expect([png.width % 4, png.width / 4]).toEqual([0, png.height / 3]);
    // PNG Third Edition, 11.3.6.1: acTL holds the number of frames.
    const at = bytes.indexOf("acTL");
    expect(bytes.readUInt32BE(at + 4)).toBe(100);
    expect(value).toContain("The first 100 frames are played again and again");
    expect(value.length).toBeLessThan(100_000);
  });

  test("of a large panel is small enough, and comes soon", async () => {
    const text = `// @panel wide 128x64 gray8
// @motion wide code
uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return (x * y + t * 7) ^ (x * 13); }
`;
    const { value } = (await hover(document(text), text, "f(uint8_t x")).contents as { value: string };
    expect(value.length).toBeLessThan(100_000);
    expect(value).toMatch(/!\[f\]\(data:image\/png;base64,/);
  });

  test("says where it stops, and shows what comes before", async () => {
    const text = RAMP.replace("lamps[i]", "lamps[i + t / 5]");
    const { value } = (await hover(document(text), text, "ramp(")).contents as { value: string };
    expect(value).toContain("The first 5 frames are played");
    expect(value).toContain("Frame 5 can't be played: Here the index is 12;");
  });

  test("says why it does not play", async () => {
    const text = RAMP.replace("(i + t)", "soil");
    const { value } = (await hover(document(text), text, "ramp(")).contents as { value: string };
    expect(value).toContain("Not played: `soil` is not known in this file");
    expect(value).not.toContain("data:image");
  });
});

test("a lens above the function plays it", async () => {
  const uri = document(RAMP);
  const lenses: CodeLens[] = await client.request({ method: "textDocument/codeLens" }, { textDocument: { uri } });
  const [bitmap] = await live(uri);
  expect(
    lenses.map(({ command, range }) => [command?.title, command?.command, command?.arguments, range.start.line]),
  ).toEqual([["Play · 4×3 gray8 · 25 frames a second", "dotwright.paint", [uri, bitmap?.identity, "play"], 3]]);
});

describe("a painter", () => {
  test("is told of functions that are played", async () => {
    const [bitmap, ...others] = await live(document(RAMP));
    expect(others).toEqual([]);
    expect(bitmap).toMatchObject({
      name: "ramp",
      width: 4,
      height: 3,
      format: "gray8",
      cap: 64,
      fps: 25,
      bytes: 0,
      panel: "bed",
    });
    expect(bitmap?.declaration).toEqual({ start: { line: 3, character: 0 }, end: { line: 5, character: 1 } });
  });

  test("asks for frames in slices", async () => {
    const uri = document(RAMP);
    const identity = (await live(uri))[0]?.identity as BitmapInfo["identity"];
    const first = await client.own("dotwright/liveFrames", { uri, identity, from: 0, count: 3 });
    const expected = (t: number) => Array.from({ length: 12 }, (_, i) => (i + t) % 64);
    expect(first).toEqual({ ok: { version: 1, frames: [expected(0), expected(1), expected(2)] } });
    const later = await client.own("dotwright/liveFrames", { uri, identity, from: 70, count: 1 });
    expect(later).toEqual({ ok: { version: 1, frames: [expected(70)] } });
    client.change(uri, 2, [{ text: RAMP.replace("(i + t)", "(i + 2 * t)") }]);
    const changed = await client.own("dotwright/liveFrames", { uri, identity, from: 1, count: 1 });
    expect(changed).toEqual({ ok: { version: 2, frames: [expected(2)] } });
  });

  test("gets fewer frames where they take long", async () => {
    const text = `// @panel wide 128x64 gray8
// @motion wide code
uint8_t f(int x, int y, int t) { int v = t; for (int i = 0; i < 60; i++) v = v * 31 + (x ^ y); return v & 255; }
`;
    const uri = document(text);
    const identity = (await live(uri))[0]?.identity as BitmapInfo["identity"];
    const reply = await client.own("dotwright/liveFrames", { uri, identity, from: 0, count: 100 });
    if ("err" in reply) throw new Error(reply.err);
    expect(reply.ok.frames.length).toBeGreaterThan(0);
    expect(reply.ok.frames.length).toBeLessThan(20);
    expect(reply.ok.stopped).toBeUndefined();
  });

  test("is refused in words", async () => {
    const uri = document(RAMP);
    const identity = (await live(uri))[0]?.identity as BitmapInfo["identity"];
    const ask = (more: object) => client.own("dotwright/liveFrames", { uri, identity, from: 0, count: 1, ...more });
    expect(await ask({ from: -1 })).toEqual({ err: "there are no 1 frames from -1" });
    expect(await ask({ identity: { ...identity, name: "rain" } })).toEqual({ err: "rain is no longer there" });
  });

  test("an endless loop is told, and the server goes on", async () => {
    const uri = document(RAMP.replace("i++", "i %= 11"));
    const [found] = await client.pull(uri);
    expect(found).toMatchObject({ code: "motion", severity: 1, message: expect.stringMatching(/^This loop/) });
    const identity = (await live(uri))[0]?.identity as BitmapInfo["identity"];
    const reply = await client.own("dotwright/liveFrames", { uri, identity, from: 0, count: 5 });
    expect(reply).toMatchObject({ ok: { frames: [], stopped: expect.stringMatching(/^This loop does not end/) } });
  });
});

describe("the command", () => {
  let folder: string;
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), "live-"));
    await writeFile(join(folder, "ramp.cpp"), RAMP);
    await writeFile(join(folder, "wrong.cpp"), RAMP.replace("% 64", "/ (t - 3)"));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  test("renders a frame of a function", async () => {
    const out = join(folder, "ramp.png");
    const ran = await runCli(["render", join(folder, "ramp.cpp"), "ramp", "--frame", "7", "--out", out]);
    expect(ran).toEqual({ code: 0, stdout: "", stderr: "" });
    const { width, height, data } = PNG.sync.read(await readFile(out));
    expect([width, height]).toEqual([4, 3]);
    expect(Array.from({ length: 12 }, (_, i) => data[i * 4])).toEqual([7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18]);
  });

  test("says where a frame can't be rendered, and checks", async () => {
    const wrong = join(folder, "wrong.cpp");
    const ran = await runCli(["render", wrong, "ramp", "--frame", "9", "--out", join(folder, "x.png")]);
    expect(ran).toMatchObject({
      code: 2,
      stderr: "dotwright: ramp has no frame 9: Here a number is divided by zero.\n",
    });
    const checked = await runCli(["check", "--json", wrong]);
    expect(checked.code).toBe(1);
    expect(JSON.parse(checked.stdout)).toMatchObject({
      findings: [
        // The folder's other file has the panel too.
        { line: 1, code: "annotation", severity: "information" },
        { line: 4, severity: "warning" },
        {
          line: 5,
          column: 47,
          code: "motion",
          severity: "error",
          message: "Here a number is divided by zero. (First in frame 3.)",
        },
      ],
    });
  });
});
