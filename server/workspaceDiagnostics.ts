/** The check of the workspace in the protocol: pulled where the client offers that, else sent; and asked for by a command. */
import type {
  CancellationToken,
  Connection,
  ProgressToken,
  WorkspaceDiagnosticReport,
  WorkspaceDocumentDiagnosticReport,
} from "vscode-languageserver/node";
import { DocumentDiagnosticReportKind, LSPErrorCodes, ResponseError } from "vscode-languageserver/node";
import type { CheckedWorkspace } from "../shared/protocol/lsp.ts";
import { CHECK_WORKSPACE } from "../shared/protocol/lsp.ts";
import type { Timer } from "./features/push.ts";
import { canonical } from "./uris.ts";
import { withProgress, withProgressFor } from "./work.ts";
import type { Checked, WorkspaceCheck } from "./workspaceCheck.ts";

export interface WorkspaceDiagnostics {
  /** Something may have changed in files that are not open. */
  changed(): void;
  /** A document was opened: what was sent of the stored file no longer holds. */
  opened(uri: string): void;
  /** What was found in a stored file, where the user wants that to be told. */
  of(uri: string): Promise<Checked | undefined>;
}

interface Given {
  readonly connection: Connection;
  readonly timer: Timer;
  readonly check: WorkspaceCheck;
  readonly pull: boolean;
  /** The user wants stored files to be checked. */
  readonly wanted: () => boolean;
  /** Resolves when all files have been looked through, or will not be. */
  readonly looked: () => Promise<void>;
  /** Looks through all files again. */
  readonly lookAgain: () => Promise<void>;
}

/** Between a change and the next look: a panel that is being typed changes at every key. */
const PAUSE_MS = 500;
const TITLE = "Checking the workspace";

export function serveWorkspaceDiagnostics(given: Given): WorkspaceDiagnostics {
  const { connection, timer, check, pull, wanted, looked, lookAgain } = given;
  /** Set by the user, for this session: on by the command, off where the work was called off. */
  let chosen: boolean | undefined;
  const on = () => chosen ?? wanted();
  const waiting = new Set<() => void>();
  let later: (() => void) | undefined;
  const wake = () => {
    later?.();
    later = timer.after(PAUSE_MS, () => {
      later = undefined;
      for (const go of [...waiting]) go();
      if (!pull) void send();
    });
  };

  /** Runs over all files once, with progress of the server's own where the client has not asked for it. */
  const look = async (give: (checked: Checked) => void, token?: CancellationToken): Promise<void> => {
    await looked();
    await withProgress(connection, timer, TITLE, async (work) => {
      const stopped = () => work.cancelled() || token?.isCancellationRequested === true;
      await check.run({ at: work.at, cancelled: stopped }, give);
      if (work.cancelled()) chosen = false;
    });
  };

  if (pull) {
    connection.languages.diagnostics.onWorkspace(async (params, token, _done, partial) => {
      const before = new Map(params.previousResultIds.map(({ uri, value }) => [canonical(uri), value]));
      const collected: WorkspaceDocumentDiagnosticReport[] = [];
      const report = (item: WorkspaceDocumentDiagnosticReport) => {
        if (partial) partial.report({ items: [item] } satisfies WorkspaceDiagnosticReport);
        else collected.push(item);
      };
      // A client asks again as soon as it has an answer: it gets one only where there is something to tell.
      for (let told = before.size === 0; ; ) {
        const gone = new Set(before.keys());
        const give = ({ uri, version, resultId, items }: Checked) => {
          const id = canonical(uri);
          gone.delete(id);
          if (before.get(id) === resultId) return;
          told = true;
          before.set(id, resultId);
          report({ kind: DocumentDiagnosticReportKind.Full, uri, version, resultId, items });
        };
        if (on()) await look(give, token);
        if (token.isCancellationRequested) throw cancelled();
        for (const uri of gone) {
          told = true;
          report({ kind: DocumentDiagnosticReportKind.Full, uri, version: null, items: [] });
        }
        if (told) return { items: collected };
        await woken(token);
      }
    });
  }

  /** Resolves at the next change, or when the request is called off. */
  function woken(token: CancellationToken): Promise<void> {
    return new Promise((resolve) => {
      const listening = token.onCancellationRequested(() => go());
      const go = () => {
        waiting.delete(go);
        listening.dispose();
        resolve();
      };
      waiting.add(go);
    });
  }

  /** What a client that does not pull shows of stored files. */
  const sent = new Map<string, string>();
  let sending: Promise<void> = Promise.resolve();
  const send = () => {
    sending = sending.then(async () => {
      const gone = new Set(sent.keys());
      const give = ({ uri, version, resultId, items }: Checked) => {
        if (version !== null) return;
        gone.delete(uri);
        if (sent.get(uri) === resultId || (items.length === 0 && !sent.has(uri))) return;
        if (items.length > 0) sent.set(uri, resultId);
        else sent.delete(uri);
        void connection.sendDiagnostics({ uri, diagnostics: items });
      };
      if (on()) await look(give);
      for (const uri of gone) clear(uri);
    });
    return sending;
  };
  const clear = (uri: string) => {
    if (sent.delete(uri)) void connection.sendDiagnostics({ uri, diagnostics: [] });
  };

  connection.onRequest(
    CHECK_WORKSPACE,
    async (
      { workDoneToken }: { workDoneToken?: ProgressToken },
      token: CancellationToken,
    ): Promise<CheckedWorkspace> => {
      const found = { files: 0, error: 0, warning: 0, information: 0 };
      await lookAgain();
      check.forget();
      const count = ({ items }: Checked) => {
        found.files++;
        for (const { severity } of items)
          found[severity === 1 ? "error" : severity === 2 ? "warning" : "information"]++;
      };
      await withProgressFor(connection, workDoneToken, TITLE, (at) =>
        check.run({ at, cancelled: () => token.isCancellationRequested }, count),
      );
      if (token.isCancellationRequested) throw cancelled();
      chosen = true;
      wake();
      return found;
    },
  );

  return {
    changed: wake,
    opened: (uri) => clear(canonical(uri)),
    of: async (uri) => (on() ? check.one(canonical(uri)) : undefined),
  };
}

function cancelled(): ResponseError<void> {
  return new ResponseError(LSPErrorCodes.RequestCancelled, "The request was cancelled.");
}
