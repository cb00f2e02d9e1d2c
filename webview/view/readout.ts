/** Words for what is pointed at: a pixel, or a row or column on a ruler, with its findings. */
import * as l10n from "@vscode/l10n";
import { findingsAt } from "../findings.ts";
import type { Point } from "../tools/shapes.ts";
import { valueWords } from "../values.ts";
import { columnWords, findingWords, percent, pixelWords, rowWords } from "../words.ts";
import type { Hovered } from "./grid.ts";
import type { Model } from "./model.ts";

/** A pixel as screen readers hear it. */
export function pixelTold(model: Model, { x, y }: Point): string {
  const { width } = model.shown.bitmap;
  const findings = findingsAt(model.placed.here, width, y, x).map(findingWords);
  return [wordsAt(model, { x, y }), ...findings].join("; ");
}

/** The line under the grid. */
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
  const share = l10n.t(
    "row light {0}, column light {1}",
    percent(light.rows[at.y] ?? 0),
    percent(light.columns[at.x] ?? 0),
  );
  return `${wordsAt(model, at)}; ${share}`;
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
