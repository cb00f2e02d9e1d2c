/** "Dim Workspace…": brings bitmaps within cap and budget, in all files those that the user leaves ticked. */
import { l10n, ProgressLocation, type TextDocument, Uri, WorkspaceEdit, window, workspace } from "vscode";
import type { LanguageClient } from "vscode-languageclient/node";
import type { DimmedWorkspace, DimWorkspace, LspTextEdit } from "../shared/protocol/lsp.ts";
import { DIM_WORKSPACE } from "../shared/protocol/lsp.ts";
import { fingerprintOf } from "../shared/source/text.ts";
import { mayLoseBytes } from "./lostBytes.ts";
import { rangeOf } from "./ranges.ts";
import { withWorkDone } from "./workDone.ts";

export async function dimWorkspace(client: LanguageClient): Promise<void> {
  const ways: readonly { label: string; detail: string; way: DimWorkspace["way"] }[] = [
    { label: l10n.t("Evenly to the eye"), detail: l10n.t("lightness is scaled, so that steps stay even"), way: "even" },
    { label: l10n.t("In proportion"), detail: l10n.t("values are scaled"), way: "linear" },
    { label: l10n.t("Cut off"), detail: l10n.t("what is over the cap becomes the cap"), way: "clamp" },
  ];
  const title = l10n.t("Bring all bitmaps of the workspace within cap and budget");
  const chosen = await window.showQuickPick(ways, { title });
  if (!chosen) return;
  const found = await window.withProgress(
    { location: ProgressLocation.Notification, title, cancellable: true },
    (progress, token) =>
      withWorkDone(client, progress, token, (workDoneToken) =>
        client.sendRequest<DimmedWorkspace>(DIM_WORKSPACE, { way: chosen.way, workDoneToken }, token),
      ),
  );
  if (!found) return;
  const bitmaps = found.files.flatMap((file) => file.bitmaps);
  const left = bitmaps.filter(({ edits }) => edits.length === 0);
  if (left.length === bitmaps.length) {
    const [first] = left;
    const words = first
      ? l10n.t("Nothing can be dimmed. {0}: {1}", first.name, first.words)
      : l10n.t("All bitmaps are within their cap and budget.");
    await window.showInformationMessage(words);
    return;
  }
  const wanted = await window.showQuickPick(
    found.files.flatMap(({ uri, bitmaps: those }) =>
      those
        .filter(({ edits }) => edits.length > 0)
        .map((bitmap) => ({
          label: bitmap.name,
          description: `${workspace.asRelativePath(Uri.parse(uri, true))}:${bitmap.line + 1}`,
          detail: bitmap.words,
          picked: true,
          bitmap,
        })),
    ),
    { title, canPickMany: true, placeHolder: l10n.t("The bitmaps to change") },
  );
  if (!wanted || wanted.length === 0) return;
  const { edit, passed } = await editOf(found, new Set(wanted.map(({ bitmap }) => bitmap)));
  if (passed.length > 0)
    void window.showWarningMessage(l10n.t("Left as they are, since they changed meanwhile: {0}", passed.join(", ")));
  if (edit.size === 0 || !(await workspace.applyEdit(edit))) return;
  if (left.length > 0)
    void window.showInformationMessage(
      l10n.t("Left as they are: {0}", left.map(({ name, words }) => `${name} (${words})`).join(", ")),
    );
}

type DimmedBitmap = DimmedWorkspace["files"][number]["bitmaps"][number];

/** The edits of those bitmaps, and the files that are no longer those that the server read. */
async function editOf(
  { files }: DimmedWorkspace,
  wanted: ReadonlySet<DimmedBitmap>,
): Promise<{ edit: WorkspaceEdit; passed: string[] }> {
  const edit = new WorkspaceEdit();
  const passed: string[] = [];
  const meant: { document: TextDocument; fingerprint: string; edits: readonly LspTextEdit[] }[] = [];
  for (const { uri, fingerprint, bitmaps } of files) {
    const edits = bitmaps.filter((bitmap) => wanted.has(bitmap)).flatMap((bitmap) => bitmap.edits);
    if (edits.length === 0) continue;
    const document = await workspace.openTextDocument(Uri.parse(uri, true));
    if (await mayLoseBytes(document)) meant.push({ document, fingerprint, edits });
    else passed.push(workspace.asRelativePath(document.uri));
  }
  // Nothing is waited for from here on: the texts are edited as they are now.
  for (const { document, fingerprint, edits } of meant)
    if (fingerprintOf(document.getText()) !== fingerprint) passed.push(workspace.asRelativePath(document.uri));
    else for (const { range, newText } of edits) edit.replace(document.uri, rangeOf(range), newText);
  return { edit, passed };
}
