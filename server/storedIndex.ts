/**
 * The index of the workspace: looks through all stored source files in the background, for the panels that they define,
 * and through each again when it changes. Typing never waits for it: every file is a turn of its own.
 */
import { targetOf } from "../shared/bitmap/open.ts";
import { panelsIn } from "../shared/bitmap/panels.ts";
import { mayDefinePanel } from "../shared/checks/worth.ts";
import { readSource } from "../shared/source/read.ts";
import type { Files } from "./files.ts";
import type { Panels } from "./panels.ts";
import type { Work } from "./work.ts";

export interface StoredIndex {
  /** Looks through all files; what was known of others is forgotten. Resolves when done, or called off. */
  fill(work: Work): Promise<void>;
  /** A stored file was made, changed or deleted. */
  changed(uri: string): Promise<void>;
  /** A file or a folder is gone. */
  deleted(uri: string): void;
  /** The stored files that hold annotations or X bitmaps. */
  readonly worth: ReadonlySet<string>;
}

interface Given {
  readonly files: Pick<Files, "list" | "worthReading" | "shown">;
  readonly panels: Panels;
  /** Its panels come from the document. */
  readonly isOpen: (uri: string) => boolean;
  /** Panels are others than before, or files worth reading have come or gone. */
  readonly changed: () => void;
}

/** Files that are fetched at the same time. */
const AT_ONCE = 8;

export function createStoredIndex({ files, panels, isOpen, changed }: Given): StoredIndex {
  const worth = new Set<string>();
  /** How often each file was asked for, and the number of the present look at all of them. */
  const asked = new Map<string, number>();
  let filling = 0;
  const look = async (uri: string): Promise<boolean> => {
    const mine = (asked.get(uri) ?? 0) + 1;
    asked.set(uri, mine);
    const text = await files.worthReading(uri).catch(() => undefined);
    // Of several answers the one to the last question counts.
    if (asked.get(uri) !== mine) return false;
    asked.delete(uri);
    return take(uri, text);
  };
  /** Tells whether anything is different now. */
  const take = (uri: string, text: string | undefined): boolean => {
    const known = worth.has(uri);
    if (text === undefined) worth.delete(uri);
    else worth.add(uri);
    if (isOpen(uri)) return known !== worth.has(uri);
    const file = files.shown(uri);
    const defines = text !== undefined && mayDefinePanel(text);
    const found = defines ? panelsIn(readSource(text, { target: targetOf(file) }), file, uri) : [];
    return panels.set(uri, found) || known || worth.has(uri);
  };
  return {
    worth,
    async fill(work) {
      const mine = ++filling;
      const stopped = () => work.cancelled() || mine !== filling;
      const list = await files.list();
      if (stopped()) return;
      const gone = new Set(worth);
      for (const uri of list) gone.delete(uri);
      for (const uri of gone) take(uri, undefined);
      let next = 0;
      let done = 0;
      const one = async () => {
        while (next < list.length && !stopped()) {
          await look(list[next++] as string);
          work.at(++done, list.length);
        }
      };
      await Promise.all(Array.from({ length: AT_ONCE }, one));
      // Of a part of the files nobody can say which names are unknown.
      if (stopped()) return;
      panels.setComplete();
      changed();
    },
    async changed(uri) {
      if (await look(uri)) changed();
    },
    deleted(uri) {
      const gone = [...worth].filter((known) => known === uri || known.startsWith(`${uri}/`));
      if (gone.map((known) => take(known, undefined)).some(Boolean)) changed();
    },
  };
}
