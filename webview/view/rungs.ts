/** What the picture uses of the ladder: counts on the rungs, and the values that lie between them. */
import * as l10n from "@vscode/l10n";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { nearestRung } from "../levels.ts";
import type { FrameLight } from "../light.ts";
import { levelName, pixelCount } from "../words.ts";
import { setText } from "./dom.ts";

interface Use {
  /** By rung: how many pixels, and of them those of other values, as `[value, count]`. */
  readonly rungs: ReadonlyMap<
    number,
    { readonly count: number; readonly near: readonly (readonly [number, number])[] }
  >;
  /** Values that are no rung, the highest first. */
  readonly between: readonly { readonly value: number; readonly count: number; readonly rung: number }[];
  readonly over: number;
}

export function useOf(values: readonly number[], light: FrameLight, bitmap: BitmapInfo): Use {
  const used = new Map<number, { count: number; near: [number, number][] }>();
  const between: { value: number; count: number; rung: number }[] = [];
  let over = 0;
  const { most, limit } = bitmap;
  for (const [value, count] of light.counts) {
    const rung = values.includes(value) ? value : nearestRung(value, values, most, bitmap.light);
    const { count: before = 0, near = [] } = used.get(rung) ?? {};
    if (rung !== value) {
      near.push([value, count]);
      between.push({ value, count, rung });
    }
    used.set(rung, { count: before + count, near });
    if (limit !== undefined && value > limit) over += count;
  }
  return { rungs: used, between: between.sort((a, b) => b.value - a.value), over };
}

/** Counts, the chosen rung, and in words what lies over the cap. */
export function fillRungs(
  list: HTMLElement,
  values: readonly number[],
  use: Use,
  bitmap: BitmapInfo,
  level: number,
): void {
  const { most, limit } = bitmap;
  const chosen = values.includes(level) ? level : nearestRung(level, values, most, bitmap.light);
  for (const row of list.querySelectorAll<HTMLElement>(".rung")) {
    const value = Number(row.dataset.value);
    const { count = 0, near = [] } = use.rungs.get(value) ?? {};
    const over = limit !== undefined && value > limit;
    const cell = row.querySelector<HTMLElement>(".count") ?? row;
    setText(cell, count > 0 ? `${near.length > 0 ? "~" : ""}${count}` : "");
    cell.title = near.length > 0 ? nearWords(value, near) : "";
    const name = most === 1 ? levelName(value, most) : l10n.t("level {0}", value);
    const parts = [name];
    if (over) parts.push(l10n.t("over the cap"));
    parts.push(near.length > 0 ? l10n.t("about {0}", pixelCount(count)) : pixelCount(count));
    row.setAttribute("aria-label", parts.join(", "));
    row.setAttribute("aria-checked", String(value === level));
    row.classList.toggle("near", value === chosen && value !== level);
    row.classList.toggle("found", over && count > 0);
    row.tabIndex = value === chosen ? 0 : -1;
  }
  const cap = list.querySelector(".cap");
  if (!cap) return;
  const parts = [bitmap.drive < 1 ? l10n.t("cap {0} driven", bitmap.cap ?? 0) : l10n.t("cap {0}", bitmap.cap ?? 0)];
  if (use.over > 0) parts.push(l10n.t("{0} over", use.over));
  setText(cap, parts.join(" · "));
}

function nearWords(rung: number, near: readonly (readonly [number, number])[]): string {
  const values = near.map(([value, count]) => l10n.t("{0} × {1}", count, value)).join(", ");
  return l10n.t("~ counts values between the rungs too, of which {0} is the nearest: {1}", rung, values);
}
