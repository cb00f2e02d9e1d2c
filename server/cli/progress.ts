/** How far the work on many files is: shown on a terminal where it takes long, and cleared where it ends or is ended. */

export interface Progress {
  /** Call before each file: it shows how far things are, and lets the process hear that it is to end. */
  step(): Promise<void>;
  end(): void;
}

/** Shown only after this time; then at most every 100 ms. */
const QUIET_MS = 500;
/** A process that never comes to rest does not hear Ctrl+C. */
const SLICE_MS = 50;

const CLEAR = "\r\u001b[K";

export function startProgress(total: number, what: string): Progress {
  const terminal = process.stderr.isTTY === true;
  const begun = Date.now();
  let shown = begun;
  let rested = begun;
  let done = 0;
  const clear = () => {
    if (shown !== begun) process.stderr.write(CLEAR);
  };
  // Whoever started the command learns that it did not end by itself: the signal is sent again, unheard this time.
  const interrupted = () => {
    clear();
    process.stderr.write(`dotwright: cancelled after ${done} of ${total} files; nothing is printed\n`);
    process.kill(process.pid, "SIGINT");
  };
  process.once("SIGINT", interrupted);
  return {
    async step() {
      const now = Date.now();
      if (terminal && now - begun > QUIET_MS && now - shown > 100) {
        process.stderr.write(`\r${what} ${done} of ${total} files\u001b[K`);
        shown = now;
      }
      if (now - rested > SLICE_MS) {
        rested = now;
        await new Promise<void>((resolve) => setImmediate(resolve));
      }
      done++;
    },
    end() {
      clear();
      process.off("SIGINT", interrupted);
    },
  };
}
