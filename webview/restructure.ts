/** Asks the extension for another structure of the array, once the strokes before it are answered. */
import type { Rpc } from "../shared/protocol/rpc.ts";
import type { ToHost } from "../shared/protocol/webview.ts";
import type { Pending } from "./frameEditing.ts";
import type { Action, State } from "./state.ts";
import { reasonOf } from "./strokes.ts";

/** To be called on every change of state. */
export function restructurer(rpc: Rpc<ToHost>, dispatch: (action: Action) => void): (state: State) => void {
  // What is on its way, whatever the array is known by meanwhile.
  let asked: Pending["change"] | undefined;
  let version = 0;
  return ({ pending, shown, queue }) => {
    version = Math.max(shown?.version ?? 0, ...queue.map((s) => s.answered ?? 0), version);
    if (!pending || pending.answered !== undefined) {
      if (!pending) asked = undefined;
      return;
    }
    if (asked === pending.change || queue.some((s) => s.answered === undefined)) return;
    asked = pending.change;
    // Not about what is shown by now.
    rpc.call("restructure", { version, identity: pending.identity, change: pending.change }).then(
      (result) => dispatch({ type: "restructured", version: result.version }),
      (error: unknown) => dispatch({ type: "notRestructured", reason: reasonOf(error) }),
    );
  };
}
