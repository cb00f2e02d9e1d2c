/** The options of the chosen tool, in words and numbers: only those that it uses now. */
import * as l10n from "@vscode/l10n";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { parseValue } from "../entry.ts";
import type { Action, State } from "../state.ts";
import { hasBetween } from "../tools/ink.ts";
import {
  type AmountName,
  amountOf,
  amountWithin,
  CHOICES,
  type ChoiceName,
  choiceOf,
  type OptionName,
  START_OPTIONS,
  type ToolOptions,
} from "../tools/options.ts";
import { toolOf } from "../tools/tools.ts";
import { valueText } from "../values.ts";
import { el, fill, forget, setText } from "./dom.ts";
import { keyed } from "./keyed.ts";
import { makeTyping } from "./typing.ts";

export interface OptionRowView {
  readonly element: HTMLElement;
  draw(now: State, bitmap: BitmapInfo): void;
}

/** One option on the page. */
export interface Part {
  readonly element: HTMLElement;
  draw(now: State, bitmap: BitmapInfo): void;
  /** It has come into view, since the user chose a tool. */
  appeared?(): void;
}

const ORDER = Object.keys(START_OPTIONS) as OptionName[];

/** `leave` gives the focus back to the grid. */
export function makeOptionRow(
  dispatch: (action: Action) => void,
  state: () => State,
  leave: () => void,
): OptionRowView {
  const element = el("div", { class: "options", role: "group" });
  // Built when a tool first needs it; then it stays, so that it keeps the focus when its neighbours come and go.
  const parts = new Map<OptionName, Part>();
  const partOf = (name: OptionName): Part => {
    const known = parts.get(name);
    if (known) return known;
    const part = name === "set" ? makeTyping(dispatch, state, leave) : make(name, dispatch);
    parts.set(name, part);
    const after = ORDER.slice(ORDER.indexOf(name) + 1).find((other) => parts.has(other));
    element.insertBefore(part.element, (after && parts.get(after)?.element) ?? null);
    return part;
  };
  // The keys of the page stay away from fields; this one must reach a stroke that is under way.
  element.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || event.defaultPrevented) return;
    event.preventDefault();
    if (state().stroke) dispatch({ type: "drop" });
    else leave();
  });
  let shown: readonly OptionName[] | undefined;
  return {
    element,
    draw: (now, bitmap) => {
      const names = usedNow(now, bitmap);
      element.hidden = names.length === 0;
      const label = l10n.t("Options of {0}", toolOf(now.tool).word);
      if (element.getAttribute("aria-label") !== label) element.setAttribute("aria-label", label);
      for (const name of names) partOf(name).element.hidden = false;
      for (const [name, part] of parts) if (!names.includes(name)) part.element.hidden = true;
      for (const name of names) if (shown && !shown.includes(name)) partOf(name).appeared?.();
      for (const name of names) partOf(name).draw(now, bitmap);
      shown = names;
    },
  };
}

/** Options that would change nothing now are left out. */
function usedNow({ tool, options, shown, sets }: State, bitmap: BitmapInfo): OptionName[] {
  if (shown?.readOnly) return [];
  if (tool === "text" && !sets?.length) return ["set"];
  const uses: readonly OptionName[] = toolOf(tool).uses;
  const filled = uses.includes("filled") && options.filled === "filled";
  const idle: Partial<Record<OptionName, boolean>> = {
    width: filled,
    // Brushes of one and two pixels are square either way.
    tip: filled || options.width < 3,
    strength: !hasBetween(bitmap),
    mode: !hasBetween(bitmap),
  };
  return uses.filter((name) => !idle[name]);
}

function make(name: OptionName, dispatch: (action: Action) => void): Part {
  const set = (options: Partial<ToolOptions>) => dispatch({ type: "options", options });
  if (name === "second") return secondLevel(set, (note) => dispatch({ type: "say", note }));
  return name in CHOICES ? choice(name as ChoiceName, set) : amount(name as AmountName, set);
}

type Choose = (options: Partial<ToolOptions>) => void;

function choice(name: ChoiceName, set: Choose): Part {
  const { label, labelled, words, key } = choiceOf(name);
  const buttons = Object.entries(words).map(([value, [word, does]]) => {
    const button = el("button", { type: "button", class: "word", text: word, title: does });
    button.addEventListener("click", () => set({ [name]: value }));
    return [value, button] as const;
  });
  const title = labelled ? [keyed("span", label, key, { class: "dim" })] : [];
  const element = el("div", { role: "group", "aria-label": label }, ...title, ...buttons.map(([, button]) => button));
  return {
    element,
    draw: ({ options }) => {
      for (const [value, button] of buttons) button.setAttribute("aria-pressed", String(value === options[name]));
    },
  };
}

function amount(name: AmountName, set: Choose): Part {
  const { label, title, unit, least, most, step } = amountOf(name);
  const field = el("input", {
    type: "number",
    class: "amount",
    "aria-label": label,
    min: String(least),
    max: String(most),
    step: String(step),
    title,
  });
  // The browser steps from the least value on: 1, 6, 11 …; people think in 5, 10, 15.
  field.addEventListener("keydown", (event) => {
    const by = event.key === "ArrowUp" ? 1 : event.key === "ArrowDown" ? -1 : 0;
    if (by === 0) return;
    event.preventDefault();
    const from = Number(field.value);
    const next = by > 0 ? Math.floor(from / step + 1) * step : Math.ceil(from / step - 1) * step;
    // Shown at once: the next press may come before the page is drawn.
    fill(field, String(amountWithin(name, next)));
    set({ [name]: amountWithin(name, next) });
  });
  field.addEventListener("change", () => {
    const value = Number.parseFloat(field.value);
    set({ [name]: amountWithin(name, Number.isNaN(value) ? most : value) });
    // Also where that is what it was before.
    forget(field);
  });
  const element = el("label", {}, keyed("span", label, name === "width" ? "w" : undefined, { class: "dim" }), field);
  if (unit) element.append(el("span", { class: "dim", text: unit }));
  return { element, draw: ({ options }) => fill(field, String(options[name])) };
}

function secondLevel(set: Choose, say: (note: string) => void): Part {
  const title = l10n.t("Level or colour at the far end");
  const label = l10n.t("to");
  const field = el("input", { type: "text", class: "amount", "aria-label": title, title, spellcheck: "false" });
  let shown: BitmapInfo | undefined;
  field.addEventListener("change", () => {
    if (!shown) return;
    const typed = parseValue(field.value, shown);
    forget(field);
    if ("value" in typed) set({ second: typed.value });
    else say(typed.refused);
  });
  const near = el("b", { class: "near" });
  const element = el("label", {}, near, el("span", { class: "dim", text: label }), field);
  return {
    element,
    draw: ({ options, level }, bitmap) => {
      shown = bitmap;
      setText(near, valueText(bitmap, level));
      fill(field, valueText(bitmap, Math.min(bitmap.most, options.second)));
    },
  };
}
