/** The one wrapper around every handler: a feature that fails is logged and answered, and never ends the server. */
import type { CancellationToken, RemoteConsole } from "vscode-languageserver/node";
import { LSPErrorCodes, ResponseError } from "vscode-languageserver/node";
import type { LspMethod, LspReply } from "../../shared/protocol/lsp.ts";

type Log = Pick<RemoteConsole, "error">;

/** Answers `otherwise` where the feature throws, and an error of the protocol where the request was cancelled. */
export function answering<P, R>(log: Log, name: string, otherwise: R, feature: (params: P) => R) {
  return (params: P, token: CancellationToken): R => {
    refuseCancelled(token);
    return guarded(log, name, otherwise, () => feature(params));
  };
}

/** A client that sends its parameters as a list may leave no place for the token. */
function refuseCancelled(token: CancellationToken | undefined): void {
  if (token?.isCancellationRequested)
    throw new ResponseError(LSPErrorCodes.RequestCancelled, "The request was cancelled.");
}

/** Runs what a notification or a timer asks for. */
export function guarded<R>(log: Log, name: string, otherwise: R, work: () => R): R {
  try {
    return work();
  } catch (error) {
    log.error(`${name}: ${wordsOf(error)}`);
    return otherwise;
  }
}

/** A request of ours is always answered with a reply, also where its handler throws. */
export function replying<M extends LspMethod, P>(
  log: Log,
  method: M,
  handler: (params: P) => LspReply<M> | Promise<LspReply<M>>,
) {
  return async (params: P, token: CancellationToken): Promise<LspReply<M>> => {
    refuseCancelled(token);
    try {
      return await handler(params);
    } catch (error) {
      log.error(`${method}: ${wordsOf(error)}`);
      return { err: error instanceof Error ? error.message : String(error) };
    }
  };
}

function wordsOf(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
