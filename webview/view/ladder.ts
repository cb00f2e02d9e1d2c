/** The level ladder: rungs even to the eye from dark to full, the cap as a line across, rungs above it hatched. */
import * as l10n from "@vscode/l10n";
import { lightness } from "../../shared/light/lightness.ts";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { parseLevel, rungs } from "../levels.ts";
import type { FrameLight } from "../light.ts";
import { limitOf } from "../picture.ts";
import type { Action } from "../state.ts";
import { levelName, percent } from "../words.ts";
import { makeBetween } from "./between.ts";
import { el, setText } from "./dom.ts";
import { fillRungs, useOf } from "./rungs.ts";
import type { Theme } from "./theme.ts";

export interface LadderView {
  readonly element: HTMLElement;
  draw(bitmap: BitmapInfo, light: FrameLight, level: number, theme: Theme): void;
}

export function makeLadder(dispatch: (action: Action) => void): LadderView {
  const list = el("div", { class: "rungs", role: "radiogroup", "aria-label": l10n.t("Level") });
  const label = l10n.t("Level: decimal, hex or per cent");
  const field = el("input", { type: "text", "aria-label": label, title: label, spellcheck: "false" });
  const between = makeBetween((level) => dispatch({ type: "level", level }));
  const exact = el("div", { class: "exact" }, field, between.element);
  const element = el("section", { class: "ladder", "aria-label": l10n.t("Level ladder") }, list, exact);
  let most = 0;
  let drawn = "";
  let values: number[] = [];

  const take = () => {
    const level = parseLevel(field.value, most);
    if (typeof level === "number") dispatch({ type: "level", level });
    else dispatch({ type: "say", note: level.refused });
  };
  field.addEventListener("change", take);
  list.addEventListener("click", (event) => {
    const rung = (event.target as Element).closest<HTMLElement>("[data-value]");
    if (rung) dispatch({ type: "level", level: Number(rung.dataset.value) });
  });
  list.addEventListener("keydown", (event) => {
    const by = ["ArrowUp", "ArrowRight"].includes(event.key)
      ? 1
      : ["ArrowDown", "ArrowLeft"].includes(event.key)
        ? -1
        : 0;
    const from = values.indexOf(Number((event.target as HTMLElement).dataset.value));
    const next = values[from + by];
    if (by === 0 || from < 0 || next === undefined) return;
    event.preventDefault();
    dispatch({ type: "level", level: next });
    list.querySelector<HTMLElement>(`[data-value="${next}"]`)?.focus();
  });

  const build = (bitmap: BitmapInfo, theme: Theme) => {
    const limit = limitOf(bitmap);
    values = rungs(bitmap.most, limit);
    const rows: HTMLElement[] = [];
    for (const value of [...values].reverse()) {
      if (value === limit) rows.push(el("div", { class: "cap" }));
      rows.push(rung(value, bitmap, limit, theme));
    }
    list.replaceChildren(...rows);
  };

  return {
    element,
    draw: (bitmap, light, level, theme) => {
      most = bitmap.most;
      const key = `${bitmap.most} ${bitmap.cap} ${bitmap.drive} ${bitmap.tint} ${theme.glow(0.5, bitmap.tint)} ${theme.face}`;
      if (key !== drawn) build(bitmap, theme);
      drawn = key;
      exact.hidden = most === 1;
      const use = useOf(values, light, most, limitOf(bitmap));
      fillRungs(list, values, use, bitmap, level);
      between.draw(use.between, level, bitmap, theme);
      const text = String(level);
      if (field.dataset.level !== text) {
        field.dataset.level = text;
        field.value = text;
      }
    },
  };
}

function rung(value: number, { most, tint }: BitmapInfo, limit: number | undefined, theme: Theme): HTMLElement {
  const swatch = el("span", { class: "swatch" });
  swatch.style.backgroundColor = theme.glow(Math.min(1, value / Math.max(1, limit ?? most)), tint);
  const over = limit !== undefined && value > limit;
  const facts = [
    l10n.t("{0} of full", percent(value / most)),
    l10n.t("lightness L* {0}", lightness(value / most).toFixed(0)),
  ];
  if (over) facts.push(l10n.t("over the cap"));
  const row = el("div", {
    class: over ? "rung over" : "rung",
    role: "radio",
    "data-value": String(value),
    title: facts.join(", "),
  });
  const word = el("span", { class: "value" });
  setText(word, levelName(value, most));
  row.append(swatch, word, el("span", { class: "count" }));
  return row;
}
