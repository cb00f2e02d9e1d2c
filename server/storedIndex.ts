/**
 * The index of the workspace: looks through all stored source files in the background, for the panels that they define,
 * and through each again when it changes. Typing never waits for it: every file is a turn of its own.
 */
import { targetOf } from "../shared/bitmap/open.ts";
import { panelsIn } from "../shared/bitmap/panels.ts";
import { mayDefinePanel } from "../shared/checks/worth.ts";
import { readSource } from "../shared/source/read.ts";
import type { NamedPlace } from "./features/workspaceSymbols.ts";
import { symbolsIn } from "./features/workspaceSymbols.ts";
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
  /** The stored files that hold annotations or X bitmaps, and what they name. */
  readonly worth: ReadonlyMap<string, readonly NamedPlace[]>;
}

interface Given {
  readonly files: Pick<Files, "list" | "worthReading" | "shown">;
  readonly panels: Panels;
  /** Its panels come from the document. */
  readonly isOpen: (uri: string) => boolean;
  /** Panels are others than before, or files worth reading have changed, come or gone. */
  readonly changed: () => void;
}

/** Files that are fetched at the same time. */
const AT_ONCE = 8;
/** Longer texts are read for panels only: reading takes its time, and typing would wait for it. */
const MOST_READ = 1 << 22;

export function createStoredIndex({ files, panels, isOpen, changed }: Given): StoredIndex {
  const worth = new Map<string, readonly NamedPlace[]>();
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
    else worth.set(uri, []);
    // What a document says now is asked of the document.
    if (isOpen(uri)) return known !== worth.has(uri);
    const file = files.shown(uri);
    const read = text !== undefined && (text.length <= MOST_READ || mayDefinePanel(text));
    const source = read ? readSource(text, { target: targetOf(file) }) : undefined;
    if (source) worth.set(uri, symbolsIn(source));
    return panels.set(uri, source ? panelsIn(source, file, uri) : []) || known || worth.has(uri);
  };
  return {
    worth,
    async fill(work) {
      const mine = ++filling;
      const stopped = () => work.cancelled() || mine !== filling;
      const list = await files.list();
      if (stopped()) return;
      const gone = new Set(worth.keys());
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
      const gone = [...worth.keys()].filter((known) => known === uri || known.startsWith(`${uri}/`));
      if (gone.map((known) => take(known, undefined)).some(Boolean)) changed();
    },
  };
}
