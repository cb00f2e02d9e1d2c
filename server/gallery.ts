/** The gallery of the workspace: what each of its files holds, stored or open, and small pictures of it. */
import { identityOf, sameIn } from "../shared/bitmap/edit.ts";
import type { Bitmap } from "../shared/bitmap/resolve.ts";
import type { Finding, Severity } from "../shared/checks/rules.ts";
import type { PanelIndex } from "../shared/light/panelIndex.ts";
import type { GalleryChanged, GalleryEntry, LspParams, LspReply } from "../shared/protocol/lsp.ts";
import { lineAt, lineStarts } from "../shared/source/text.ts";
import type { Parsed } from "./documents.ts";
import { factsOf } from "./features/facts.ts";
import type { Timer } from "./features/push.ts";
import type { Around } from "./storedReader.ts";
import { readStoredFile, worthReading } from "./storedReader.ts";
import { thumbnail } from "./thumbnail.ts";
import { canonical, fileName } from "./uris.ts";

export interface Gallery {
  files(): LspReply<"dotwright/galleryFiles">;
  file(params: LspParams<"dotwright/galleryFile">): Promise<LspReply<"dotwright/galleryFile">>;
  pictures(params: LspParams<"dotwright/galleryPictures">): Promise<LspReply<"dotwright/galleryPictures">>;
  /** A file, or without one any of them, may hold other bitmaps now. */
  touched(uri?: string): void;
}

interface Given extends Around {
  readonly timer: Timer;
  /** Told after a pause, once the gallery has been asked for. */
  readonly changed: (params: GalleryChanged) => void;
}

/** Longer than the pause between two keystrokes. */
const PAUSE_MS = 400;
/** Characters of the stored files that are kept as they were read, so that pictures need no second reading. */
const MOST_KEPT = 1 << 24;

export function createGallery(given: Given): Gallery {
  const { documents, files, panels, timer, changed } = given;
  /** Stored files as they were read with the panels around them, those used last behind. */
  const kept = new Map<string, { readonly parsed: Parsed; readonly around: PanelIndex }>();
  /** Raised by each change, so that what was read meanwhile is not kept. */
  let changes = 0;
  let asked = false;
  let waiting: (() => void) | undefined;
  let uris: Set<string> | "any" = new Set();

  const read = async (uri: string): Promise<Parsed | undefined> => {
    const id = canonical(uri);
    const open = documents.parsed(id);
    if (open) return open;
    const before = kept.get(id);
    const around = panels.index();
    if (before?.around === around) {
      kept.delete(id);
      kept.set(id, before);
      return before.parsed;
    }
    const asOf = changes;
    const text = await files.worthReading(id).catch(() => undefined);
    if (text === undefined) return undefined;
    const parsed = await readStoredFile(id, text, given);
    if (asOf === changes) keep(id, parsed, around);
    return parsed;
  };
  const keep = (id: string, parsed: Parsed, around: PanelIndex) => {
    kept.delete(id);
    kept.set(id, { parsed, around });
    let size = 0;
    for (const { parsed: own } of kept.values()) size += own.document.getText().length;
    for (const [oldest, { parsed: own }] of kept) {
      if (size <= MOST_KEPT || oldest === id) break;
      size -= own.document.getText().length;
      kept.delete(oldest);
    }
  };

  /** What was read of other files means something else as well where they include this one. */
  const includersOf = (id: string) =>
    [...kept].flatMap(([other, { parsed }]) =>
      other !== id && parsed.file.source.asks.has(fileName(id)) ? [other] : [],
    );

  return {
    files() {
      asked = true;
      const all = worthReading(given);
      const order = new Map(all.map((uri) => [uri, files.shown(uri)]));
      const named = (uri: string) => order.get(uri) ?? uri;
      return { ok: { uris: all.sort((a, b) => (named(a) < named(b) ? -1 : 1)), complete: panels.complete } };
    },
    async file({ uri }) {
      const parsed = await read(uri);
      const bitmaps = parsed ? entriesOf(parsed) : [];
      return { ok: { uri, title: files.shown(canonical(uri)), bitmaps } };
    },
    async pictures({ uri, wanted }) {
      const parsed = await read(uri);
      const pictures = wanted.map((one) => {
        const bitmap = parsed && sameIn(parsed.file, one);
        return (bitmap && thumbnail(bitmap)) ?? null;
      });
      return { ok: { pictures } };
    },
    touched(uri) {
      changes++;
      const ids = uri === undefined ? undefined : [canonical(uri), ...includersOf(canonical(uri))];
      if (ids) for (const id of ids) kept.delete(id);
      else kept.clear();
      if (!asked) return;
      if (!ids) uris = "any";
      else if (uris !== "any") for (const id of ids) if (files.inside(id)) uris.add(id);
      waiting?.();
      waiting = timer.after(PAUSE_MS, () => {
        const told = uris;
        uris = new Set();
        if (told === "any") changed({});
        else if (told.size > 0) changed({ uris: [...told] });
      });
    },
  };
}

function entriesOf({ file, findings }: Parsed): GalleryEntry[] {
  const starts = lineStarts(file.source.text);
  const byBitmap = new Map<number, Finding[]>();
  for (const finding of findings) byBitmap.set(finding.bitmap, [...(byBitmap.get(finding.bitmap) ?? []), finding]);
  return file.bitmaps.map((bitmap, i) =>
    entryOf(bitmap, lineAt(starts, bitmap.array.nameSpan.start) + 1, byBitmap.get(i) ?? []),
  );
}

const WORST: readonly Severity[] = ["error", "warning", "information"];

function entryOf(bitmap: Bitmap, line: number, findings: readonly Finding[]): GalleryEntry {
  const worst = WORST.find((severity) => findings.some((f) => f.severity === severity));
  const first = findings.find((f) => f.severity === worst);
  return {
    identity: identityOf(bitmap),
    line,
    format: bitmap.format.name,
    ...(bitmap.panel ? { panel: bitmap.panel.name } : {}),
    facts: factsOf(bitmap).join(" · "),
    ...(worst && first ? { findings: { count: findings.length, worst, first: first.message } } : {}),
    ...(bitmap.why === undefined ? {} : { pictureless: true }),
  };
}
