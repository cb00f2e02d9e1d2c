/** `Import Picture…`: which files, and into which document; what becomes of them is chosen on a page (`importView`). */
import type { Memento, Position, TextDocument, Uri } from "vscode";
import { l10n, languages, TabInputCustom, TabInputText, window, workspace } from "vscode";
import type { PictureFile } from "../shared/protocol/importing.ts";
import type { Ask } from "./ask.ts";
import type { Into } from "./importView.ts";
import { openImportView } from "./importView.ts";
import { isReadOnly } from "./readOnly.ts";
import { SOURCES } from "./sources.ts";

/** The bytes of larger files are not sent to the server: 64 MiB. */
const MOST = 1 << 26;

/** File names that pictures and fonts end with. */
export const PICTURE = /\.(?:png|pbm|pgm|ppm|pnm|pam|xbm|bdf|psfu?(?:\.gz)?|bdf\.gz)$/i;

/** A file before its bytes are read. */
export interface Wanted {
  readonly name: string;
  bytes(): Promise<Uint8Array>;
}

/** Opens the page for some files; says in words why it can't. */
export type Import = (document: TextDocument, into: Into, files: readonly Wanted[]) => Promise<void>;

interface Given {
  readonly ask: Ask;
  readonly log: (error: unknown) => void;
  readonly dist: Uri;
  readonly state: Memento;
}

export function importing(given: Given): Import {
  return async (document, into, files) => {
    try {
      if (await isReadOnly(document)) {
        void window.showInformationMessage(l10n.t("This file can only be read, so no picture can be put into it."));
        return;
      }
      const read: PictureFile[] = [];
      for (const file of files) {
        const bytes = await file.bytes();
        if (bytes.length > MOST)
          throw new Error(l10n.t("{0} is too large to be imported here; the command does it.", file.name));
        read.push({ name: file.name, data: Buffer.from(bytes).toString("base64") });
      }
      if (read.length > 0) await openImportView(given, document, into, read);
    } catch (error) {
      void window.showErrorMessage(error instanceof Error ? error.message : String(error));
    }
  };
}

/** The command: asks for files, for the document at hand. */
export function importCommand(start: Import): () => Promise<void> {
  return async () => {
    const at = await documentAtHand();
    if (!at) {
      void window.showInformationMessage(l10n.t("Open the C or C++ file that the picture is to go into first."));
      return;
    }
    const filters = {
      [l10n.t("Pictures and fonts")]: ["png", "pbm", "pgm", "ppm", "pnm", "pam", "xbm", "bdf", "psf", "psfu", "gz"],
      [l10n.t("All files")]: ["*"],
    };
    const uris = await window.showOpenDialog({
      canSelectMany: true,
      filters,
      openLabel: l10n.t("Import"),
      title: l10n.t("Import Picture"),
    });
    if (uris) await start(at.document, { position: at.position }, uris.map(wantedAt));
  };
}

/** A file of the workspace or of this machine. */
export function wantedAt(uri: Uri): Wanted {
  return {
    name: uri.path.replace(/^.*\//, ""),
    bytes: async () => {
      const { size } = await workspace.fs.stat(uri);
      // Not read at all where it is refused.
      return size > MOST ? new Uint8Array(MOST + 1) : workspace.fs.readFile(uri);
    },
  };
}

/** The document of the text editor in front, or of the paint editor. */
async function documentAtHand(): Promise<{ readonly document: TextDocument; readonly position: Position } | undefined> {
  const { input } = window.tabGroups.activeTabGroup.activeTab ?? {};
  const uri = input instanceof TabInputText || input instanceof TabInputCustom ? input.uri : undefined;
  const document = window.activeTextEditor?.document ?? (uri && (await workspace.openTextDocument(uri)));
  if (!document || languages.match(SOURCES, document) === 0) return undefined;
  const editor = window.visibleTextEditors.find((e) => e.document === document);
  return { document, position: editor?.selection.active ?? document.lineAt(document.lineCount - 1).range.end };
}
