/** "Dim Workspace…": brings all bitmaps within cap and budget; each change is shown before it is made. */
import { l10n, ProgressLocation, type TextDocument, Uri, WorkspaceEdit, window, workspace } from "vscode";
import type { LanguageClient } from "vscode-languageclient/node";
import type { DimmedWorkspace, DimWorkspace } from "../shared/protocol/lsp.ts";
import { DIM_WORKSPACE } from "../shared/protocol/lsp.ts";
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
  const { edit, passed } = await editOf(found);
  if (passed.length > 0)
    void window.showWarningMessage(l10n.t("Left as they are, since they changed meanwhile: {0}", passed.join(", ")));
  if (edit.size === 0 || !(await workspace.applyEdit(edit, { isRefactoring: true }))) return;
  if (left.length > 0)
    void window.showInformationMessage(
      l10n.t("Left as they are: {0}", left.map(({ name, words }) => `${name} (${words})`).join(", ")),
    );
}

/** All edits, each to be confirmed; and the files that are not those that the server read. */
async function editOf({ files }: DimmedWorkspace): Promise<{ edit: WorkspaceEdit; passed: string[] }> {
  const edit = new WorkspaceEdit();
  const passed: string[] = [];
  for (const { uri, length, bitmaps } of files) {
    if (bitmaps.every(({ edits }) => edits.length === 0)) continue;
    const document: TextDocument = await workspace.openTextDocument(Uri.parse(uri, true));
    if (document.getText().length !== length || !(await mayLoseBytes(document))) {
      passed.push(workspace.asRelativePath(document.uri));
      continue;
    }
    for (const { name, words, edits } of bitmaps)
      for (const { range, newText } of edits)
        edit.replace(document.uri, rangeOf(range), newText, {
          needsConfirmation: true,
          label: name,
          description: words,
        });
  }
  return { edit, passed };
}
