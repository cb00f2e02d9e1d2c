/** Older versions of a document's text: as it is saved, and as it was last committed, asked of the editor's own Git extension. */
import type { Disposable, Event, TextDocument, Uri } from "vscode";
import { extensions, l10n, workspace } from "vscode";

/** A version to compare with. */
export interface Older {
  /** In words, short. */
  readonly name: string;
  /** Rejects with the reason where there is none. */
  text(document: TextDocument): Promise<string>;
  /** Calls back when it has changed. */
  onChange(document: TextDocument, changed: () => void): Disposable | undefined;
}

export const SAVED: Older = {
  get name() {
    return l10n.t("saved");
  },
  text: async ({ uri, isUntitled }) => {
    if (isUntitled) throw new Error(l10n.t("This file has not been saved yet."));
    return decode(await workspace.fs.readFile(uri));
  },
  onChange: (document, changed) =>
    workspace.onDidSaveTextDocument((saved) => {
      if (saved === document) changed();
    }),
};

export const HEAD: Older = {
  name: "HEAD",
  text: async ({ uri }) => {
    const repository = await repositoryOf(uri);
    try {
      return await repository.show("HEAD", uri.fsPath);
    } catch {
      throw new Error(l10n.t("The last commit does not hold this file."));
    }
  },
  onChange: ({ uri }, changed) => {
    let listening: Disposable | undefined;
    let over = false;
    repositoryOf(uri).then(
      ({ state }) => {
        if (!over) listening = state.onDidChange(changed);
      },
      // Without a repository nothing of it changes.
      () => undefined,
    );
    return {
      dispose: () => {
        over = true;
        listening?.dispose();
      },
    };
  },
};

/** What we use of the interface of the editor's extension `vscode.git`, version 1. */
interface Repository {
  show(ref: string, path: string): Promise<string>;
  readonly state: { readonly onDidChange: Event<void> };
}

interface Git {
  getAPI(version: 1): { getRepository(uri: Uri): Repository | null };
}

async function repositoryOf(uri: Uri): Promise<Repository> {
  const extension = extensions.getExtension<Git>("vscode.git");
  if (!extension) throw new Error(l10n.t("This editor has no Git."));
  const git = await extension.activate();
  let repository: Repository | null;
  try {
    repository = git.getAPI(1).getRepository(uri);
  } catch {
    // It says so where Git is switched off by a setting.
    throw new Error(l10n.t("Git is switched off in this editor."));
  }
  if (!repository) throw new Error(l10n.t("This file is in no Git repository that the editor has open."));
  return repository;
}

/** Where bytes are no UTF-8, each is taken as a character: the numbers are the same. */
function decode(bytes: Uint8Array): string {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("latin1").decode(bytes);
  }
}
