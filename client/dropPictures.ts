/** Pictures dropped on the source, or pasted into it: the page of an import opens, and nothing is written before. */
import type { DataTransfer, DataTransferFile, DocumentDropEditProvider, DocumentPasteEditProvider } from "vscode";
import {
  Disposable,
  DocumentDropEdit,
  DocumentDropOrPasteEditKind,
  DocumentPasteEdit,
  l10n,
  languages,
  Uri,
} from "vscode";
import type { Import, Wanted } from "./importPicture.ts";
import { PICTURE, wantedAt } from "./importPicture.ts";
import { SOURCES } from "./sources.ts";

const KIND = DocumentDropOrPasteEditKind.Empty.append("dotwright", "picture");
const TYPES = ["image/*", "text/uri-list", "files"];

export function registerDrops(start: Import): Disposable {
  const title = () => l10n.t("Import the picture…");
  const drops: DocumentDropEditProvider = {
    provideDocumentDropEdits: async (document, position, transfer) => {
      const files = await picturesIn(transfer);
      if (files.length === 0) return undefined;
      // An edit that is dropped is not resolved (as of VS Code 1.100), so nothing else tells that it was taken. It is not
      // waited for: the drop itself is over.
      void start(document, { position }, files);
      return new DocumentDropEdit("", title(), KIND);
    },
  };
  const taken = new WeakMap<DocumentPasteEdit, () => Promise<void>>();
  const pastes: DocumentPasteEditProvider = {
    provideDocumentPasteEdits: async (document, [range, ...more], transfer) => {
      // The edit's one text would go into each of several selections.
      if (!range || more.length > 0) return undefined;
      const files = await picturesIn(transfer);
      if (files.length === 0) return undefined;
      // What is selected stays.
      const edit = new DocumentPasteEdit(document.getText(range), title(), KIND);
      // Much that is copied as text comes with a picture of itself, also from the paint editor.
      if (transfer.get("text/plain")) edit.yieldTo = [DocumentDropOrPasteEditKind.Text];
      taken.set(edit, () => start(document, { position: range.start }, files));
      return [edit];
    },
    resolveDocumentPasteEdit: (edit) => {
      void taken.get(edit)?.();
      return edit;
    },
  };
  return Disposable.from(
    languages.registerDocumentDropEditProvider(SOURCES, drops, { providedDropEditKinds: [KIND], dropMimeTypes: TYPES }),
    languages.registerDocumentPasteEditProvider(SOURCES, pastes, {
      providedPasteEditKinds: [KIND],
      pasteMimeTypes: TYPES,
    }),
  );
}

/** Pictures among what is dropped: their bytes, or where the files lie. All that the transfer holds is taken out at once, as it is gone afterwards. */
async function picturesIn(transfer: DataTransfer): Promise<Wanted[]> {
  const uris = transfer.get("text/uri-list");
  const files: DataTransferFile[] = [];
  transfer.forEach((item, type) => {
    const file = item.asFile();
    if (file && (PICTURE.test(file.name) || type === "image/png")) files.push(file);
  });
  const list = uris ? await uris.asString() : "";
  const named = list
    .split(/\r?\n/)
    .filter((line) => line !== "" && !line.startsWith("#"))
    .flatMap((line) => uriOf(line) ?? []);
  // Among other files a picture is but a file.
  if (named.length > 0) return named.every(({ path }) => PICTURE.test(path)) ? named.map(wantedAt) : [];
  return Promise.all(
    files.map(async (file) => {
      const bytes = await file.data();
      return { name: file.name === "" ? "picture.png" : file.name, bytes: () => Promise.resolve(bytes) };
    }),
  );
}

function uriOf(line: string): Uri | undefined {
  try {
    return Uri.parse(line, true);
  } catch {
    return undefined;
  }
}
