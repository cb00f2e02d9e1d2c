/** Long work that shows its progress in the client and can be called off there. */
import type { Connection } from "vscode-languageserver/node";
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
