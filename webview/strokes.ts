/** Sends finished strokes one after the other, and the newest place of the pixel cursor. */
import type { BitmapIdentity } from "../shared/bitmap/edit.ts";
import type { Rpc } from "../shared/protocol/rpc.ts";
import type { Place, ToHost } from "../shared/protocol/webview.ts";
import { changesOf } from "./picture.ts";
import type { Action, State } from "./state.ts";

/** To be called on every change of state. A stroke is sent once the one before it is answered. */
export function strokeSender(rpc: Rpc<ToHost>, dispatch: (action: Action) => void): (state: State) => void {
  let busy = false;
  // The newest version known, also while another bitmap or none is shown.
  let version = 0;
  return (state) => {
    version = state.shown?.version ?? version;
    const next = state.queue.find((s) => s.answered === undefined);
    if (busy || !next) return;
    const { id, identity } = next;
    const changes = changesOf(state, next);
    if (changes.length === 0) {
      dispatch({ type: "answered", id, version });
      return;
    }
    busy = true;
    rpc.call("paint", { version, identity, changes }).then(
      (result) => {
        busy = false;
        dispatch({ type: "answered", id, version: result.version });
      },
      (error: unknown) => {
        busy = false;
        dispatch({ type: "refused", id, reason: reasonOf(error) });
      },
    );
  };
}

/** Tells where the pixel cursor is: one call at a time, and after it only the newest place. */
export function revealer(
  rpc: Rpc<ToHost>,
): (identity: BitmapIdentity, place: Place, pixels?: readonly number[]) => void {
  let busy = false;
  let waiting: ToHost["reveal"]["params"] | undefined;
  const next = () => {
    if (busy || !waiting) return;
    const params = waiting;
    waiting = undefined;
    busy = true;
    const done = () => {
      busy = false;
      next();
    };
    // A place that can't be revealed is no matter: the picture is what counts.
    rpc.call("reveal", params).then(done, done);
  };
  return (identity, place, pixels) => {
    waiting = { identity, place, ...(pixels ? { pixels } : {}) };
    next();
  };
}

export function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
