/**
 * Colours to choose from in rgb formats: a short ladder for each channel, whose swatches are the colours that one would
 * get, and the colours in use. Only what the format can hold is there.
 */
import * as l10n from "@vscode/l10n";
import { fieldsOf, packWithin } from "../../shared/pixels/colour.ts";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { nearestRung, rungs } from "../levels.ts";
import { mostUsed } from "../light.ts";
import type { Action } from "../state.ts";
import { formatOf, inOrder, valueText, valueWords } from "../values.ts";
import { pixelCount } from "../words.ts";
import { el, setText } from "./dom.ts";
import { MOST_LISTED, makeInUse } from "./inUse.ts";
import type { Lamps } from "./lamps.ts";
import { listenToRadios, markChosen } from "./radios.ts";
import { makeRung } from "./rung.ts";
import type { ValuesModel, ValuesView } from "./values.ts";

const NAMES = [l10n.t("Red"), l10n.t("Green"), l10n.t("Blue")] as const;

export function makeChannels(dispatch: (action: Action) => void): ValuesView {
  const take = (level: number) => dispatch({ type: "level", level });
  let level = 0;
  const channels = NAMES.map((name, at) => makeChannel(name, at, () => level, take));
  const ladder = el("div", { class: "channels" }, ...channels.map(({ element }) => element));
  const used = makeInUse(l10n.t("in use"), l10n.t("Colours in use"), take);
  let of: readonly unknown[] = [];

  return {
    parts: { ladder, used: used.element },
    draw: (model) => {
      level = model.level;
      for (const channel of channels) channel.draw(model);
      const { bitmap, light, lamps, busy } = model;
      const now = [light, lamps, level];
      if (busy || now.every((one, i) => one === of[i])) return;
      of = now;
      const listed = inOrder(bitmap, mostUsed(light.counts, MOST_LISTED));
      const colours = listed.map((value) => {
        const count = light.counts.get(value) ?? 0;
        const words = [valueWords(bitmap, value), pixelCount(count)];
        if (lamps.over(value)) words.push(l10n.t("over the cap"));
        return { value, count, text: valueText(bitmap, value), shownCount: count, words: words.join(", ") };
      });
      used.draw(colours, light.counts.size - listed.length, level, lamps);
    },
  };
}

interface ChannelView {
  readonly element: HTMLElement;
  draw(model: ValuesModel): void;
}

function makeChannel(name: string, at: number, level: () => number, take: (value: number) => void): ChannelView {
  const number = el("span", { class: "number" });
  const head = el("div", { class: "channel-head" }, document.createTextNode(name.slice(0, 1)), number);
  const list = el("div", { class: "rungs", role: "radiogroup", "aria-label": name });
  const element = el("div", { class: "channel" }, head, list);
  let field: readonly [shift: number, most: number] = [0, 1];
  let steps: number[] = [];
  let key = "";
  let drawn: readonly unknown[] = [];
  listenToRadios(list, (value) => take(withField(level(), field, value)), true);

  const build = (bitmap: BitmapInfo) => {
    const most = field[1];
    const limit = channelLimit(bitmap, at);
    steps = rungs(most, limit, bitmap.light);
    const rows: HTMLElement[] = [];
    for (const value of [...steps].reverse()) {
      const over = limit !== undefined && value > limit;
      if (value === limit) rows.push(el("div", { class: "cap", title: l10n.t("cap {0}", bitmap.cap ?? 0) }));
      rows.push(makeRung({ value, text: String(value), colour: "", over, facts: [channelWords(name, value, most)] }));
    }
    list.replaceChildren(...rows);
    for (const rung of rungsOf(list)) rung.setAttribute("aria-label", rung.title);
  };

  return {
    element,
    draw: ({ bitmap, level: chosen, lamps }) => {
      field = fieldsOf(bitmap.format)[at] ?? field;
      const now = [bitmap.format, bitmap.limit, bitmap.light].join();
      const fresh = now !== key;
      if (fresh) build(bitmap);
      key = now;
      const look = [chosen, lamps];
      if (!fresh && look.every((one, i) => one === drawn[i])) return;
      drawn = look;
      const value = fieldOf(chosen, field);
      setText(number, String(value));
      const near = steps.includes(value) ? value : nearestRung(value, steps, field[1], bitmap.light);
      markChosen(list, value, near);
      colour(list, chosen, field, lamps);
      for (const rung of rungsOf(list))
        rung.classList.toggle("near", near !== value && Number(rung.dataset.value) === near);
    },
  };
}

/** Each swatch is the chosen colour with this channel at the rung. */
function colour(list: HTMLElement, chosen: number, field: readonly [number, number], lamps: Lamps): void {
  for (const rung of rungsOf(list)) {
    const swatch = rung.querySelector<HTMLElement>(".swatch");
    const value = withField(chosen, field, Number(rung.dataset.value));
    if (swatch) swatch.style.backgroundColor = lamps.lit(value) ?? lamps.face;
  }
}

function rungsOf(list: HTMLElement): NodeListOf<HTMLElement> {
  return list.querySelectorAll<HTMLElement>("[data-value]");
}

function channelWords(name: string, value: number, most: number): string {
  return l10n.t("{0} {1} of {2}", name, value, most);
}

/** Highest value of a channel within the cap; undefined without one. */
function channelLimit(bitmap: BitmapInfo, at: number): number | undefined {
  const format = formatOf(bitmap);
  const field = fieldsOf(bitmap.format)[at];
  if (bitmap.limit === undefined || !field) return undefined;
  const limit = fieldOf(packWithin(format, 0xffffff, bitmap.limit), field);
  return limit < field[1] ? limit : undefined;
}

function fieldOf(value: number, [shift, most]: readonly [number, number]): number {
  return (value >> shift) & most;
}

function withField(value: number, [shift, most]: readonly [number, number], channel: number): number {
  return (value & ~(most << shift)) | (channel << shift);
}
