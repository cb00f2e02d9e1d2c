/** Glyph sets for text: those of the document and of the headers that it includes. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { LspParams, LspResult } from "../../shared/protocol/lsp.ts";
import { type LspClient, startClient } from "../support/lspClient.ts";

const FONT = `// @bitmap 3x5 gray2 pack=each frames=2 chars="1é" widths=beam_widths
const unsigned char beam_font[30] = {
  0, 3, 0,  1, 3, 0,  0, 3, 0,  0, 3, 0,  3, 3, 3,
  0, 1, 0,  3, 3, 3,  3, 0, 3,  3, 3, 0,  0, 3, 3,
};
const unsigned char beam_widths[2] = { 3, 2 };
`;
const ART = `#include "beam_font.h"
// @bitmap 2x2 gray8
const unsigned char vent_icon[4] = { 0, 1, 2, 3 };
// @bitmap 1x1 gray8 cap=25% frames=2 first='A'
const unsigned char capped[2] = { 63, 255 };
// @bitmap 2x1 mono1 pack=each frames=2 first='A'
const unsigned char dots[4] = { 1, 0, 0, 1 };
// @bitmap 1x1 rgb332 frames=2 first='A'
const unsigned char coloured[2] = { 1, 2 };
// @bitmap 9x9 mono1 frames=2 first='A'
const unsigned char unknown[2] = { SOMETHING, ELSE };
`;

const folder = mkdtempSync(join(tmpdir(), "dotwright-glyphs-"));
const home = pathToFileURL(folder).href;
const art = `${home}/art.h`;
let client: LspClient;
beforeAll(async () => {
  writeFileSync(join(folder, "beam_font.h"), FONT);
  client = await startClient({ folder: home });
  client.open(art, ART);
  await client.pull(art);
  await client.until(() => (client.refreshes.count > 0 ? true : undefined));
});
afterAll(async () => {
  await client.stop();
  rmSync(folder, { recursive: true });
});

async function ask(wanted?: LspParams<"dotwright/glyphs">["wanted"]): Promise<LspResult<"dotwright/glyphs">> {
  const reply = await client.own("dotwright/glyphs", wanted ? { uri: art, wanted } : { uri: art });
  if ("err" in reply) throw new Error(reply.err);
  return reply.ok;
}

async function setNamed(name: string) {
  const set = (await ask()).sets.find((s) => s.name === name);
  if (!set) throw new Error(`there is no set ${name}`);
  return set;
}

test("sets of the document come first, then those of its headers; colours and unknown values are none", async () => {
  const { sets, glyphs } = await ask();
  expect(sets.map(({ name, uri }) => [name, uri])).toEqual([
    ["capped", art],
    ["dots", art],
    ["beam_font", `${home}/beam_font.h`],
  ]);
  // Full light is the cap where there is one.
  expect(sets[0]).toMatchObject({ full: 63 });
  expect(sets[2]).toMatchObject({ width: 3, height: 5, full: 3, characters: [49, 0xe9], widths: [3, 2] });
  expect(sets[1]).toMatchObject({ width: 2, height: 1, full: 1, characters: [65, 66] });
  expect(sets[1]).not.toHaveProperty("widths");
  expect(glyphs).toEqual([]);
});

test("sets of what else is open come last, and give their glyphs", async () => {
  const uri = `${home}/hut_font.h`;
  const text = '// @bitmap 2x1 mono1 frames=2 chars="ab"\nconst unsigned char hut_font[2] = { 0x80, 0x40 };\n';
  client.open(uri, text);
  const set = await setNamed("hut_font");
  expect((await ask()).sets.at(-1)).toEqual(set);
  const { glyphs } = await ask({ uri, identity: set.identity, characters: [98] });
  expect(glyphs).toEqual([{ character: 98, pixels: [0, 1] }]);
  client.close(uri);
  expect((await ask()).sets.map((s) => s.name)).not.toContain("hut_font");
});

test("wanted glyphs come as raw values, once each; those that the set lacks are left out", async () => {
  const { uri, identity } = await setNamed("beam_font");
  const { glyphs } = await ask({ uri, identity, characters: [0xe9, 50, 49, 0xe9] });
  expect(glyphs).toEqual([
    { character: 0xe9, pixels: [0, 1, 0, 3, 3, 3, 3, 0, 3, 3, 3, 0, 0, 3, 3] },
    { character: 49, pixels: [0, 3, 0, 1, 3, 0, 0, 3, 0, 0, 3, 0, 3, 3, 3] },
  ]);
});

test("a set that is no longer what was meant, or a file that is not included, is refused in words", async () => {
  const { uri, identity } = await setNamed("dots");
  const gone = { uri, identity: { ...identity, name: "dashes" }, characters: [65] };
  await expect(ask(gone)).rejects.toThrow(/dashes/);
  await expect(ask({ uri: `${home}/other.h`, identity, characters: [65] })).rejects.toThrow(
    /other\.h is neither open nor included by/,
  );
});
