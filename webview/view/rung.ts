/** One step of a ladder as an element: a swatch, its number, and room for a count. */
import * as l10n from "@vscode/l10n";
import { el } from "./dom.ts";

interface Step {
  readonly value: number;
  readonly text: string;
  /** The colour of its swatch. */
  readonly colour: string;
  readonly over: boolean;
  /** What the tooltip says of it. */
  readonly facts: readonly string[];
}

export function makeRung({ value, text, colour, over, facts }: Step): HTMLElement {
  const swatch = el("span", { class: "swatch" });
  swatch.style.backgroundColor = colour;
  const title = [...facts, ...(over ? [l10n.t("over the cap")] : [])].join(", ");
  return el(
    "div",
    { class: over ? "rung over" : "rung", role: "radio", "data-value": String(value), title },
    swatch,
    el("span", { class: /^\d/.test(text) ? "value" : "value named", text }),
    el("span", { class: "count" }),
  );
}
