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

export function asking(client: LanguageClient): Ask {
  return async <M extends LspMethod>(method: M, params: LspParams<M>, token?: CancellationToken) => {
    const reply = await client.sendRequest<LspReply<M>>(method, params, token);
    if ("err" in reply) throw new Error(reply.err);
    return reply.ok;
  };
}
