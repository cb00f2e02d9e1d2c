/** `dotwright/openPictures` and `dotwright/importPicture` of the built server. */
import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { TextDocument } from "vscode-languageserver-textdocument";
import { encodePng } from "../../server/png.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import type { LspParams, LspResult, LspTextEdit } from "../../shared/protocol/lsp.ts";
import type { LspClient } from "../support/lspClient.ts";
import { startClient } from "../support/lspClient.ts";

const ART = readFileSync(new URL("../../sample-workspace/lantern_art.h", import.meta.url), "utf8");
const URI = "file:///garden/pictures.h";

let client: LspClient;
beforeAll(async () => {
  client = await startClient();
  client.open(URI, ART);
});
afterAll(() => client.stop());

const base64 = (bytes: Uint8Array) => Buffer.from(bytes).toString("base64");
const grey = (width: number, height: number, value: (i: number) => number) =>
  base64(
    encodePng({ width, height, channels: 1, data: Uint8Array.from({ length: width * height }, (_, i) => value(i)) }),
  );

async function open(...files: { name: string; data: string }[]): Promise<LspResult<"dotwright/openPictures">> {
  const reply = await client.own("dotwright/openPictures", { files });
  if ("err" in reply) throw new Error(reply.err);
  return reply.ok;
}

type Asked = Partial<LspParams<"dotwright/importPicture">> & { readonly id: string };
const ask = ({ id, ...more }: Asked) =>
  client.own("dotwright/importPicture", {
    uri: URI,
    id,
    place: { kind: "new", position: { line: 1e6, character: 0 }, words: "lantern" },
    choices: {},
    ...more,
  });
async function preview(asked: Asked): Promise<LspResult<"dotwright/importPicture">> {
  const reply = await ask(asked);
  if ("err" in reply) throw new Error(reply.err);
  return reply.ok;
}

const applied = (edits: readonly LspTextEdit[]) =>
  TextDocument.applyEdits(TextDocument.create("", "cpp", 1, ART), [...edits]);
const identityOf = async (name: string) => {
  const reply = await client.own("dotwright/bitmaps", { uri: URI });
  const found = "ok" in reply && reply.ok.bitmaps.find((b) => b.name === name);
  if (!found) throw new Error(`no bitmap ${name}`);
  return found.identity;
};

describe("opening", () => {
  test("tells what was read", async () => {
    expect(await open({ name: "seed.png", data: grey(4, 3, (i) => i) })).toMatchObject({
      kind: "pictures",
      width: 4,
      height: 3,
      count: 1,
      transparent: false,
    });
    const font = readFileSync("/usr/share/consolefonts/Lat15-VGA8.psf.gz");
    expect(await open({ name: "f.psf.gz", data: base64(font) })).toMatchObject({
      kind: "font",
      width: 8,
      height: 8,
      count: 256,
    });
  });

  test("refuses what is no picture, by the name of the file, and goes on", async () => {
    const files = [{ name: "notes.txt", data: base64(Buffer.from("seeds")) }];
    const reply = await client.own("dotwright/openPictures", { files });
    expect("err" in reply && reply.err).toMatch(/^notes\.txt: it is neither a picture nor a font/);
    expect(await client.own("dotwright/openPictures", { files: [] })).toEqual({ err: "There is no picture." });
    expect(await ask({ id: "none" })).toEqual({ err: "The pictures are no longer open." });
  });

  test("a large picture is read while typing goes on", async () => {
    const large = grey(3000, 3000, (i) => i % 251);
    const order: string[] = [];
    const opening = open({ name: "large.png", data: large }).then(() => order.push("opened"));
    const hover = client.own("dotwright/bitmaps", { uri: URI }).then(() => order.push("answered"));
    await Promise.all([opening, hover]);
    expect(order).toEqual(["answered", "opened"]);
  });
});

