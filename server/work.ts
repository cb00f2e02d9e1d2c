/** Long work that shows its progress in the client and can be called off there. */
import type {
  Connection,
  ProgressToken,
  WorkDoneProgressBegin,
  WorkDoneProgressEnd,
  WorkDoneProgressReport,
} from "vscode-languageserver/node";
import { WorkDoneProgress } from "vscode-languageserver/node";
import type { Timer } from "./features/push.ts";

export interface Work {
  at(done: number, total: number): void;
  cancelled(): boolean;
}

/** Work that is done sooner shows nothing. */
const QUIET_MS = 500;
/** Between two reports. */
const PAUSE_MS = 100;

/** Runs work in the background of the client's window. */
export async function withProgress(
  connection: Connection,
  timer: Timer,
  title: string,
  run: (work: Work) => Promise<void>,
): Promise<void> {
  let cancelled = false;
  let report: ((done: number, total: number) => void) | undefined;
  let over = false;
  let end = () => {};
  const later = timer.after(QUIET_MS, async () => {
    // Where the client shows none, this is a reporter that does nothing.
    const shown = await connection.window.createWorkDoneProgress();
    if (over) return;
    shown.begin(title, 0, undefined, true);
    end = () => shown.done();
    shown.token.onCancellationRequested(() => {
      cancelled = true;
    });
    let last = 0;
    report = (done, total) => {
      const now = Date.now();
      if (now - last < PAUSE_MS) return;
      last = now;
      shown.report(Math.floor((100 * done) / total), `${done} of ${total} files`);
    };
  });
  try {
    await run({ at: (done, total) => report?.(done, total), cancelled: () => cancelled });
  } finally {
    over = true;
    later();
    end();
  }
}

/** Work whose progress the client has asked for. */
export async function withProgressFor(
  connection: Connection,
  token: ProgressToken | undefined,
  title: string,
  run: (at: Work["at"]) => Promise<void>,
): Promise<void> {
  if (token === undefined) return run(() => {});
  const say = (value: WorkDoneProgressBegin | WorkDoneProgressReport | WorkDoneProgressEnd) =>
    void connection.sendProgress(WorkDoneProgress.type, token, value);
  say({ kind: "begin", title, percentage: 0 });
  let last = 0;
  try {
    await run((done, total) => {
      const now = Date.now();
      if (now - last < PAUSE_MS) return;
      last = now;
      say({ kind: "report", percentage: Math.floor((100 * done) / total), message: `${done} of ${total} files` });
    });
  } finally {
    say({ kind: "end" });
  }
}
