/** Pictures, text in other formats, and comparisons over the language server. */
import { PNG } from "pngjs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { LspParams, LspResult } from "../../shared/protocol/lsp.ts";
import { type LspClient, startClient } from "../support/lspClient.ts";

const URI = "file:///greenhouse/art.h";
const TEXT = `// @bitmap 2x2 frames=2 fps=5
const uint8_t drop[] = { 0, 1, 64, 255,  9, 8, 7, 6 };
// @bitmap 8x1 mono1
const uint8_t leaf[] = { 0x81 };
`;

let client: LspClient;
beforeAll(async () => {
  client = await startClient();
  client.open(URI, TEXT);
});
afterAll(() => client.stop());

async function identityOf(name: string, uri = URI): Promise<LspParams<"dotwright/export">["identity"]> {
  const reply = await client.own("dotwright/bitmaps", { uri });
  const found = "ok" in reply ? reply.ok.bitmaps.find((b) => b.name === name) : undefined;
  if (!found) throw new Error(`no bitmap ${name}`);
  return found.identity;
}

describe("dotwright/export", () => {
  it("gives the bytes of a picture file", async () => {
    const identity = await identityOf("drop");
    const reply = await client.own("dotwright/export", { uri: URI, identity, format: "png", look: "values", frame: 1 });
    if ("err" in reply) throw new Error(reply.err);
    const { width, height, data } = PNG.sync.read(Buffer.from(reply.ok.base64, "base64"));
    expect([width, height, [0, 4, 8, 12].map((i) => data[i])]).toEqual([2, 2, [9, 8, 7, 6]]);
  });

  it.each<[Partial<LspParams<"dotwright/export">>, RegExp]>([
    [{ format: "xbm" }, /drop is gray8, which a XBM file can't hold/],
    [{ frame: 2 }, /there is no frame 2/],
    [{ scale: 0 }, /0 is no scale/],
    [{ scale: 100_000 }, /more than/],
  ])("refuses %j in words", async (given, why) => {
    const identity = await identityOf("drop");
    const reply = await client.own("dotwright/export", { uri: URI, identity, format: "png", look: "values", ...given });
    expect(reply).toEqual({ err: expect.stringMatching(why) });
  });
});

describe("dotwright/copyAs", () => {
  it("offers every format with what it loses, the own one first, and writes what was chosen", async () => {
    const identity = await identityOf("leaf");
    const offered = await client.own("dotwright/copyChoices", { uri: URI, identity });
    const { choices } = (offered as { ok: LspResult<"dotwright/copyChoices"> }).ok;
    expect(choices[0]).toEqual({
      format: "mono1",
      words: "mono1",
      packing: "along rows, the first pixel in the highest bits",
      lost: 0,
    });
    for (const { words } of choices) {
      const reply = await client.own("dotwright/copyAs", { uri: URI, identity, words });
      expect(reply, words).toEqual({ ok: { text: expect.stringContaining(`@bitmap 8x1 ${words}`) } });
    }
    const drop = await client.own("dotwright/copyChoices", { uri: URI, identity: await identityOf("drop") });
    const of = (format: string) =>
      (drop as typeof offered & { ok: LspResult<"dotwright/copyChoices"> }).ok.choices.find((c) => c.format === format);
    expect([of("gray8")?.lost, of("gray4")?.lost, of("mono1")?.lost, of("rgb888")?.lost]).toEqual([0, 6, 6, 0]);
  });
});

describe("dotwright/compare", () => {
  it("tells what differs from an older text, with the pictures of the one that is wanted", async () => {
    const before = TEXT.replace("64", "60").replace("0x81", "0x80").replace("6 }", "16 }");
    const reply = await client.own("dotwright/compare", { uri: URI, before });
    if ("err" in reply) throw new Error(reply.err);
    expect(reply.ok).toMatchObject({
      differences: [
        {
          name: "drop",
          ordinal: 0,
          kind: "changed",
          words: "2 of 2 frames changed (frame 0: 1 pixel, up to +4; frame 1: 1 pixel, up to −10)",
        },
        { name: "leaf", words: "1 of 8 pixels changed" },
      ],
      shown: {
        name: "drop",
        before: {
          bitmap: { name: "drop" },
          frames: [
            { frame: 0, pixels: [0, 1, 60, 255] },
            { frame: 1, pixels: [9, 8, 7, 16] },
          ],
        },
        after: { frames: [{ frame: 0, pixels: [0, 1, 64, 255] }, { frame: 1 }] },
        changed: [
          { frame: 0, changed: [2], words: "1 pixel, up to +4" },
          { frame: 1, changed: [3] },
        ],
      },
    });
    const leaf = await client.own("dotwright/compare", { uri: URI, before, wanted: { name: "leaf", ordinal: 0 } });
    expect(leaf).toMatchObject({ ok: { shown: { name: "leaf", changed: [{ changed: [7] }] } } });
  });

  it("tells the frames that only one version has", async () => {
    const before = TEXT.replace("frames=2", "frames=1").replace("255,  9, 8, 7, 6", "255");
    const reply = await client.own("dotwright/compare", { uri: URI, before });
    expect(reply).toMatchObject({
      ok: {
        differences: [{ words: "1 frame to 2 frames" }],
        shown: { before: { frames: [] }, after: { frames: [{ frame: 1, pixels: [9, 8, 7, 6] }] }, changed: [] },
      },
    });
  });

  it("tells nothing where the text is the same", async () => {
    expect(await client.own("dotwright/compare", { uri: URI, before: TEXT })).toEqual({
      ok: { version: 1, differences: [] },
    });
  });
});

it("answers hovers in documents that version control shows, as in the two sides of a diff editor", async () => {
  // As the editor's Git extension names them: a query in the URI says which version.
  const uri = `git:/greenhouse/art.h?${encodeURIComponent(JSON.stringify({ path: "/greenhouse/art.h", ref: "HEAD" }))}`;
  client.open(uri, TEXT);
  const hover = await client.request<unknown, { contents: { value: string } }>(
    { method: "textDocument/hover" },
    { textDocument: { uri }, position: { line: 1, character: 15 } },
  );
  expect(hover.contents.value).toContain("data:image/png;base64,");
});
