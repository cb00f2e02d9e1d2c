import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { LspParams, LspResult, LspTextEdit } from "../../shared/protocol/lsp.ts";
import type { LspClient } from "../support/lspClient.ts";
import { positionOf, startClient } from "../support/lspClient.ts";

const ART = readFileSync(new URL("../../sample-workspace/lantern_art.h", import.meta.url), "utf8");

let client: LspClient;
beforeAll(async () => {
  client = await startClient();
});
afterAll(() => client.stop());

type Bitmaps = LspResult<"dotwright/bitmaps">["bitmaps"];
type Frames = LspResult<"dotwright/picture">["frames"];

let opened = 0;
async function document(text: string): Promise<{ uri: string; bitmaps: Bitmaps }> {
  const uri = `file:///garden/paint${opened++}.h`;
  client.open(uri, text);
  const reply = await client.own("dotwright/bitmaps", { uri });
  if ("err" in reply) throw new Error(reply.err);
  return { uri, bitmaps: reply.ok.bitmaps };
}

const identityIn = (bitmaps: Bitmaps, name: string) => {
  const found = bitmaps.find((b) => b.name === name);
  if (!found) throw new Error(`no bitmap ${name}`);
  return found.identity;
};

async function pictureOf(params: LspParams<"dotwright/picture">): Promise<Frames> {
  const reply = await client.own("dotwright/picture", params);
  if ("err" in reply) throw new Error(reply.err);
  return reply.ok.frames;
}

const applied = (text: string, edits: readonly LspTextEdit[]) =>
  TextDocument.applyEdits(TextDocument.create("", "cpp", 1, text), [...edits]);

describe("dotwright/bitmaps", () => {
  test("lists what a painter must know", async () => {
    const { bitmaps } = await document(ART);
    expect(bitmaps.map((b) => b.name).slice(0, 3)).toEqual(["drop_icon", "sun_icon", "thermometer_icon"]);
    const drip = bitmaps.find((b) => b.name.startsWith("drip"));
    expect(drip).toMatchObject({
      width: 9,
      height: 9,
      frames: 16,
      format: "gray8",
      most: 255,
      cap: 64,
      drive: 1,
      fps: 12,
      panel: "lantern",
      tint: "#ffb84d",
      lattice: "diamond",
      bytes: 1296,
      nameRange: { start: positionOf(ART, "drip["), end: positionOf(ART, "drip[", 4) },
    });
    expect(drip?.why).toBeUndefined();
  });

  test("says why a bitmap can't be shown", async () => {
    const { bitmaps } = await document("// @bitmap 1x1\nconst uint8_t a[1] = {NEVER};\n");
    expect(bitmaps[0]?.why).toContain("NEVER");
  });
});

describe("dotwright/picture", () => {
  test("gives the raw values of the frames asked for, and where each is written", async () => {
    const text = "// @bitmap 2x2 frames=2\nconst uint8_t a[8] = {1, 0x02,\n 3, 4,\n 5, 6};\n";
    const { uri, bitmaps } = await document(text);
    const identity = identityIn(bitmaps, "a");
    expect(await pictureOf({ uri, identity })).toEqual([{ frame: 0, pixels: [1, 2, 3, 4] }]);
    const [second] = await pictureOf({ uri, identity, frames: [1], elements: true });
    expect(second).toEqual({
      frame: 1,
      pixels: [5, 6, 0, 0],
      elements: [3, 1, 3, 2, 3, 4, 3, 5, -1, -1, -1, -1, -1, -1, -1, -1],
    });
  });

  test("answers an error for what is not there", async () => {
    const { uri, bitmaps } = await document("// @bitmap 1x1\nconst uint8_t a[1] = {1};\n");
    const identity = identityIn(bitmaps, "a");
    expect(await client.own("dotwright/picture", { uri, identity, frames: [1] })).toEqual({ err: "a has no frame 1" });
    const gone = { ...identity, name: "b" };
    expect(await client.own("dotwright/picture", { uri, identity: gone })).toEqual({ err: "b is no longer there" });
  });
});

