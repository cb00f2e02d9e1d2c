/** Which bitmap a command is about: the one it was given, the one that the paint editor shows, else the one at the text cursor. */
import type { TextDocument } from "vscode";
import { l10n, QuickPickItemKind, Uri, window, workspace } from "vscode";
import type { BitmapInfo } from "../shared/protocol/lsp.ts";
import type { Ask } from "./ask.ts";
import { rangeOf } from "./ranges.ts";
import type { Identity } from "./shown.ts";

/** What the paint editor of a document shows. */
export type ShownIn = (uri: Uri) => { readonly identity: Identity; readonly frame: number } | undefined;

export interface Which {
  readonly document: TextDocument;
  readonly bitmap: BitmapInfo;
  /** The frame at hand, where the paint editor shows it. */
  readonly frame: number | undefined;
}

/** The document that a command is about; undefined, with words about it, where there is none. */
export async function documentFor(resource: unknown): Promise<TextDocument | undefined> {
  const uri = uriFrom(resource) ?? window.activeTextEditor?.document.uri ?? uriOfTab();
  if (uri) return workspace.openTextDocument(uri);
  void window.showInformationMessage(l10n.t("Open a source file with a bitmap in it first."));
  return undefined;
}

/** Asks where several bitmaps could be meant. undefined where there is none, or the user left. */
export async function whichBitmap(
  ask: Ask,
  shownIn: ShownIn,
  resource: unknown,
  given: unknown,
): Promise<Which | undefined> {
  const document = await documentFor(resource);
  if (!document) return undefined;
  const { bitmaps } = await ask("dotwright/bitmaps", { uri: document.uri.toString() });
  const drawn = bitmaps.filter((b) => b.why === undefined);
  if (drawn.length === 0) {
    void window.showInformationMessage(l10n.t("This file holds no bitmap with a picture."));
    return undefined;
  }
  const shown = shownIn(document.uri);
  const wanted = isIdentity(given) ? given : isPainting(document.uri) ? shown?.identity : undefined;
  const bitmap = wanted
    ? drawn.find((b) => isNamed(b, wanted))
    : (atCursor(document, drawn) ?? (await askWhich(drawn)));
  return bitmap && { document, bitmap, frame: shown && isNamed(bitmap, shown.identity) ? shown.frame : undefined };
}

function isNamed({ identity }: BitmapInfo, { name, ordinal }: Identity): boolean {
  return identity.name === name && identity.ordinal === ordinal;
}

/** The paint editor is the editor at hand. */
function isPainting(uri: Uri): boolean {
  return window.activeTextEditor === undefined && uriOfTab()?.toString() === uri.toString();
}

function uriOfTab(): Uri | undefined {
  const input = window.tabGroups.activeTabGroup.activeTab?.input;
  return typeof input === "object" && input !== null && "uri" in input && input.uri instanceof Uri
    ? input.uri
    : undefined;
}

/** The bitmap whose declaration holds the text cursor; the only one where there is one only. */
function atCursor(document: TextDocument, bitmaps: readonly BitmapInfo[]): BitmapInfo | undefined {
  const cursor = window.visibleTextEditors.find((e) => e.document === document)?.selection.active;
  if (bitmaps.length === 1) return bitmaps[0];
  return cursor && bitmaps.find((b) => rangeOf(b.declaration).contains(cursor));
}

async function askWhich(bitmaps: readonly BitmapInfo[]): Promise<BitmapInfo | undefined> {
  const items = bitmaps.map((bitmap) => ({
    label: bitmap.name,
    description: `${bitmap.width}×${bitmap.height} ${bitmap.format}`,
    kind: QuickPickItemKind.Default,
    bitmap,
  }));
  const chosen = await window.showQuickPick(items, { placeHolder: l10n.t("Bitmap of this file") });
  return chosen?.bitmap;
}

export function uriFrom(resource: unknown): Uri | undefined {
  if (resource instanceof Uri) return resource;
  // What version control lists.
  if (typeof resource === "object" && resource !== null && "resourceUri" in resource)
    return uriFrom(resource.resourceUri);
  return typeof resource === "string" ? Uri.parse(resource, true) : undefined;
}

export function isIdentity(given: unknown): given is Identity {
  return typeof given === "object" && given !== null && "name" in given && "structure" in given;
}
