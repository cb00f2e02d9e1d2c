/** What the gallery shows: the files' bitmaps, filtered and grouped, as one list of rows; pure. */
import type { GalleryEntry, GalleryFile } from "../../shared/protocol/lsp.ts";

export type Grouping = "file" | "panel";

export interface Heading {
  readonly kind: "heading";
  readonly key: string;
  readonly title: string;
  readonly count: number;
}

export interface Item {
  readonly kind: "bitmap";
  readonly key: string;
  readonly uri: string;
  /** The file as people know it. */
  readonly file: string;
  readonly entry: GalleryEntry;
}

export type Row = Heading | Item;

export interface Listing {
  readonly rows: readonly Row[];
  readonly shown: number;
  readonly all: number;
}

/** Every word of the filter must stand in the name, the file, the panel, the facts or the findings of a bitmap. */
export function listing(files: Iterable<GalleryFile>, filter: string, grouping: Grouping, noPanel: string): Listing {
  const wanted = filter
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== "");
  const groups = new Map<string, Item[]>();
  let [shown, all] = [0, 0];
  for (const { uri, title, bitmaps } of files) {
    for (const entry of bitmaps) {
      all++;
      const words = wordsOf(title, entry);
      if (!wanted.every((word) => words.includes(word))) continue;
      const item: Item = { kind: "bitmap", key: keyOf(uri, entry.identity), uri, file: title, entry };
      shown++;
      const group = grouping === "file" ? title : (entry.panel ?? noPanel);
      const items = groups.get(group);
      if (items) items.push(item);
      else groups.set(group, [item]);
    }
  }
  const names = [...groups.keys()];
  // What hangs on no panel comes last.
  if (grouping === "panel") names.sort((a, b) => Number(a === noPanel) - Number(b === noPanel) || (a < b ? -1 : 1));
  const rows = names.flatMap((title): Row[] => {
    const items = groups.get(title) ?? [];
    return [{ kind: "heading", key: `heading ${title}`, title, count: items.length }, ...items];
  });
  return { rows, shown, all };
}

function keyOf(uri: string, { name, ordinal }: { readonly name: string; readonly ordinal: number }): string {
  return `${uri} ${name} ${ordinal}`;
}

const known = new WeakMap<GalleryEntry, string>();

/** Joined once: they are searched again with every key. */
function wordsOf(file: string, entry: GalleryEntry): string {
  const before = known.get(entry);
  if (before !== undefined) return before;
  const { identity, panel = "", facts, findings } = entry;
  const words = [identity.name, file, panel, facts, findings?.worst ?? "", findings?.first ?? ""];
  const joined = words.join(" ").toLowerCase();
  known.set(entry, joined);
  return joined;
}
