/** Which arrays of the file are shown together, as the frames of one set: those with as many pixels of the same kind. */
import * as l10n from "@vscode/l10n";
import type { BitmapIdentity } from "../../shared/bitmap/edit.ts";
import type { Other } from "../../shared/protocol/webview.ts";
import { el } from "./dom.ts";

/** Shows another bitmap of the file, perhaps with others as one set. */
export type Choose = (identity: BitmapIdentity, together?: readonly BitmapIdentity[]) => void;

export interface TogetherView {
  readonly element: HTMLElement;
  draw(others: readonly Other[]): void;
}

export function makeTogether(choose: Choose): TogetherView {
  const list = el("div", { class: "arrays", role: "group", "aria-label": l10n.t("Arrays shown together") });
  const all = el("button", { type: "button", class: "word", text: l10n.t("All") });
  const summary = el("summary", { text: l10n.t("together with other arrays") });
  const element = el("details", { class: "together dim" }, summary, all, list);
  let alike: readonly Other[] = [];
  let keys = "";

  const take = (chosen: readonly Other[]) => {
    const [first, ...rest] = chosen.map((o): BitmapIdentity => o.identity);
    if (first) choose(first, rest);
  };
  all.addEventListener("click", () => take(alike));
  list.addEventListener("change", (event) => {
    const boxes = [...list.querySelectorAll("input")];
    const chosen = alike.filter((_, i) => boxes[i]?.checked);
    // One array is always shown.
    if (chosen.length > 0) take(chosen);
    else (event.target as HTMLInputElement).checked = true;
  });

  return {
    element,
    draw: (others) => {
      alike = others.filter((o) => o.alike);
      element.hidden = alike.length < 2;
      const now = alike.map((o) => `${o.name}#${o.identity.ordinal}`).join();
      if (now !== keys)
        list.replaceChildren(
          ...alike.map((o) => el("label", {}, el("input", { type: "checkbox" }), document.createTextNode(o.name))),
        );
      keys = now;
      list.querySelectorAll("input").forEach((box, i) => {
        box.checked = alike[i]?.shown === true;
      });
      const shown = alike.filter((o) => o.shown).length;
      const words = shown > 1 ? l10n.t("{0} arrays together", shown) : l10n.t("together with other arrays");
      if (summary.textContent !== words) summary.textContent = words;
    },
  };
}
