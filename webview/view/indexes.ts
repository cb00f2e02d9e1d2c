/** The palette of an indexed format: its colours with index and count to choose from, and the colour of the chosen one. */
import * as l10n from "@vscode/l10n";
import { hexOf } from "../../shared/pixels/colour.ts";
import type { Action } from "../state.ts";
import { highestIndex, valueWords } from "../values.ts";
import { pixelCount } from "../words.ts";
import { el, setText } from "./dom.ts";
import type { Lamps } from "./lamps.ts";
import { listenToRadios, markChosen, refill } from "./radios.ts";
import { makeRecolour } from "./recolour.ts";
import type { Recolour, ValuesModel, ValuesView } from "./values.ts";

export function makeIndexes(dispatch: (action: Action) => void, recolour: Recolour): ValuesView {
  const ladder = el("div", { class: "entries", role: "radiogroup", "aria-label": l10n.t("Colours of the palette") });
  const change = makeRecolour(dispatch, recolour);
  let of: Lamps | undefined;
  let key = "";
  listenToRadios(ladder, (level) => dispatch({ type: "level", level }));

  return {
    parts: { ladder, more: change.element },
    draw: (model) => {
      const { bitmap, light, level, lamps } = model;
      const last = highestIndex(bitmap);
      // Indices that are used and have no colour can be taken and replaced too.
      const beyond = [...light.counts.keys()].filter((index) => index > last).sort((a, b) => a - b);
      const indexes = [...Array.from({ length: last + 1 }, (_, index) => index), ...beyond];
      const now = indexes.length + beyond.join();
      if (of !== lamps || now !== key) {
        refill(
          ladder,
          indexes.map((index) => entry(index, model)),
        );
      }
      of = lamps;
      key = now;
      for (const row of ladder.querySelectorAll<HTMLElement>("[data-value]")) count(row, model);
      const before = ladder.querySelector("[aria-checked=true]");
      markChosen(ladder, level);
      const chosen = ladder.querySelector<HTMLElement>("[aria-checked=true]");
      if (chosen && chosen !== before) keepInView(ladder, chosen);
      change.draw(model);
    },
  };
}

function entry(index: number, { bitmap, lamps }: ValuesModel): HTMLElement {
  const { colours } = bitmap;
  const swatch = el("span", { class: "swatch" });
  swatch.style.backgroundColor = lamps.lit(index) ?? lamps.face;
  const colour = colours?.[index];
  return el(
    "div",
    { class: lamps.over(index) ? "rung entry over" : "rung entry", role: "radio", "data-value": String(index) },
    el("span", { class: "value", text: String(index) }),
    swatch,
    el("span", { class: "hex", text: colours ? (colour === undefined ? "–" : hexOf(colour)) : "" }),
    el("span", { class: "count" }),
  );
}

function count(row: HTMLElement, { bitmap, light, lamps }: ValuesModel): void {
  const index = Number(row.dataset.value);
  const pixels = light.counts.get(index) ?? 0;
  const text = pixels > 0 ? String(pixels) : "";
  const over = lamps.over(index);
  const words = [valueWords(bitmap, index), ...(over ? [l10n.t("over the cap")] : []), pixelCount(pixels)].join(", ");
  setText(row.querySelector(".count") ?? row, text);
  row.classList.toggle("found", over && pixels > 0);
  if (row.getAttribute("aria-label") === words) return;
  row.setAttribute("aria-label", words);
  row.title = words;
}

/** Scrolls the list, which its rows are placed in, and not the page. */
function keepInView(list: HTMLElement, row: HTMLElement): void {
  const top = row.offsetTop;
  if (top < list.scrollTop) list.scrollTop = top;
  else if (top + row.offsetHeight > list.scrollTop + list.clientHeight)
    list.scrollTop = top + row.offsetHeight - list.clientHeight;
}
