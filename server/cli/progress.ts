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

let listening = false;
/** Clears the line, and tells how far the work was. */
let interrupted = () => "";

/** Whoever started the command learns that it did not end by itself: the signal is sent again, unheard this time. */
function cancel(): void {
  process.stderr.write(`dotwright: cancelled${interrupted()}\n`);
  process.kill(process.pid, "SIGINT");
}

export function startProgress(total: number, what: string): Progress {
  const terminal = process.stderr.isTTY === true;
  const begun = Date.now();
  let shown = begun;
  let rested = begun;
  let done = 0;
  const clear = () => {
    if (shown !== begun) process.stderr.write(CLEAR);
  };
  interrupted = () => {
    clear();
    return ` after ${done} of ${total} files; nothing is printed`;
  };
  if (!listening) process.once("SIGINT", cancel);
  listening = true;
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
      interrupted = () => "";
    },
  };
}
