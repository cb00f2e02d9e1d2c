/**
 * The documents that the editor has open. Each version is read once, when a feature first asks for it, and checked
 * once; all features share what was read.
 */

import type { TextDocumentContentChangeEvent, TextDocumentItem } from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import { openText } from "../shared/bitmap/open.ts";
import { panelsIn, withPanelsAround } from "../shared/bitmap/panels.ts";
import type { BitmapFile } from "../shared/bitmap/resolve.ts";
import { resolveFile } from "../shared/bitmap/resolve.ts";
import { checkFile } from "../shared/checks/all.ts";
import type { Finding } from "../shared/checks/rules.ts";
import { mayDefinePanel } from "../shared/checks/worth.ts";
import type { Place } from "../shared/light/panel.ts";
import type { PanelIndex } from "../shared/light/panelIndex.ts";
import type { Includes } from "../shared/source/read.ts";
import type { Span } from "../shared/source/text.ts";
import type { Files } from "./files.ts";
import type { Panels } from "./panels.ts";
import { createPanels } from "./panels.ts";
import { SOURCE } from "./sources.ts";
import { canonical, fileName, resolveUri } from "./uris.ts";
import type { OpenOptions } from "./workspace.ts";

/** One version of a document as it was read. */
export interface Parsed {
  readonly uri: string;
  readonly version: number;
  /** Differs between any two readings in the life of the server. */
  readonly serial: string;
  readonly document: TextDocument;
  readonly file: BitmapFile;
  readonly findings: readonly Finding[];
}

export interface Documents {
  /**
   * Each of these returns the other documents that mean something else now, since they include this one or name a panel
   * that it defines.
   */
  open(item: TextDocumentItem): string[];
  change(uri: string, version: number, changes: TextDocumentContentChangeEvent[]): string[];
  close(uri: string): string[];
  /** A file that is not open has another text. */
  arrived(uri: string): string[];
  /** Panels of stored files are others, or all are known now. */
  panelsChanged(): string[];
  isOpen(uri: string): boolean;
  /** What a document or a stored file includes: as it is in the editor, else as it is stored. */
  includesOf(uri: string): Includes;
  /** The newest version; undefined for a document that is not open or not C or C++. */
  parsed(uri: string): Parsed | undefined;
  /** The documents that are open and are C or C++. */
  uris(): string[];
  /** Reads all documents anew, for other options. */
  invalidate(): void;
}

const LANGUAGES = new Set(["c", "cpp", "arduino"]);

interface Entry {
  /** Its URI in the one spelling. */
  readonly id: string;
  readonly name: string;
  document: TextDocument;
  parsed: Parsed | undefined;
  /** The last version that was read; its unchanged arrays are taken over. */
  previous: BitmapFile | undefined;
  /** The panels of all files, when it was last seen that it means the same with them. */
  around: PanelIndex | undefined;
  /** Names that no file defines, as far as files have been looked through: these findings are held back. */
  held: boolean;
}

interface Given {
  /** The text of a file that is not open. */
  readonly unopened?: (uri: string) => string | undefined;
  /** Those of all files; without it, of the documents alone. */
  readonly panels?: Panels;
  /** Which documents are files of the workspace. */
  readonly files?: Pick<Files, "shown" | "inside">;
}

const NO_FOLDERS: Pick<Files, "shown" | "inside"> = { shown: fileName, inside: () => false };

/**
 * Keeps open documents; `options` says for which target they are read. They are known by one spelling of their URIs, and
 * named by the client's.
 */
