/** The workspace's stored files, for what documents include: which may be read, by whom, and when they change. */
import type { Connection, InitializeParams } from "vscode-languageserver/node";
import { DidChangeWatchedFilesNotification } from "vscode-languageserver/node";
import type { StoredFile } from "../shared/protocol/lsp.ts";
import { READ_FILE } from "../shared/protocol/lsp.ts";
import type { Unopened } from "./unopened.ts";
import { createUnopened, isBelow } from "./unopened.ts";

/** What documents include: headers, and sources and data that are included like them. */
const WATCHED = "**/*.{c,cc,cpp,cxx,h,hh,hpp,hxx,inc,ino,pde,xbm}";

export interface Files extends Unopened {
  /** Asks the client to tell of changes, once it is initialized. */
  start(): Promise<void>;
}

interface Given {
  /** The client reads files itself: they may lie where the server does not reach. */
  readonly own: boolean;
  readonly readFile: (uri: string) => Promise<string | undefined>;
  readonly arrived: (uri: string) => void;
}

/** Reads nothing outside the folders that the client has open. */
export function watchFiles(connection: Connection, params: InitializeParams, { own, readFile, arrived }: Given): Files {
  const { workspaceFolders, capabilities } = params;
  // The older way to name the one folder, for clients that know no others.
  const root = params.rootUri;
  let folders = workspaceFolders?.map((folder) => folder.uri) ?? (root ? [root] : []);
  const fetch = async (uri: string): Promise<string | undefined> => {
    if (!isBelow(folders, uri)) return undefined;
    if (!own) return readFile(uri);
    const stored = await connection.sendRequest<StoredFile | null>(READ_FILE, { uri });
    return stored?.text;
  };
  const unopened = createUnopened(fetch, arrived);
  connection.onDidChangeWatchedFiles(({ changes }) => {
    for (const { uri } of changes) unopened.changed(uri);
  });
  return {
    ...unopened,
    async start() {
      if (capabilities.workspace?.didChangeWatchedFiles?.dynamicRegistration) {
        const watchers = [{ globPattern: WATCHED }];
        await connection.client.register(DidChangeWatchedFilesNotification.type, { watchers });
      }
      if (!capabilities.workspace?.workspaceFolders) return;
      connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
        const gone = new Set(removed.map((folder) => folder.uri));
        folders = [...folders.filter((uri) => !gone.has(uri)), ...added.map((folder) => folder.uri)];
      });
    },
  };
}
