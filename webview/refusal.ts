/** Why nothing can be changed now: the one rule for strokes, for selected pixels and for frames; pure. */
import * as l10n from "@vscode/l10n";
import type { State } from "./state.ts";

/** Undefined where all is well. While frames change, a stroke might come to another frame than the one meant. */
export function whyNot({ shown, why, pending }: Pick<State, "shown" | "why" | "pending">): string | undefined {
  if (!shown) return undefined;
  if (shown.live) return l10n.t("a function draws these frames");
  if (shown.readOnly) return l10n.t("this document can’t be changed");
  if (why !== undefined) return why;
  return pending && l10n.t("the frames are being changed");
}

/** The same as it is said of pixels. */
export function notPainted(state: Pick<State, "shown" | "why" | "pending">): string | undefined {
  const reason = whyNot(state);
  return reason === undefined ? undefined : l10n.t("Not painted: {0}", reason);
}
