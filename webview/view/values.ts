/**
 * The values to paint with, beside the picture: a ladder of levels, one of each channel, or the palette; the field in
 * which one is typed; and what replaces one by another. Each kind is built when a bitmap of it is first shown.
 */
import * as l10n from "@vscode/l10n";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { type Entered, enteredWords, parseValue } from "../entry.ts";
import type { FrameLight } from "../light.ts";
import { type Scale, scaleOf } from "../scale.ts";
import type { Action, State } from "../state.ts";
import { valueText } from "../values.ts";
import { makeChannels } from "./channels.ts";
import { el, fill, forget, setText } from "./dom.ts";
import { makeIndexes } from "./indexes.ts";
import { makeLadder } from "./ladder.ts";
import { type Lamps, lampsOf } from "./lamps.ts";
import type { Model } from "./model.ts";
import { makeReplace } from "./replaceRow.ts";
import type { Theme } from "./theme.ts";

export interface ValuesModel {
  readonly bitmap: BitmapInfo;
  readonly light: FrameLight;
  readonly level: number;
  readonly scale: Scale;
  readonly lamps: Lamps;
  /** A stroke is under way: what is costly to count can wait. */
  readonly busy: boolean;
  readonly readOnly: boolean;
}

/** One kind of values: what stands first, what is in use, and what else there is to set. */
export interface ValuesView {
  readonly parts: { readonly ladder: HTMLElement; readonly used?: HTMLElement; readonly more?: HTMLElement };
  draw(model: ValuesModel): void;
}

/** Asks for another colour of an index. */
export type Recolour = (index: number, value: number, before: number) => void;

export interface ValuesBlock {
  readonly element: HTMLElement;
  draw(model: Model, theme: Theme): void;
  /** To the field in which a value is typed. */
  type(): void;
}

type Kind = "level" | "colour" | "index";

/** `leave` gives the focus back to the grid. */
export function makeValues(
  dispatch: (action: Action) => void,
  state: () => State,
  recolour: Recolour,
  leave: () => void,
): ValuesBlock {
  const field = el("input", { type: "text", spellcheck: "false" });
  const chosen = el("span", { class: "chip" });
  const words = el("span", {});
  const told = el("p", { class: "told" }, chosen, words);
  const exact = el("div", { class: "exact" });
  const element = el("section", { class: "ladder" });
  const replace = makeReplace(dispatch, state);
  const views = new Map<Kind, ValuesView>();
  let now: BitmapInfo | undefined;
  let kind: Kind | undefined;
  let entered: Entered | undefined;
  let lamps: Lamps | undefined;
  let shownText = "";

  const take = (): boolean => {
    if (!now) return false;
    const typed = parseValue(field.value, now);
    if ("refused" in typed) dispatch({ type: "say", note: typed.refused });
    else {
      entered = typed;
      forget(field);
      dispatch({ type: "level", level: typed.value });
      // Who does not see the line under the field hears of it.
      const otherwise = typed.wanted !== undefined && enteredWords(now, typed, scaleOf(now).rgb(typed.value));
      dispatch({ type: "say", note: otherwise || "" });
    }
    return "value" in typed;
  };
  field.addEventListener("change", take);
  // What is not taken does not stay: it would be read as the level that is chosen.
  field.addEventListener("blur", () => {
    field.value = shownText;
    tell(now, state().level, entered);
  });
  field.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" && event.key !== "Escape") return;
    if (event.key === "Escape") field.value = shownText;
    else if (!take()) return;
    event.preventDefault();
    // It is gone on drawing with it.
    leave();
  });

  // What it would be is seen before it is taken.
  field.addEventListener("input", () => {
    const typed = now && parseValue(field.value, now);
    if (typed && "value" in typed) tell(now, typed.value, typed);
    else tell(now, state().level, entered);
  });

  const tell = (bitmap: BitmapInfo | undefined, value: number, typed: Entered | undefined) => {
    const text = bitmap && scaleOf(bitmap).colour ? toldOf(bitmap, value, typed) : "";
    setText(words, text);
    told.hidden = text === "";
    chosen.style.backgroundColor = (lamps?.lit(value) ?? lamps?.face) || "";
  };

  const make = (wanted: Kind): ValuesView => {
    if (wanted === "colour") return makeChannels(dispatch);
    return wanted === "index" ? makeIndexes(dispatch, recolour) : makeLadder(dispatch);
  };
  const change = (wanted: Kind): ValuesView => {
    const view = views.get(wanted) ?? make(wanted);
    views.set(wanted, view);
    if (kind === wanted) return view;
    kind = wanted;
    entered = undefined;
    const { ladder, used, more } = view.parts;
    exact.replaceChildren(field, told, ...(more ? [more] : []), replace.element, ...(used ? [used] : []));
    element.replaceChildren(ladder, exact);
    const [block, label] = LABELS[wanted];
    element.setAttribute("aria-label", block);
    field.setAttribute("aria-label", label);
    field.title = label;
    return view;
  };

  return {
    element,
    draw: (model, theme) => {
      const { shown, scale, light } = model;
      const { bitmap } = shown;
      const { level, stroke, why } = model.now;
      now = bitmap;
      const readOnly = shown.readOnly || why !== undefined;
      lamps = lampsOf(scale, theme);
      const view = change(bitmap.kind === "rgb" ? "colour" : bitmap.kind === "palette" ? "index" : "level");
      exact.hidden = bitmap.kind === "mono";
      view.draw({ bitmap, light, level, scale, lamps, busy: stroke !== undefined, readOnly });
      replace.draw(model, lamps, readOnly);
      if (entered?.value !== level) entered = undefined;
      const text = valueText(bitmap, level);
      if (fill(field, text, `${bitmap.format} ${text}`)) shownText = text;
      // While something is typed, that is what is told.
      if (document.activeElement !== field || field.value === shownText) tell(bitmap, level, entered);
    },
    type: () => {
      if (exact.hidden) return;
      field.focus();
      field.select();
    },
  };
}

const LABELS: Readonly<Record<Kind, readonly [block: string, field: string]>> = {
  level: [l10n.t("Level ladder"), l10n.t("Level: decimal, hex or per cent")],
  colour: [l10n.t("Colour"), l10n.t("Colour: #rrggbb, the raw value, or per cent of one or three channels")],
  index: [l10n.t("Palette"), l10n.t("Index, or #rrggbb for the nearest colour of the palette")],
};

/** The chosen colour as the format has it, after what was typed where that is another. */
function toldOf(bitmap: BitmapInfo, level: number, entered: Entered | undefined): string {
  const { over, rgb } = scaleOf(bitmap);
  if (bitmap.kind === "palette" && entered?.wanted === undefined) return over(level) ? l10n.t("over the cap") : "";
  const words = enteredWords(bitmap, entered ?? { value: level }, rgb(level));
  return over(level) ? `${words}, ${l10n.t("over the cap")}` : words;
}
