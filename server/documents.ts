/**
 * The documents that the editor has open. Each version is read once, when a feature first asks for it, and checked
 * once; all features share what was read.
 */

import type { TextDocumentContentChangeEvent, TextDocumentItem } from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import { openText } from "../shared/bitmap/open.ts";
import type { BitmapFile } from "../shared/bitmap/resolve.ts";
import { checkFile } from "../shared/checks/all.ts";
import type { Finding } from "../shared/checks/rules.ts";
import type { Includes } from "../shared/source/read.ts";
import { SOURCE } from "./sources.ts";
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
  /** Each of these returns the other documents that mean something else now, since they include this one. */
  open(item: TextDocumentItem): string[];
  change(uri: string, version: number, changes: TextDocumentContentChangeEvent[]): string[];
  close(uri: string): string[];
  /** A file that is not open has another text. */
  arrived(uri: string): string[];
  /** The newest version; undefined for a document that is not open or not C or C++. */
  parsed(uri: string): Parsed | undefined;
  /** The documents that are open and are C or C++. */
  uris(): string[];
  /** Reads all documents anew, for other options. */
  invalidate(): void;
}

const LANGUAGES = new Set(["c", "cpp", "arduino"]);

interface Entry {
  readonly name: string;
  document: TextDocument;
  parsed: Parsed | undefined;
  /** The last version that was read; its unchanged arrays are taken over. */
  previous: BitmapFile | undefined;
}

/** Keeps open documents. `options` says for which target they are read, `unopened` gives files that are not open. */
export function createDocuments(options: () => OpenOptions, unopened?: (uri: string) => string | undefined): Documents {
  const entries = new Map<string, Entry>();
  let serial = 0;
  return {
    open({ uri, languageId, version, text }) {
      const name = fileName(uri);
      if (!LANGUAGES.has(languageId) && !SOURCE.test(name)) return [];
      const document = TextDocument.create(uri, languageId, version, text);
      entries.set(uri, { name, document, parsed: undefined, previous: undefined });
      return rereadOthers(uri);
    },
    change(uri, version, changes) {
      const entry = entries.get(uri);
      if (!entry) return [];
      entry.parsed = undefined;
      entry.document = TextDocument.update(entry.document, changes, version);
      return rereadOthers(uri);
    },
    close(uri) {
      entries.delete(uri);
      return rereadOthers(uri);
    },
    arrived: (uri) => (entries.has(uri) ? [] : rereadOthers(uri)),
    parsed(uri) {
      const entry = entries.get(uri);
      if (!entry) return undefined;
      entry.parsed ??= read(entry);
      return entry.parsed;
    },
    uris: () => [...entries.keys()],
    invalidate() {
      for (const entry of entries.values()) entry.parsed = undefined;
    },
  };

  /** Documents that include another are read anew when it changes; their own arrays are taken over. */
  function rereadOthers(changed: string): string[] {
    const name = fileName(changed);
    const others: string[] = [];
    for (const [uri, entry] of entries) {
      const { parsed } = entry;
      if (uri === changed || !parsed) continue;
      if (!parsed.file.source.included.has(changed) && !parsed.document.getText().includes(`${name}"`)) continue;
      entry.parsed = undefined;
      others.push(uri);
    }
    return others;
  }

  /** What a document includes: as it is in the editor, else as it is stored. */
  function includesOf(document: TextDocument): Includes {
    return (name, from) => {
      const id = resolveUri(name, from === "" ? document.uri : from);
      if (id === undefined || id === document.uri) return undefined;
      const text = entries.get(id)?.document.getText() ?? unopened?.(id);
      return text === undefined ? undefined : { id, text };
    };
  }

  function read(entry: Entry): Parsed {
    const { document, name, previous } = entry;
    const file = openText(document.getText(), name, { ...options(), previous, includes: includesOf(document) });
    entry.previous = file;
    let findings: readonly Finding[] | undefined;
    return {
      uri: document.uri,
      version: document.version,
      serial: String(++serial),
      document,
      file,
      get findings() {
        findings ??= checkFile(file);
        return findings;
      },
    };
  }
}

function resolveUri(name: string, base: string): string | undefined {
  try {
    return new URL(name.split("/").map(encodeURIComponent).join("/"), base).href;
  } catch {
    // Such as `untitled:`, beside which there is nothing.
    return undefined;
  }
}

/** The last part of a URI's path, decoded. */
function fileName(uri: string): string {
  const last =
    uri
      .replace(/[?#].*$/s, "")
      .split("/")
      .pop() ?? uri;
  try {
    return decodeURIComponent(last);
  } catch {
    return last;
  }
}
