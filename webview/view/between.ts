/** The values in use that are no rung, as words to take a level from. */
import * as l10n from "@vscode/l10n";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { limitOf } from "../picture.ts";
import { pixelCount } from "../words.ts";
import { el } from "./dom.ts";
import type { Theme } from "./theme.ts";

interface Value {
  readonly value: number;
  readonly count: number;
  readonly rung: number;
}

export interface BetweenView {
  readonly element: HTMLElement;
  draw(values: readonly Value[], level: number, bitmap: BitmapInfo, theme: Theme): void;
}

/** More values than this are no list to choose from: then those that most pixels have. */
const MOST = 24;

export function makeBetween(take: (level: number) => void): BetweenView {
  const label = l10n.t("Used between the rungs");
  const list = el("div", { class: "values", role: "radiogroup", "aria-label": label });
  const rest = el("span", { class: "dim" });
  const element = el(
    "div",
    { class: "between" },
    el("div", { class: "dim small", text: l10n.t("between rungs") }),
    list,
  );
  let key = "";

  list.addEventListener("click", (event) => {
    const chosen = (event.target as Element).closest<HTMLElement>("[data-value]");
    if (chosen) take(Number(chosen.dataset.value));
  });
  list.addEventListener("keydown", (event) => {
    const by = ["ArrowRight", "ArrowDown"].includes(event.key)
      ? 1
      : ["ArrowLeft", "ArrowUp"].includes(event.key)
        ? -1
        : 0;
    const all = [...list.querySelectorAll<HTMLElement>("[data-value]")];
    const next = all[all.indexOf(event.target as HTMLElement) + by];
    const here = event.key === "Enter" || event.key === " " ? (event.target as HTMLElement) : undefined;
    const chosen = by === 0 ? here : next;
    if (!chosen) return;
    event.preventDefault();
    event.stopPropagation();
    chosen.focus();
    take(Number(chosen.dataset.value));
  });

  return {
    element,
    draw: (values, level, bitmap, theme) => {
      element.hidden = values.length === 0;
      const most = [...values].sort((a, b) => b.count - a.count).slice(0, MOST);
      const shown = values.length > MOST ? most.sort((a, b) => b.value - a.value) : values;
      const now = `${shown.map((v) => `${v.value}×${v.count}`).join()} ${theme.glow(0.5, bitmap.tint)}`;
      if (now !== key) {
        const focused = list.contains(document.activeElement) ? (document.activeElement as HTMLElement) : undefined;
        const wanted = focused?.dataset.value;
        list.replaceChildren(...shown.map((value) => choice(value, bitmap, theme)));
        if (values.length > MOST) list.append(rest);
        rest.textContent = l10n.t("and {0} more", values.length - MOST);
        if (wanted) list.querySelector<HTMLElement>(`[data-value="${wanted}"]`)?.focus();
      }
      key = now;
      const all = list.querySelectorAll<HTMLElement>("[data-value]");
      const any = shown.some((v) => v.value === level);
      for (const [i, one] of all.entries()) {
        const chosen = Number(one.dataset.value) === level;
        one.setAttribute("aria-checked", String(chosen));
        one.tabIndex = chosen || (!any && i === 0) ? 0 : -1;
      }
    },
  };
}

function choice({ value, count, rung }: Value, bitmap: BitmapInfo, theme: Theme): HTMLElement {
  const limit = limitOf(bitmap);
  const over = limit !== undefined && value > limit;
  const swatch = el("span", { class: "chip" });
  swatch.style.backgroundColor = theme.glow(Math.min(1, value / Math.max(1, limit ?? bitmap.most)), bitmap.tint);
  const words = [l10n.t("level {0}", value), pixelCount(count), l10n.t("nearest rung {0}", rung)];
  if (over) words.push(l10n.t("over the cap"));
  return el(
    "span",
    {
      class: over ? "between-value over" : "between-value",
      role: "radio",
      "data-value": String(value),
      title: words.join(", "),
      "aria-label": words.join(", "),
    },
    swatch,
    document.createTextNode(String(value)),
  );
}
