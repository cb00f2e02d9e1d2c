/** What the gallery's page is told: the sample workspace by the server's own code, and as many made-up files as wanted. */
import { readdirSync, readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { createDocuments } from "../../server/documents.ts";
import { createGallery, type Gallery } from "../../server/gallery.ts";
import { createPanels } from "../../server/panels.ts";
import type { GalleryFile, LspReply } from "../../shared/protocol/lsp.ts";

const FOLDER = pathToFileURL(`${process.cwd()}/sample-workspace/`);
const HOME = "file:///greenhouse/";

let made: Gallery | undefined;
const sources = () => readdirSync(FOLDER).filter((name) => /\.(?:h|ino)$/.test(name));

/** The sample's files as open documents, so that nothing is fetched. */
function gallery(): Gallery {
  if (made) return made;
  const files = {
    list: async () => [],
    read: async () => undefined,
    worthReading: async () => undefined,
    shown: (uri: string) => uri.slice(HOME.length),
    inside: () => true,
    start: async () => undefined,
    text: () => undefined,
    changed: () => undefined,
    fetched: async () => false,
  };
  const panels = createPanels(true);
  const options = () => ({ target: undefined });
  const documents = createDocuments(options, { panels, files });
  for (const name of sources()) {
    const text = readFileSync(new URL(name, FOLDER), "utf8");
    documents.open({ uri: `${HOME}${name}`, languageId: "cpp", version: 1, text });
  }
  const stored = {
    worth: new Map(),
    fill: async () => undefined,
    changed: async () => undefined,
    deleted: () => undefined,
  };
  const timer = { after: () => () => undefined };
  made = createGallery({ documents, files, stored, panels, options, timer, changed: () => undefined });
  return made;
}

function ok<T extends { readonly ok: unknown } | { readonly err: string }>(
  reply: T,
): Extract<T, { ok: unknown }>["ok"] {
  if ("err" in reply) throw new Error(reply.err);
  return (reply as Extract<T, { ok: unknown }>).ok;
}

export async function sampleGallery(): Promise<GalleryFile[]> {
  const { uris } = ok(gallery().files());
  const files = await Promise.all(uris.map((uri) => gallery().file({ uri })));
  return files.map((reply: LspReply<"dotwright/galleryFile">) => ok(reply)).filter(({ bitmaps }) => bitmaps.length > 0);
}

/** Of a bitmap of the sample; a made-up one is a dot. */
export async function galleryPicture(uri: string, name: string): Promise<string | null> {
  const reply = await gallery().pictures({ uri, wanted: [{ name, ordinal: 0 }] });
  return ok(reply).pictures[0] ?? (await galleryPicture(`${HOME}lantern_art.h`, "drop_icon"));
}

/** `count` files with `each` bitmaps. */
export function galleryFiles(count: number, each: number): GalleryFile[] {
  return Array.from({ length: count }, (_, i) => ({
    uri: `${HOME}deep/art_${i}.h`,
    title: `art_${i}.h`,
    bitmaps: Array.from({ length: each }, (_entry, k) => ({
      identity: { name: `icon_${i}_${k}`, ordinal: 0, siblings: 1, structure: "9 9" },
      line: 10 * k + 2,
      format: "gray8",
      facts: "9×9 gray8 · 81 bytes · peak 64 of cap 64",
    })),
  }));
}
