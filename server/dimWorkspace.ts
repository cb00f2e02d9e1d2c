/** `dotwright/dimWorkspace`: what would bring all bitmaps of the workspace within their caps and budgets. */
import type { CancellationToken, Connection, ProgressToken } from "vscode-languageserver/node";
import { LSPErrorCodes, ResponseError } from "vscode-languageserver/node";
import { dimmedIn } from "../shared/checks/dimmed.ts";
import { WAYS } from "../shared/light/dim.ts";
import type { DimmedWorkspace, DimWorkspace } from "../shared/protocol/lsp.ts";
import { DIM_WORKSPACE } from "../shared/protocol/lsp.ts";
import { fingerprintOf } from "../shared/source/text.ts";
import type { Parsed } from "./documents.ts";
import { rangeOf, textEdits } from "./features/place.ts";
import type { Around } from "./storedReader.ts";
import { readStoredFile, worthReading } from "./storedReader.ts";
import { withProgressFor } from "./work.ts";

export function serveDimWorkspace(connection: Connection, around: Around): void {
  const { documents, files } = around;
  const read = async (id: string): Promise<Parsed | undefined> => {
    const open = documents.parsed(id);
    if (open) return open;
    const text = await files.worthReading(id).catch(() => undefined);
    return text === undefined ? undefined : readStoredFile(id, text, around);
  };
  connection.onRequest(
    DIM_WORKSPACE,
    async (
      { way, workDoneToken }: DimWorkspace & { workDoneToken?: ProgressToken },
      token: CancellationToken,
    ): Promise<DimmedWorkspace> => {
      if (!WAYS.includes(way)) throw new ResponseError(LSPErrorCodes.RequestFailed, `${way} is no way to dim`);
      const found: DimmedWorkspace["files"][number][] = [];
      const ids = worthReading(around).sort();
      await withProgressFor(connection, workDoneToken, "Dimming the workspace", async (at) => {
        for (const [i, id] of ids.entries()) {
          at(i, ids.length);
          // Each in a turn of its own: other requests, and the end of this one, come in between.
          await new Promise((next) => setImmediate(next));
          if (token.isCancellationRequested) break;
          const parsed = await read(id);
          const dimmed = parsed ? dimmedIn(parsed.file, way) : [];
          if (!parsed || dimmed.length === 0) continue;
          const { document } = parsed;
          found.push({
            uri: parsed.uri,
            fingerprint: fingerprintOf(document.getText()),
            bitmaps: dimmed.map(({ bitmap: { array }, words, edits }) => ({
              name: array.name,
              line: rangeOf(document, array.nameSpan).start.line,
              words,
              edits: textEdits(document, edits),
            })),
          });
        }
      });
      if (token.isCancellationRequested)
        throw new ResponseError(LSPErrorCodes.RequestCancelled, "The request was cancelled.");
      return { files: found };
    },
  );
}
