/** `dotwright/dimWorkspace`: what would bring all bitmaps of the workspace within their caps and budgets. */
import type { CancellationToken, Connection, ProgressToken } from "vscode-languageserver/node";
import { LSPErrorCodes, ResponseError } from "vscode-languageserver/node";
import { dimmedIn } from "../shared/checks/dimmed.ts";
import { WAYS } from "../shared/light/dim.ts";
import type { DimmedWorkspace, DimWorkspace } from "../shared/protocol/lsp.ts";
import { DIM_WORKSPACE } from "../shared/protocol/lsp.ts";
import { fingerprintOf } from "../shared/source/text.ts";
import type { Documents, Parsed } from "./documents.ts";
import { rangeOf, textEdits } from "./features/place.ts";
import type { Files } from "./files.ts";
import type { Panels } from "./panels.ts";
import type { StoredIndex } from "./storedIndex.ts";
import { readStoredFile } from "./storedReader.ts";
import { canonical } from "./uris.ts";
import { withProgressFor } from "./work.ts";
import type { OpenOptions } from "./workspace.ts";

interface Around {
  readonly documents: Documents;
  readonly files: Files;
  readonly stored: StoredIndex;
  readonly panels: Panels;
  readonly options: () => OpenOptions;
}

export function serveDimWorkspace(connection: Connection, { documents, files, stored, panels, options }: Around): void {
  const read = async (id: string): Promise<Parsed | undefined> => {
    const open = documents.parsed(id);
    if (open) return open;
    const text = await files.worthReading(id).catch(() => undefined);
    return text === undefined ? undefined : readStoredFile(id, text, { documents, unopened: files, panels, options });
  };
  connection.onRequest(
    DIM_WORKSPACE,
    async (
      { way, workDoneToken }: DimWorkspace & { workDoneToken?: ProgressToken },
      token: CancellationToken,
    ): Promise<DimmedWorkspace> => {
      if (!WAYS.includes(way)) throw new ResponseError(LSPErrorCodes.RequestFailed, `${way} is no way to dim`);
      const found: DimmedWorkspace["files"][number][] = [];
      const ids = [
        ...new Set([...stored.worth.keys(), ...documents.uris().map(canonical).filter(files.inside)]),
      ].sort();
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
