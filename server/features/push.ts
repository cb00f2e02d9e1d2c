/** Diagnostics for clients that do not ask for them: sent a moment after a change, never where nothing changed. */
import type { Diagnostic } from "vscode-languageserver/node";

export interface Timer {
  /** Runs once after some milliseconds; the function returned calls it off. */
  after(ms: number, run: () => void): () => void;
}

export interface Pusher {
  changed(uri: string): void;
  closed(uri: string): void;
}

/** Longer than the pause between two keystrokes of fast typing, shorter than a wait that one notices. */
const PAUSE_MS = 120;

/** `check` gives the diagnostics of the newest version; undefined for a document that has none to show. */
export function createPusher(
  timer: Timer,
  check: (uri: string) => { version: number; diagnostics: Diagnostic[] } | undefined,
  send: (params: { uri: string; version?: number; diagnostics: Diagnostic[] }) => void,
): Pusher {
  const waiting = new Map<string, () => void>();
  /** Documents whose diagnostics the client shows now. */
  const showing = new Set<string>();
  return {
    changed(uri) {
      waiting.get(uri)?.();
      waiting.set(
        uri,
        timer.after(PAUSE_MS, () => {
          waiting.delete(uri);
          const checked = check(uri);
          if (!checked) return;
          const some = checked.diagnostics.length > 0;
          if (!some && !showing.has(uri)) return;
          if (some) showing.add(uri);
          else showing.delete(uri);
          send({ uri, ...checked });
        }),
      );
    },
    closed(uri) {
      waiting.get(uri)?.();
      waiting.delete(uri);
      if (showing.delete(uri)) send({ uri, diagnostics: [] });
    },
  };
}
