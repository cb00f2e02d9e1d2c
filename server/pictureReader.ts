/** Pictures read in a worker, so that typing does not wait for a large one. The worker is the server's own bundle. */
import { parentPort, Worker } from "node:worker_threads";
import type { Source } from "../shared/image/art.ts";
import { readPicture } from "./readPicture.ts";

type Answer = Source | { readonly refused: string };

/** Longer than the largest picture takes. */
const MOST_SECONDS = 60;

/** What the worker does: one file, one answer. */
export function answerPicture(): void {
  parentPort?.once("message", (bytes: Uint8Array) => {
    const read = readPicture(bytes);
    const moved = "kind" in read && read.kind === "picture" ? [read.picture.data.buffer as ArrayBuffer] : [];
    parentPort?.postMessage(read, moved);
  });
}

/** `path` is a bundle that calls `answerPicture` where it is no main thread. */
export function readInWorker(path: string): (bytes: Uint8Array) => Promise<Answer> {
  return (bytes) =>
    new Promise((resolve) => {
      const worker = new Worker(path, { stdout: true });
      const late = { refused: `reading it takes more than ${MOST_SECONDS} seconds` };
      const timer = setTimeout(() => end(late), MOST_SECONDS * 1000);
      const end = (answer: Answer) => {
        clearTimeout(timer);
        resolve(answer);
        void worker.terminate();
      };
      worker.once("message", end);
      worker.once("error", (error) => end({ refused: `it can't be read: ${error.message}` }));
      worker.once("exit", () => end({ refused: "it can't be read" }));
      worker.postMessage(bytes);
    });
}
