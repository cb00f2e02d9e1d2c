/** The colour of the chosen index, to be typed: it is written to the palette's array, wherever that is used. */
import * as l10n from "@vscode/l10n";
import { hexOf, rgbOf } from "../../shared/pixels/colour.ts";
import { FORMATS, type Format } from "../../shared/pixels/formats.ts";
import { type Entered, parseFor } from "../entry.ts";
import type { Action } from "../state.ts";
import { rawHex } from "../values.ts";
import { el, fill, forget, setText } from "./dom.ts";
import type { Recolour, ValuesModel } from "./values.ts";

export interface RecolourView {
  readonly element: HTMLElement;
  draw(model: ValuesModel): void;
}

export function makeRecolour(dispatch: (action: Action) => void, recolour: Recolour): RecolourView {
  const word = el("span", { class: "dim small" });
  const field = el("input", { type: "text", spellcheck: "false" });
  const label = el("label", {}, word, field);
  const told = el("p", {});
  const why = el("p", { class: "dim small" });
  const element = el("div", { class: "recolour" }, label, told, why);
  let now: ValuesModel | undefined;

  // What it would be is seen before it is written.
  field.addEventListener("input", () => {
    const palette = now?.bitmap.paletteArray;
    const typed = palette && parseFor(field.value, palette.format);
    const words = typed && "value" in typed ? wordsFor(typed, palette.format) : "";
    setText(told, words);
    told.hidden = words === "";
  });
  field.addEventListener("change", () => {
    const palette = now?.bitmap.paletteArray;
    if (!now || !palette) return;
    const { level, bitmap } = now;
    const typed = parseFor(field.value, palette.format);
    // The field shows the palette's colour again, unless that changes.
    forget(field);
    if ("refused" in typed) {
      dispatch({ type: "say", note: typed.refused });
      return;
    }
    const words = wordsFor(typed, palette.format);
    dispatch({ type: "say", note: l10n.t("Colour {0} of {1}: {2}", level, bitmap.palette ?? "", words) });
    recolour(level, typed.value, palette.values[level] ?? 0);
  });

  return {
    element,
    draw: (model) => {
      now = model;
      const { bitmap, level, readOnly } = model;
      const { colours, palette, paletteArray } = bitmap;
      const colour = colours?.[level];
      const can = paletteArray !== undefined && paletteArray.fixed === undefined && colour !== undefined;
      label.hidden = !can;
      field.disabled = readOnly;
      const name = l10n.t("colour of {0}", level);
      setText(word, name);
      field.setAttribute("aria-label", l10n.t("Colour of index {0} in {1}", level, palette ?? ""));
      const text = colour === undefined ? "" : hexOf(colour);
      const key = `${palette} ${level} ${text}`;
      told.hidden = field.value === text || document.activeElement !== field;
      fill(field, text, key);
      setText(why, whyOf(model));
    },
  };
}

/** A colour as the palette can hold it, after what was asked for where that is another. */
function wordsFor({ value, wanted }: Entered, name: string): string {
  const format = FORMATS.get(name) as Format;
  const has = `${hexOf(rgbOf(format, value))} ${rawHex(format, value)}`;
  return wanted === undefined ? has : l10n.t("{0} → {1}", hexOf(wanted), has);
}

/** What else a change of colour means, or why there can be none. */
function whyOf({ bitmap, level }: ValuesModel): string {
  const { colours, palette, paletteArray } = bitmap;
  if (!colours || !paletteArray || palette === undefined)
    return l10n.t("No palette in this file: indices are shown as greys.");
  if (paletteArray.fixed !== undefined) return l10n.t("{0} can’t be written: {1}", palette, paletteArray.fixed);
  if (level >= colours.length) return l10n.t("{0} has no colour {1}: it is drawn black.", palette, level);
  const { others } = paletteArray;
  if (others.length === 0) return l10n.t("in {0}", palette);
  return l10n.t("in {0}, so of {1} too", palette, others.join(", "));
}
