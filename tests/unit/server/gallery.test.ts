/** How often the gallery reads a stored file: once for what it holds and its pictures, and again where something changed. */
import { beforeEach, expect, test } from "vitest";
import { createDocuments } from "../../../server/documents.ts";
import { createGallery, type Gallery } from "../../../server/gallery.ts";
import { createPanels } from "../../../server/panels.ts";
import { panelsIn } from "../../../shared/bitmap/panels.ts";
import type { GalleryEntry } from "../../../shared/protocol/lsp.ts";
import { readSource } from "../../../shared/source/read.ts";

const ART = "file:///greenhouse/art.h";
const PARTS = "file:///greenhouse/parts.h";
const ROWS = "file:///greenhouse/rows.inc";
const BOARD = "file:///greenhouse/board.h";
const board = (cap: number) =>
  panelsIn(readSource(`// @panel lantern 2x1 gray8 cap=${cap}\n`, { target: "host" }), "board.h", BOARD);

let texts: Map<string, string>;
let read: string[];
/** Resolved by a test that holds a reading back. */
let gate: Promise<void>;
let gallery: Gallery;
const panels = createPanels(true);
let told: (readonly string[] | undefined)[];
let due: (() => void) | undefined;

beforeEach(() => {
  texts = new Map([
    [ART, '#include "parts.h"\n// @bitmap lantern\nconst unsigned char drop[] = { LIT, 0 };\n'],
    [PARTS, "#define LIT 40\n"],
    [ROWS, "7,\n"],
  ]);
  [read, told, gate, due] = [[], [], Promise.resolve(), undefined];
  panels.set(BOARD, board(64));
  const files = {
    list: async () => [],
    read: async () => undefined,
    worthReading: async (uri: string) => {
      read.push(uri);
      const text = texts.get(uri);
      await gate;
      return text;
    },
    shown: (uri: string) => uri,
    inside: () => true,
    start: async () => undefined,
    text: (uri: string) => texts.get(uri),
    changed: () => undefined,
    fetched: async () => false,
  };
  const options = () => ({ target: undefined });
  const documents = createDocuments(options, { panels, files, unopened: files.text });
  const stored = {
    worth: new Map(),
    fill: async () => undefined,
    changed: async () => undefined,
    deleted: () => undefined,
  };
  const timer = {
    after: (_ms: number, then: () => void) => {
      due = then;
      return () => undefined;
    },
  };
  const changed = ({ uris }: { readonly uris?: readonly string[] }) => void told.push(uris);
  gallery = createGallery({ documents, files, stored, panels, options, timer, changed });
});

async function entry(): Promise<GalleryEntry | undefined> {
  const reply = await gallery.file({ uri: ART });
  return "ok" in reply ? reply.ok.bitmaps[0] : undefined;
}
const picture = () => gallery.pictures({ uri: ART, wanted: [{ name: "drop", ordinal: 0 }] });

test("a file and its pictures take one reading", async () => {
  expect((await entry())?.facts).toContain("peak 40 of cap 64");
  const first = await picture();
  expect(await picture()).toEqual(first);
  await entry();
  expect(read).toEqual([ART]);
});

test("it is read again when it, a file that it includes, or a panel of another file changes", async () => {
  await entry();
  texts.set(ART, (texts.get(ART) ?? "").replace("LIT, 0", "LIT, 50"));
  gallery.touched(ART);
  expect((await entry())?.facts).toContain("peak 50");

  texts.set(PARTS, "#define LIT 60\n");
  gallery.files();
  gallery.touched(PARTS);
  due?.();
  expect(told).toEqual([[PARTS, ART]]);
  expect((await entry())?.facts).toContain("peak 60");

  panels.set(BOARD, board(70));
  expect((await entry())?.facts).toContain("peak 60 of cap 70");
  expect(read).toEqual([ART, ART, ART, ART]);
});

test("it is read again when rows that a list includes change", async () => {
  texts.set(ART, '// @bitmap lantern\nconst unsigned char drop[] = {\n#include "rows.inc"\n0 };\n');
  expect((await entry())?.facts).toContain("peak 7");
  texts.set(ROWS, "9,\n");
  gallery.touched(ROWS);
  expect((await entry())?.facts).toContain("peak 9");
});

test("what was read before a change that came meanwhile is not kept", async () => {
  let open = () => {};
  gate = new Promise((resolve) => {
    open = resolve;
  });
  const early = entry();
  texts.set(ART, (texts.get(ART) ?? "").replace("LIT, 0", "LIT, 50"));
  gallery.touched(ART);
  open();
  expect((await early)?.facts).toContain("peak 40");
  expect((await entry())?.facts).toContain("peak 50");
  expect(read).toEqual([ART, ART]);
});
