/** `Copy as C Text…`: the bitmap in any format and packing, on the clipboard. */
import { env, l10n, window } from "vscode";
import type { CopyChoice } from "../shared/protocol/lsp.ts";
import type { Ask } from "./ask.ts";
import type { ShownIn } from "./which.ts";
import { whichBitmap } from "./which.ts";

/** The command; it says in words why nothing was copied. */
export function copyAsCommand(ask: Ask, shownIn: ShownIn) {
  return async (resource?: unknown, given?: unknown): Promise<void> => {
    try {
      const which = await whichBitmap(ask, shownIn, resource, given);
      if (!which) return;
      const { document, bitmap } = which;
      const asked = { uri: document.uri.toString(), identity: bitmap.identity };
      const title = l10n.t("Copy {0} as C text", bitmap.name);
      const { choices } = await ask("dotwright/copyChoices", asked);
      const words = await askWords(title, choices);
      if (words === undefined) return;
      const { text } = await ask("dotwright/copyAs", { ...asked, words });
      await env.clipboard.writeText(text);
      void window.setStatusBarMessage(l10n.t("{0} is on the clipboard as {1}.", bitmap.name, words), 5000);
    } catch (error) {
      void window.showErrorMessage(error instanceof Error ? error.message : String(error));
    }
  };
}

/** The format, then how pixels become elements; undefined where the user left. */
async function askWords(title: string, choices: readonly CopyChoice[]): Promise<string | undefined> {
  const formats = choices.filter((c, i) => choices.findIndex((other) => other.format === c.format) === i);
  const format = await window.showQuickPick(
    formats.map(({ format: label, lost }, i) => ({
      label,
      description: i === 0 ? l10n.t("as it is") : lossWords(lost),
    })),
    { title, placeHolder: l10n.t("Format of a pixel") },
  );
  if (!format) return undefined;
  const packings = choices.filter((c) => c.format === format.label);
  const packing = await window.showQuickPick(
    packings.map(({ words, packing: description }) => ({ label: words, description })),
    { title, placeHolder: l10n.t("How pixels become numbers") },
  );
  return packing?.label;
}

function lossWords(lost: number): string {
  if (lost === 0) return l10n.t("nothing is lost");
  return lost === 1 ? l10n.t("1 pixel looks otherwise") : l10n.t("{0} pixels look otherwise", lost);
}
