/** The workspace's stored files: which may be read, by whom, and when they change. */
import type { Connection, InitializeParams } from "vscode-languageserver/node";
import { DidChangeWatchedFilesNotification, FileChangeType, WatchKind } from "vscode-languageserver/node";
import { isWorthReading } from "../shared/checks/worth.ts";
import type { FoundFiles, StoredFile } from "../shared/protocol/lsp.ts";
import { FIND_FILES, READ_FILE } from "../shared/protocol/lsp.ts";
import type { Unopened } from "./unopened.ts";
import { createUnopened } from "./unopened.ts";
import { canonical, isBelow, shownName } from "./uris.ts";

/** Sources, what they include, and data that is included like sources. */
const WATCHED = "**/*.{c,cc,cpp,cxx,h,hh,hpp,hxx,inc,ino,ipp,pde,xbm}";
/** A folder that is deleted tells nothing of the files in it. */
const DELETED = "**/*";

/** Most source files that are looked through: workspaces with more hold other people's sources. */
const MOST_FILES = 20_000;

export interface Files extends Unopened {
  /** Asks the client to tell of changes, once it is initialized. */
  start(): Promise<void>;
  /** The source files of the workspace. */
  list(): Promise<string[]>;
  /** The text of a file; undefined where there is none. */
  read(uri: string): Promise<string | undefined>;
  /** The text of a file that holds annotations or X bitmaps; undefined for others, and where there is none. */
  worthReading(uri: string): Promise<string | undefined>;
  /** A file as people know it. */
  shown(uri: string): string;
  /** Whether it lies in a folder of the workspace. */
  inside(uri: string): boolean;
}

/** Who reads stored files. */
export interface StoredFiles {
  /** The client reads files itself: they may lie where the server does not reach. */
  readonly own: boolean;
  readonly readFile: (uri: string) => Promise<string | undefined>;
  /** URIs of the source files below a folder, at most so many. */
  readonly listFiles: (folder: string, most: number) => Promise<string[]>;
}

interface Given extends StoredFiles {
  /** A file that documents include has another text. */
  readonly arrived: (uri: string) => void;
  readonly changed: (uri: string) => void;
  readonly deleted: (uri: string) => void;
  /** Other folders are open than before. */
  readonly moved: () => void;
}

/** Reads nothing outside the folders that the client has open. */
export function watchFiles(connection: Connection, params: InitializeParams, given: Given): Files {
  const { own, readFile, listFiles } = given;
  const { workspaceFolders, capabilities } = params;
  // The older way to name the one folder, for clients that know no others.
  const root = params.rootUri;
  let folders = (workspaceFolders?.map((folder) => folder.uri) ?? (root ? [root] : [])).map(canonical);
  const fetch = async (uri: string, worth = false): Promise<string | undefined> => {
    if (!isBelow(folders, uri)) return undefined;
    if (!own) return readFile(uri);
    const stored = await connection.sendRequest<StoredFile | null>(READ_FILE, { uri, ...(worth ? { worth } : {}) });
    return stored?.text;
  };
  const find = async (): Promise<readonly string[]> => {
    if (folders.length === 0) return [];
    if (own) return (await connection.sendRequest<FoundFiles>(FIND_FILES, { most: MOST_FILES })).uris;
    return (await Promise.all(folders.map((folder) => listFiles(folder, MOST_FILES)))).flat();
  };
  const unopened = createUnopened((uri) => fetch(uri), given.arrived);
  connection.onDidChangeWatchedFiles(({ changes }) => {
    for (const { uri: spelt, type } of changes) {
      const uri = canonical(spelt);
      unopened.changed(uri);
      if (type === FileChangeType.Deleted) given.deleted(uri);
      else given.changed(uri);
    }
  });
  return {
    ...unopened,
    async start() {
      if (capabilities.workspace?.didChangeWatchedFiles?.dynamicRegistration) {
        const watchers = [{ globPattern: WATCHED }, { globPattern: DELETED, kind: WatchKind.Delete }];
        await connection.client.register(DidChangeWatchedFilesNotification.type, { watchers });
      }
      if (!capabilities.workspace?.workspaceFolders) return;
      connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
        const gone = new Set(removed.map((folder) => canonical(folder.uri)));
        folders = [...folders.filter((uri) => !gone.has(uri)), ...added.map((folder) => canonical(folder.uri))];
        given.moved();
      });
    },
    async list() {
      // A client that does not answer has no files to tell of.
      const found = await find().catch(() => []);
      const below = [...new Set(found.map(canonical))].filter((uri) => isBelow(folders, uri));
      if (below.length > MOST_FILES)
        connection.console.warn(`Only ${MOST_FILES} of ${below.length} source files are looked through for panels.`);
      return below.sort().slice(0, MOST_FILES);
    },
    read: (uri) => fetch(uri),
    async worthReading(uri) {
      const text = await fetch(uri, true);
      return text !== undefined && isWorthReading(text) ? text : undefined;
    },
    shown: (uri) => shownName(uri, folders),
    inside: (uri) => isBelow(folders, uri),
  };
}