describe("a preview", () => {
  test("of a new bitmap is what its edits make", async () => {
    const { id } = await open({ name: "seed pod.png", data: grey(9, 9, (i) => 3 * i) });
    const shown = await preview({ id });
    expect(shown).toMatchObject({
      annotation: "// @bitmap lantern",
      bitmap: { name: "seed_pod", width: 9, height: 9, cap: 64, panel: "lantern", lattice: "diamond" },
      channel: "luminance",
      overCap: "scale",
      notes: ["scaled, so that white is the cap of 64"],
      source: { width: 144, height: 144 },
    });
    const text = applied(shown.edits);
    const bitmap = openText(text, "pictures.h").bitmaps.find((b) => b.array.name === "seed_pod");
    expect(bitmap && Array.from(pixelsOf(bitmap, 0) ?? [])).toEqual(shown.frames[0]);
    const { start } = shown.bitmap.nameRange;
    expect(text.split("\n")[start.line]?.slice(start.character)).toMatch(/^seed_pod\[81\]/);
  });

  test("shows the source as it lies under the bitmap", async () => {
    const { id } = await open({ name: "a.png", data: grey(2, 1, (i) => 255 * i) });
    const { source, frames } = await preview({
      id,
      place: { kind: "new", position: { line: 0, character: 0 }, words: "2x2" },
    });
    const data = Buffer.from(source.data, "base64");
    const at = (x: number, y: number) => [...data.subarray(4 * (y * source.width + x), 4 * (y * source.width + x) + 4)];
    expect([source.width, source.height]).toEqual([32, 32]);
    expect([at(0, 0), at(31, 0), at(31, 15), at(31, 16)]).toEqual([
      [0, 0, 0, 255],
      [255, 255, 255, 255],
      [255, 255, 255, 255],
      [0, 0, 0, 0],
    ]);
    expect(frames[0]).toEqual([0, 255, 0, 0]);
  });

  test("in place of a frame, or as a further one, keeps all else", async () => {
    const { id } = await open({ name: "a.png", data: grey(9, 9, () => 255) });
    const identity = await identityOf("drip");
    const into = await preview({ id, place: { kind: "into", identity, frame: 3 } });
    expect(into).toMatchObject({ frame: 3, bitmap: { frames: 16 } });
    const changed = applied(into.edits).split("\n");
    expect(changed.length).toBe(ART.split("\n").length);
    const further = await preview({ id, place: { kind: "further", identity } });
    expect(further).toMatchObject({ frame: 16, bitmap: { frames: 17 } });
    expect(further.annotation).toContain("frames=17 fps=12 -- a drop falls");
    expect(further.frames).toEqual([new Array(81).fill(64)]);
  });

  test("says how far the channels vary, and what else there is", async () => {
    const { id } = await open({ name: "a.png", data: grey(9, 9, () => 51) });
    const { ranges, notes } = await preview({ id });
    expect(ranges.find(({ channel }) => channel === "luminance")).toEqual({
      channel: "luminance",
      low: 0.2,
      high: 0.2,
    });
    expect(notes[0]).toContain("is the same everywhere (20 %)");
  });

  test.each<[string, Partial<Asked>, string]>([
    ["words", { place: { kind: "new", position: { line: 0, character: 0 }, words: "9x9 grey8" } }, "grey8"],
    [
      "name",
      { place: { kind: "new", position: { line: 0, character: 0 }, words: "9x9", name: "drop_icon" } },
      "`drop_icon` is already taken in this file.",
    ],
    ["fit", { choices: { fit: "exact" } }, "the picture is 2×2, and the bitmap 9×9: choose how it fits"],
    ["characters", { choices: { chars: "ab" } }, "2 characters are named for 1 picture"],
    [
      "cells",
      { choices: { cells: { width: 5, height: 5, gap: 0, margin: 0 } } },
      "cells of 5×5 with 0 pixels between do not fill the sheet of 2×2",
    ],
  ])("refuses wrong %s in words", async (_name, more, message) => {
    const { id } = await open({ name: "a.png", data: grey(2, 2, (i) => i) });
    const reply = await ask({ id, ...more });
    expect("err" in reply && reply.err).toContain(message);
  });
});
