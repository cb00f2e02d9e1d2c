/** Asks the extension for another colour of a palette. */
import * as l10n from "@vscode/l10n";
import type { Rpc } from "../shared/protocol/rpc.ts";
import type { ToHost } from "../shared/protocol/webview.ts";
import type { Action, State } from "./state.ts";
import { reasonOf } from "./strokes.ts";
import type { Recolour } from "./view/values.ts";

export function recolourer(rpc: Rpc<ToHost>, dispatch: (action: Action) => void, state: () => State): Recolour {
  return (index, value, before) => {
    const { shown } = state();
    if (!shown || value === before) return;
    const { version, bitmap } = shown;
    rpc.call("recolour", { version, identity: bitmap.identity, index, value, before }).catch((error: unknown) => {
      dispatch({ type: "say", note: l10n.t("Not recoloured: {0}", reasonOf(error)) });
    });
  };
}