export function createDocuments(
  options: () => OpenOptions,
  { unopened, panels = createPanels(true), files = NO_FOLDERS }: Given = {},
): Documents {
  const entries = new Map<string, Entry>();
  let serial = 0;
  return {
    open({ uri, languageId, version, text }) {
      const name = fileName(uri);
      if (!LANGUAGES.has(languageId) && !SOURCE.test(name)) return [];
      const document = TextDocument.create(uri, languageId, version, text);
      const id = canonical(uri);
      const fresh = { parsed: undefined, previous: undefined, around: undefined, held: false };
      entries.set(id, { id, name, document, ...fresh });
      return changed(id);
    },
    change(uri, version, changes) {
      const id = canonical(uri);
      const entry = entries.get(id);
      if (!entry) return [];
      entry.parsed = undefined;
      entry.document = TextDocument.update(entry.document, changes, version);
      return changed(id);
    },
    close(uri) {
      const id = canonical(uri);
      // Its panels stay until it is known what is stored.
      return entries.delete(id) ? rereadIncluders(id) : [];
    },
    arrived: (uri) => (entries.has(uri) ? [] : rereadIncluders(uri)),
    panelsChanged() {
      return rereadByPanels("", () => {
        // Other folders may be open than before.
        for (const id of entries.keys()) define(id);
      });
    },
    isOpen: (uri) => entries.has(uri),
    includesOf,
    parsed(uri) {
      const entry = entries.get(canonical(uri));
      return entry && newest(entry);
    },
    uris: () => [...entries.values()].map(({ document }) => document.uri),
    invalidate() {
      for (const entry of entries.values()) entry.parsed = undefined;
    },
  };

  /** What a document says now holds for all others; returns those that mean something else with it. */
  function changed(id: string): string[] {
    const includers = rereadIncluders(id);
    return define(id) ? [...includers, ...rereadByPanels(id)] : includers;
  }

  /**
   * Takes over the panels of a document; true where they are others than before. Those of a document outside the
   * workspace, such as an older version that is compared with, are its own.
   */
  function define(id: string): boolean {
    const entry = entries.get(id);
    const defines = entry && files.inside(id) && mayDefinePanel(entry.document.getText());
    if (!defines) return panels.has(id) && panels.set(id, []);
    const { document } = entry;
    const place = ({ start, end }: Span): Place => {
      const { line, character } = document.positionAt(start);
      return { line, start: character, end: character + end - start };
    };
    return panels.set(id, panelsIn(newest(entry).file.source, files.shown(id), id, place));
  }

  /** Documents that include another are read anew when it changes; their own arrays are taken over. */
  function rereadIncluders(changed: string): string[] {
    const name = fileName(changed);
    const others: string[] = [];
    for (const [id, entry] of entries) {
      const { parsed } = entry;
      if (id === changed || !parsed) continue;
      if (!parsed.file.source.asks.has(name)) continue;
      entry.parsed = undefined;
      others.push(entry.document.uri);
    }
    return others;
  }

  /** Documents that mean something else with the panels that there are now; the file that changed knows already. */
  function rereadByPanels(changed: string, first = () => {}): string[] {
    const before = [...entries.values()].map((entry) => ({ entry, serial: entry.parsed?.serial }));
    first();
    return before.flatMap(({ entry, serial }) =>
      entry.id !== changed && serial !== undefined && newest(entry).serial !== serial ? [entry.document.uri] : [],
    );
  }

  function includesOf(uri: string): Includes {
    const own = canonical(uri);
    return (name, from) => {
      const id = resolveUri(name, from === "" ? own : from);
      if (id === undefined || id === own) return undefined;
      const text = entries.get(id)?.document.getText() ?? unopened?.(id);
      return text === undefined ? undefined : { id, text };
    };
  }

  /** Reads a document where its text is new, and resolves it anew only where panels that it names are. */
  function newest(entry: Entry): Parsed {
    const around = panels.index();
    const { parsed } = entry;
    if (!parsed) entry.parsed = read(entry);
    else if (entry.around !== around || (entry.held && panels.complete)) {
      const same = entry.held && panels.complete ? undefined : withPanelsAround(parsed.file, around);
      const { file, source, id } = parsed.file;
      entry.parsed = same ? withFile(parsed, same) : parsedOf(entry, resolveFile(source, file, around, id));
    }
    entry.around = around;
    return entry.parsed as Parsed;
  }

  function read(entry: Entry): Parsed {
    const { document, name, previous, id } = entry;
    const includes = includesOf(document.uri);
    const around = panels.index();
    return parsedOf(
      entry,
      openText(document.getText(), name, { ...options(), previous, includes, panels: around, id }),
    );
  }

  function parsedOf(entry: Entry, read: BitmapFile): Parsed {
    const { document, id } = entry;
    // A document outside the workspace defines nothing twice.
    const file = files.inside(id) ? read : { ...read, problems: read.problems.filter((p) => !p.related) };
    entry.previous = file;
    entry.held = !panels.complete && file.problems.some(isUnknown);
    const held = entry.held;
    let findings: readonly Finding[] | undefined;
    return {
      uri: document.uri,
      version: document.version,
      serial: String(++serial),
      document,
      file,
      get findings() {
        findings ??= held ? checkFile(file).filter((finding) => !isUnknown(finding)) : checkFile(file);
        return findings;
      },
    };
  }
}

/** The same reading, whose findings stay as they are. */
function withFile(parsed: Parsed, file: BitmapFile): Parsed {
  const { uri, version, serial, document } = parsed;
  return {
    uri,
    version,
    serial,
    document,
    file,
    get findings() {
      return parsed.findings;
    },
  };
}

function isUnknown({ code }: { readonly code: string }): boolean {
  return code === "unknown-panel";
}