describe("dotwright/paint", () => {
  test("changes only the number of the pixel, in its own spelling", async () => {
    const { uri, bitmaps } = await document(ART);
    const identity = identityIn(bitmaps, "sun_icon");
    const changes = [{ frame: 0, x: 4, y: 0, value: 7, before: 0x1a }];
    const reply = await client.own("dotwright/paint", { uri, version: 1, identity, changes });
    const place = positionOf(ART.slice(ART.indexOf("sun_icon")), "0x1A");
    const line = positionOf(ART, "sun_icon").line + place.line;
    expect(reply).toEqual({
      ok: {
        version: 1,
        edits: [
          {
            range: { start: { line, character: place.character }, end: { line, character: place.character + 4 } },
            newText: "0x07",
          },
        ],
      },
    });
  });

  test("finds the bitmap again when the text has moved on", async () => {
    const { uri, bitmaps } = await document(ART);
    const identity = identityIn(bitmaps, "leaf_icon");
    const start = { line: 0, character: 0 };
    const head = "// one more line\n// \u{1f33f} and another\n";
    client.change(uri, 2, [{ range: { start, end: start }, text: head }]);
    const reply = await client.own("dotwright/paint", {
      uri,
      version: 1,
      identity,
      changes: [{ frame: 0, x: 0, y: 0, value: 64 }],
    });
    if ("err" in reply) throw new Error(reply.err);
    expect(reply.ok.version).toBe(2);
    const at = ART.indexOf("0x00", ART.indexOf("leaf_icon"));
    expect(applied(head + ART, reply.ok.edits)).toBe(`${head}${ART.slice(0, at)}0x40${ART.slice(at + 4)}`);
  });

  test("refuses with a reason and changes nothing", async () => {
    const { uri, bitmaps } = await document(ART);
    const identity = identityIn(bitmaps, "drop_icon");
    const ask = (more: Partial<LspParams<"dotwright/paint">>) =>
      client.own("dotwright/paint", { uri, version: 1, identity, changes: [], ...more });
    expect(await ask({ changes: [{ frame: 0, x: 9, y: 0, value: 1 }] })).toMatchObject({
      err: expect.stringContaining("no pixel 9,0"),
    });
    expect(await ask({ changes: [{ frame: 0, x: 0, y: 0, value: 256 }] })).toMatchObject({
      err: expect.stringContaining("256"),
    });
    expect(await ask({ changes: [{ frame: 0, x: 0, y: 0, value: 1, before: 5 }] })).toMatchObject({
      err: expect.stringContaining("changed meanwhile"),
    });
    expect(await ask({ version: 9 })).toEqual({ err: "version 9 has not arrived yet; the newest is 1" });
    const turned = { ...identity, structure: identity.structure.replace("9 9", "3 27") };
    expect(await ask({ identity: turned })).toMatchObject({ err: expect.stringContaining("changed its shape") });
    const open = { ...identity, name: "nothing" };
    expect(await ask({ identity: open })).toMatchObject({ err: "nothing is no longer there" });
  });

  test("a stroke that waits fits after one that has written zeros out", async () => {
    const { uri, bitmaps } = await document("// @bitmap 2x2\nuint8_t few[4] = {1};\n");
    const identity = identityIn(bitmaps, "few");
    const ask = (version: number, x: number) =>
      client.own("dotwright/paint", { uri, version, identity, changes: [{ frame: 0, x, y: 1, value: 7, before: 0 }] });
    const first = await ask(1, 1);
    if ("err" in first) throw new Error(first.err);
    client.change(
      uri,
      2,
      [...first.ok.edits].reverse().map((e) => ({ range: e.range, text: e.newText })),
    );
    expect(await ask(2, 0)).toMatchObject({ ok: { version: 2, edits: [{ newText: "7" }] } });
  });

  test("a painted stroke reads back as it was painted", async () => {
    const { uri, bitmaps } = await document(ART);
    const identity = identityIn(bitmaps, "moon_icon");
    const changes = Array.from({ length: 81 }, (_, i) => ({
      frame: 0,
      x: i % 9,
      y: Math.floor(i / 9),
      value: (i * 7) % 65,
    }));
    const reply = await client.own("dotwright/paint", { uri, version: 1, identity, changes });
    if ("err" in reply) throw new Error(reply.err);
    client.change(
      uri,
      2,
      [...reply.ok.edits].reverse().map((e) => ({ range: e.range, text: e.newText })),
    );
    const [frame] = await pictureOf({ uri, identity });
    expect(frame?.pixels).toEqual(changes.map((c) => c.value));
  });
});

describe("dotwright/wire", () => {
  const TEXT =
    "// @panel sill 3x2 wire=top-right\n// @bitmap sill\nconst uint8_t a[6] = {1, 2, 3, 4, 5, 6};\n// @bitmap sill 2x2\nconst uint8_t b[4] = {1, 2, 3, 4};\n";

  test("a picture tells how its panel is wired, where it is all of the panel", async () => {
    const { uri, bitmaps } = await document(TEXT);
    const wiringOf = async (name: string) => {
      const reply = await client.own("dotwright/picture", { uri, identity: identityIn(bitmaps, name), wiring: true });
      return "ok" in reply ? reply.ok.wiring : reply.err;
    };
    const index = [2, 1, 0, 5, 4, 3];
    expect(await wiringOf("a")).toEqual({ panel: "sill", width: 3, height: 2, index, wire: "top-right" });
    expect(await wiringOf("b")).toBeUndefined();
  });

  test("writes what was found as words, or as a table", async () => {
    const { uri, bitmaps } = await document(TEXT);
    const identity = identityIn(bitmaps, "a");
    const wire = async (index: number[], words?: string) => {
      const given = words === undefined ? {} : { wire: words };
      const reply = await client.own("dotwright/wire", { uri, version: 1, identity, index, ...given });
      return "ok" in reply ? applied(TEXT, reply.ok.edits) : reply.err;
    };
    expect(await wire([0, 1, 2, 5, 4, 3], "serpentine")).toBe(TEXT.replace("top-right", "serpentine"));
    const tabled = await wire([5, 0, 4, 1, 3, 2]);
    expect(tabled).toContain("// @panel sill 3x2\n");
    expect(tabled).toContain("// @wiring sill\nconst uint8_t sill_wiring[6] = {\n  5, 0, 4,\n  1, 3, 2\n};\n");
    expect(await wire([0, 1])).toBe("sill has 6 pixels now");
  });
});
