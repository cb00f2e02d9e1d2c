/** Documents and the files around them: what is stored, which panels there are, and what is found in files that are not open. */
import type { Connection, InitializeParams } from "vscode-languageserver/node";
import { createDocuments } from "./documents.ts";
import type { Timer } from "./features/push.ts";
import type { ClientSettings } from "./features/settings.ts";
import type { StoredFiles } from "./files.ts";
import { watchFiles } from "./files.ts";
import { createPanels } from "./panels.ts";
import { createStoredIndex } from "./storedIndex.ts";
import type { Around } from "./storedReader.ts";
import { canonical } from "./uris.ts";
import { withProgress } from "./work.ts";
import type { Workspace } from "./workspace.ts";
import type { Checked } from "./workspaceCheck.ts";
import { createWorkspaceCheck } from "./workspaceCheck.ts";
import { serveWorkspaceDiagnostics } from "./workspaceDiagnostics.ts";

export interface Surroundings extends Around {
  readonly settings: ClientSettings;
  /** Begins to look through the stored files. */
  start(): Promise<void>;
  /** A document was opened or changed: files that are not open may mean something else. */
  opened(uri: string): void;
  changed(uri: string): void;
  /** From now on what is stored holds. */
  closed(uri: string): void;
  /** All files mean something else, or other findings are wanted. */
  forget(): void;
  /** What was found in a stored file, where that is to be told. */
  foundIn(uri: string): Promise<Checked | undefined>;
}

interface Given {
  readonly connection: Connection;
  readonly params: InitializeParams;
  readonly timer: Timer;
  readonly stored: StoredFiles;
  readonly workspace: Workspace;
  readonly settings: ClientSettings;
  /** The client asks for diagnostics. */
  readonly pull: boolean;
  /** These documents mean something else although nobody typed in them. */
  readonly reread: (uris: readonly string[]) => void;
  /** A file, or without one any of them, may hold other bitmaps now. */
  readonly touched: (uri?: string) => void;
}

export function createSurroundings(given: Given): Surroundings {
  const { connection, params, timer, workspace, settings, pull, reread } = given;
  const files = watchFiles(connection, params, {
    ...given.stored,
    arrived(uri) {
      reread(documents.arrived(uri));
      touched(uri);
    },
    changed(uri) {
      touched(uri);
      void stored.changed(uri).then(() => given.touched(uri));
    },
    deleted(uri) {
      touched(uri);
      stored.deleted(uri);
      given.touched();
    },
    moved: () => look(),
  });
  const panels = createPanels();
  const documents = createDocuments(workspace.openOptions, { unopened: files.text, panels, files });
  const stored = createStoredIndex({
    files,
    panels,
    isOpen: documents.isOpen,
    changed() {
      reread(documents.panelsChanged());
      whole.changed();
      given.touched();
    },
  });
  let begin = () => {};
  let looking = new Promise<void>((resolve) => {
    begin = resolve;
  });
  const look = () => {
    begin();
    looking = withProgress(connection, timer, "Looking for panels", stored.fill).catch((error: unknown) =>
      connection.console.error(`Looking for panels: ${error}`),
    );
  };
  /** Resolves when no file has yet to be looked through: a later look takes the place of the one before. */
  const looked = async () => {
    for (let last: unknown; last !== looking; ) {
      last = looking;
      await looking;
    }
  };
  const around = { documents, files, stored, panels, options: workspace.openOptions, settings };
  const check = createWorkspaceCheck({ ...around, log: connection.console });
  const lookAgain = async () => {
    await looked();
    look();
    await looked();
  };
  const wanted = workspace.checks;
  const whole = serveWorkspaceDiagnostics({ connection, timer, check, pull, wanted, looked, lookAgain });
  const touched = (id: string) => {
    if (check.changed(id)) whole.changed();
  };
  return {
    ...around,
    async start() {
      await files.start();
      look();
    },
    opened(uri) {
      touched(canonical(uri));
      given.touched(uri);
      whole.opened(uri);
    },
    changed(uri) {
      touched(canonical(uri));
      given.touched(uri);
    },
    closed(uri) {
      const id = canonical(uri);
      files.changed(id);
      touched(id);
      void stored.changed(id).then(() => given.touched(uri));
    },
    forget() {
      check.forget();
      whole.changed();
      given.touched();
    },
    foundIn: whole.of,
  };
}
