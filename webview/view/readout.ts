/** Words for what is pointed at: a pixel, or a row or column on a ruler, with its findings. */
import * as l10n from "@vscode/l10n";
import { findingsAt } from "../findings.ts";
import type { Point } from "../tools/shapes.ts";
import { valueWords } from "../values.ts";
import { columnWords, findingWords, percent, pixelWords, rowWords } from "../words.ts";
import { el } from "./dom.ts";
import type { Hovered } from "./grid.ts";
import type { Model } from "./model.ts";

/** A pixel as screen readers hear it. */
export function pixelTold(model: Model, { x, y }: Point): string {
  const { width } = model.shown.bitmap;
  const findings = findingsAt(model.placed.here, width, y, x).map(findingWords);
  return [wordsAt(model, { x, y }), ...findings].join("; ");
}

/** The words under the grid. */
export function readoutOf(model: Model, hovered: Hovered | undefined): string {
  const { light, lines, placed, shown, now } = model;
  const { width } = shown.bitmap;
  const { x, y } = hovered ?? {};
  if (x === undefined && y !== undefined) {
    const words = rowWords(y, lines[y] ?? 0, light.rows[y] ?? 0);
    return [words, ...findingsAt(placed.here, width, y).map(findingWords)].join("; ");
  }
  if (x !== undefined && y === undefined) return columnWords(x, light.columns[x] ?? 0);
  const at = x === undefined || y === undefined ? now.cursor : { x, y };
  return `${wordsAt(model, at)}; ${shares(light.rows[at.y] ?? 0, light.columns[at.x] ?? 0)}`;
}

/** Words as long as those of any pixel, for which room is kept so that nothing moves under the pointer. */
export function longestReadout({ shown, lines }: Model): string {
  const { width, height, frames, most } = shown.bitmap;
  const values = [0, most].map((value) => valueWords(shown.bitmap, value));
  const words = pixelWords({
    x: width - 1,
    y: height - 1,
    value: values.reduce((one, other) => (other.length > one.length ? other : one)),
    line: lines.at(-1) ?? 0,
    over: false,
    unwritten: false,
    ...(frames > 1 ? { frame: frames - 1 } : {}),
  });
  return `${words}; ${shares(0.99, 0.99)}`;
}

/** What is told, each part of it unbroken where it fits into a line. */
export function tellParts(element: HTMLElement, words: string): void {
  if (element.textContent === words) return;
  const parts = words.split(/(?<=[,;]) /).map((text) => el("span", { text }));
  element.replaceChildren(...parts.flatMap((part, i) => (i === 0 ? [part] : [document.createTextNode(" "), part])));
}

function shares(row: number, column: number): string {
  return l10n.t("light: row {0}, column {1}", percent(row), percent(column));
}

/** Words for the pointer: the findings of the row or pixel that it is over. */
export function tipOf({ placed, shown }: Model, hovered: Hovered | undefined): string {
  if (hovered?.y === undefined) return "";
  return findingsAt(placed.here, shown.bitmap.width, hovered.y, hovered.x).map(findingWords).join("\n");
}

function wordsAt({ pixels, shown, scale, lines, unwritten, now }: Model, { x, y }: Point): string {
  const { width, frames } = shown.bitmap;
  const index = y * width + x;
  const value = pixels[index] ?? 0;
  return pixelWords({
    x,
    y,
    value: valueWords(shown.bitmap, value),
    line: lines[y] ?? 0,
    over: scale.over(value),
    unwritten: unwritten[index] === 1,
    ...(frames > 1 ? { frame: now.frame } : {}),
  });
}
