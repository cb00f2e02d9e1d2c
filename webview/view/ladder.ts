/** The level ladder: rungs even to the eye from dark to full, the cap as a line across, rungs above it hatched. */
import { lightness } from "../../shared/light/lightness.ts";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { nearestRung, parseLevel, rungs } from "../levels.ts";
import type { FrameLight } from "../light.ts";
import { limitOf } from "../picture.ts";
import type { Action } from "../state.ts";
import { counted, percent } from "../words.ts";
import { el, setText } from "./dom.ts";
import type { Theme } from "./theme.ts";

export interface LadderView {
  readonly element: HTMLElement;
  draw(bitmap: BitmapInfo, light: FrameLight, level: number, theme: Theme): void;
}

export function makeLadder(dispatch: (action: Action) => void): LadderView {
  const list = el("div", { class: "rungs", role: "radiogroup", "aria-label": "Level" });
  const field = el("input", { type: "text", "aria-label": "Level: decimal, hex or per cent", spellcheck: "false" });
  const element = el("section", { class: "ladder", "aria-label": "Level ladder" }, list, field);
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
    const by =
      event.key === "ArrowUp" || event.key === "ArrowRight"
        ? 1
        : event.key === "ArrowDown" || event.key === "ArrowLeft"
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
      field.hidden = most === 1;
      fill(list, values, bitmap, light, level);
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
  const word = most === 1 ? (value > 0 ? "lit" : "dark") : String(value);
  const over = limit !== undefined && value > limit;
  const row = el("div", {
    class: over ? "rung over" : "rung",
    role: "radio",
    "data-value": String(value),
    title: `${percent(value / most)} of full, lightness L* ${lightness(value / most).toFixed(0)}${over ? ", over the cap" : ""}`,
  });
  row.append(swatch, el("span", { class: "value", text: word }), el("span", { class: "count" }));
  return row;
}

/** Counts, the chosen rung, and in words what lies over the cap. */
function fill(
  list: HTMLElement,
  values: readonly number[],
  bitmap: BitmapInfo,
  light: FrameLight,
  level: number,
): void {
  const { most } = bitmap;
  const limit = limitOf(bitmap);
  const used = new Map<number, { count: number; near: boolean; exactly: string[] }>();
  let over = 0;
  for (const [value, count] of light.counts) {
    const at = nearestRung(value, values, most);
    const { count: before = 0, near = false, exactly = [] } = used.get(at) ?? {};
    used.set(at, { count: before + count, near: near || at !== value, exactly: [...exactly, `${count} of ${value}`] });
    if (limit !== undefined && value > limit) over += count;
  }
  const chosen = nearestRung(level, values, most);
  for (const row of list.querySelectorAll<HTMLElement>(".rung")) {
    const value = Number(row.dataset.value);
    const { count = 0, near = false, exactly = [] } = used.get(value) ?? {};
    const cell = row.querySelector(".count") ?? row;
    setText(cell, count > 0 ? `${near ? "~" : ""}${count}` : "");
    cell.setAttribute("title", near ? `nearest to this rung: ${exactly.join(", ")}` : "");
    const name = most === 1 ? (value > 0 ? "lit" : "dark") : `level ${value}`;
    const overCap = limit !== undefined && value > limit ? ", over the cap" : "";
    row.setAttribute("aria-label", `${name}${overCap}, ${near ? "about " : ""}${counted(count, "pixel")}`);
    row.setAttribute("aria-checked", String(value === level));
    row.classList.toggle("near", value === chosen && value !== level);
    row.tabIndex = value === chosen ? 0 : -1;
  }
  const cap = list.querySelector(".cap");
  if (!cap) return;
  const driven = bitmap.drive < 1 ? " driven" : "";
  setText(cap, `cap ${bitmap.cap}${driven}${over > 0 ? ` · ${over} over` : ""}`);
}
