/** "Check Workspace": looks at all files now, tells how far it is, and can be called off. */
import { commands, l10n, ProgressLocation, window } from "vscode";
import type { LanguageClient } from "vscode-languageclient/node";
import type { CheckedWorkspace } from "../shared/protocol/lsp.ts";
import { CHECK_WORKSPACE } from "../shared/protocol/lsp.ts";
import { withWorkDone } from "./workDone.ts";

export async function checkWorkspace(client: LanguageClient): Promise<void> {
  const options = {
    location: ProgressLocation.Notification,
    title: l10n.t("Dotwright checks the workspace"),
    cancellable: true,
  };
  const found = await window.withProgress(options, (progress, token) =>
    withWorkDone(client, progress, token, (workDoneToken) =>
      client.sendRequest<CheckedWorkspace>(CHECK_WORKSPACE, { workDoneToken }, token),
    ),
  );
  if (found) await tell(found);
}

async function tell({ files, error, warning, information }: CheckedWorkspace): Promise<void> {
  if (files === 0) {
    await window.showInformationMessage(l10n.t("No file of the workspace holds an annotation or an X bitmap."));
    return;
  }
  const show = l10n.t("Show Problems");
  const words = l10n.t(
    "Files with annotations or X bitmaps: {0}. Errors: {1}, warnings: {2}, notes: {3}.",
    files,
    error,
    warning,
    information,
  );
  const any = error + warning + information > 0;
  const chosen = await window.showInformationMessage(words, ...(any ? [show] : []));
  if (chosen === show) await commands.executeCommand("workbench.actions.view.problems");
}
