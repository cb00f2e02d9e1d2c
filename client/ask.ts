/** Dotwright's own requests to the language server, typed by their map. */
import type { CancellationToken } from "vscode";
import type { LanguageClient } from "vscode-languageclient/node";
import type { LspMethod, LspParams, LspReply, LspResult } from "../shared/protocol/lsp.ts";

/** Rejects with the server's words where it refuses. */
export type Ask = <M extends LspMethod>(
  method: M,
  params: LspParams<M>,
  token?: CancellationToken,
) => Promise<LspResult<M>>;

export function asking(starting: Promise<LanguageClient>): Ask {
  return async <M extends LspMethod>(method: M, params: LspParams<M>, token?: CancellationToken) => {
    const client = await starting;
    // A missing token must not be passed on: it would be sent as a second parameter.
    const reply = await (token
      ? client.sendRequest<LspReply<M>>(method, params, token)
      : client.sendRequest<LspReply<M>>(method, params));
    if ("err" in reply) throw new Error(reply.err);
    return reply.ok;
  };
}
