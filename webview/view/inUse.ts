/** Values in use as words to take one from, each with a swatch: levels between the rungs, or colours with their counts. */
import * as l10n from "@vscode/l10n";
import { el, setText } from "./dom.ts";
import type { Lamps } from "./lamps.ts";
import { listenToRadios, markChosen, refill } from "./radios.ts";

interface UsedValue {
  readonly value: number;
  readonly count: number;
  readonly text: string;
  /** Shown after the text where it matters. */
  readonly shownCount?: number;
  /** What screen readers and the tooltip say. */
  readonly words: string;
}

export interface InUseView {
  readonly element: HTMLElement;
  /** Values in the order in which they are to be listed; `more` are not. */
  draw(values: readonly UsedValue[], more: number, chosen: number, lamps: Lamps): void;
}

/** More values than this are no list to choose from: then those that most pixels have. */
export const MOST_LISTED = 24;

export function makeInUse(heading: string, label: string, take: (value: number) => void): InUseView {
  const list = el("div", { class: "values", role: "radiogroup", "aria-label": label });
  const rest = el("span", { class: "dim" });
  const element = el("div", { class: "between" }, el("div", { class: "dim small", text: heading }), list, rest);
  let key = "";
  let of: Lamps | undefined;
  listenToRadios(list, take);

  return {
    element,
    draw: (values, more, chosen, lamps) => {
      element.hidden = values.length === 0;
      const now = values.map((v) => `${v.value}×${v.count}`).join();
      if (now !== key || of !== lamps)
        refill(
          list,
          values.map((value) => choice(value, lamps)),
        );
      key = now;
      of = lamps;
      rest.hidden = more === 0;
      setText(rest, l10n.t("and {0} more", more));
      markChosen(list, chosen);
    },
  };
}

function choice({ value, text, shownCount, words }: UsedValue, lamps: Lamps): HTMLElement {
  const swatch = el("span", { class: "chip" });
  swatch.style.backgroundColor = lamps.lit(value) ?? lamps.face;
  const row = el(
    "span",
    {
      class: lamps.over(value) ? "between-value over" : "between-value",
      role: "radio",
      "data-value": String(value),
      title: words,
      "aria-label": words,
    },
    swatch,
    document.createTextNode(text),
  );
  if (shownCount !== undefined) row.append(el("span", { class: "dim small", text: `×${shownCount}` }));
  return row;
}
