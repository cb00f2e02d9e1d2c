/** A request whose progress the server tells. */
import type { CancellationToken, Progress } from "vscode";
import type { LanguageClient } from "vscode-languageclient/node";
import { WorkDoneProgress } from "vscode-languageclient/node";

let tokens = 0;

/** `ask` is given the token to send along; undefined where the user calls it off. */
export async function withWorkDone<R>(
  client: LanguageClient,
  progress: Progress<{ message?: string; increment?: number }>,
  token: CancellationToken,
  ask: (workDoneToken: string) => Promise<R>,
): Promise<R | undefined> {
  const workDoneToken = `dotwright work ${++tokens}`;
  let reached = 0;
  const listening = client.onProgress(WorkDoneProgress.type, workDoneToken, (value) => {
    if (value.kind !== "report") return;
    const { percentage = reached, message } = value;
    progress.report({ increment: percentage - reached, ...(message === undefined ? {} : { message }) });
    reached = percentage;
  });
  try {
    return await ask(workDoneToken);
  } catch (error) {
    if (token.isCancellationRequested) return undefined;
    throw error;
  } finally {
    listening.dispose();
  }
}
