/** Asks the extension for other words of a motion, and for its frames anew. */
import * as l10n from "@vscode/l10n";
import type { Rpc } from "../../shared/protocol/rpc.ts";
import type { ToHost } from "../../shared/protocol/webview.ts";
import { whyNot } from "../refusal.ts";
import type { Action, State } from "../state.ts";
import { reasonOf } from "../strokes.ts";
import type { MotionWishes } from "../view/edgePanel.ts";

export function motionWriter(rpc: Rpc<ToHost>, dispatch: (action: Action) => void, state: () => State): MotionWishes {
  /** Says why not, also where the extension refuses. */
  const ask = (
    call: (of: Pick<ToHost["bake"]["params"], "version" | "identity">) => Promise<unknown>,
    refused: () => void,
  ) => {
    const refuse = (reason: string) => {
      dispatch({ type: "say", note: l10n.t("Not changed: {0}", reason) });
      refused();
    };
    const why = whyNot(state());
    const { shown } = state();
    if (why !== undefined) refuse(why);
    else if (shown)
      call({ version: shown.version, identity: shown.bitmap.identity }).catch((error: unknown) =>
        refuse(reasonOf(error)),
      );
  };
  return {
    write: (words, refused) => ask((of) => rpc.call("changeMotion", { ...of, words }), refused),
    bake: () =>
      ask(
        (of) => rpc.call("bake", of),
        () => undefined,
      ),
  };
}
