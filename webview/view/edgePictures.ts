/** The frame at a position as it is held at the cap, and beside it the sum of image and edge as it would be. */
import * as l10n from "@vscode/l10n";
import type { Sums } from "../edge/sums.ts";
import { pixelCount } from "../words.ts";
import { el, setText, sizeCanvas } from "./dom.ts";
import type { Lamps } from "./lamps.ts";

export interface EdgePictures {
  readonly element: HTMLElement;
  draw(given: Given): void;
}

interface Given {
  readonly sums: Sums;
  readonly columns: number;
  readonly lamps: Lamps;
  readonly cap: number;
  /** Room for both, in CSS pixels. */
  readonly width: number;
}

/** Sides of a picture, in CSS pixels. */
const LARGE = 108;
const BETWEEN = 12;
/** Smallest side on which pixels stand apart, and on which a stroke across one is to be seen. */
const APART = 6;
const STRUCK = 4;

export function makeEdgePictures(): EdgePictures {
  const one = () => ({
    canvas: el("canvas", { "aria-hidden": "true" }),
    words: el("figcaption", { class: "dim small" }),
  });
  const [held, sum] = [one(), one()];
  const figures = [held, sum].map(({ canvas, words }) => el("figure", {}, canvas, words));
  const sheet = el("canvas");
  return {
    element: el("div", { class: "edgePictures" }, ...figures),
    draw: (given) => {
      const { sums, cap } = given;
      paint(held.canvas, sheet, sums.held, given);
      paint(sum.canvas, sheet, sums.sums, given);
      setText(held.words, l10n.t("held at {0}", cap));
      const above = l10n.t("sum: {0} above", pixelCount(sums.above));
      setText(sum.words, sums.above === 0 ? l10n.t("sum: none above") : above);
    },
  };
}

function paint(canvas: HTMLCanvasElement, sheet: HTMLCanvasElement, pixels: Uint32Array, given: Given): void {
  const { columns, lamps, cap, width } = given;
  const rows = pixels.length / columns;
  const room = Math.min((width - BETWEEN) / 2 / columns, LARGE / rows, LARGE / columns);
  // Whole sizes where there is room for them; a picture of more pixels than that is made smaller.
  const side = room >= 1 ? Math.floor(room) : Math.max(0.05, room);
  const context = sizeCanvas(canvas, Math.max(1, Math.round(columns * side)), Math.max(1, Math.round(rows * side)));
  context.fillStyle = lamps.face;
  context.fillRect(0, 0, columns * side, rows * side);
  if (side < APART) stretch(context, sheet, pixels, side, given);
  context.lineWidth = 1.5;
  context.strokeStyle = lamps.face;
  context.beginPath();
  for (let i = 0; i < pixels.length && side >= STRUCK; i++) {
    const [x, y] = [(i % columns) * side, Math.floor(i / columns) * side];
    const value = pixels[i] as number;
    const lit = side >= APART ? lamps.lit(Math.min(value, cap)) : undefined;
    if (lit !== undefined) {
      context.fillStyle = lit;
      context.fillRect(x, y, side - 1, side - 1);
    }
    if (value <= cap) continue;
    // What is above stands out by a stroke, not by a colour alone.
    context.moveTo(x + 1, y + side - 2);
    context.lineTo(x + side - 2, y + 1);
  }
  context.stroke();
}

/** Pixels without gaps, at once. */
function stretch(
  context: CanvasRenderingContext2D,
  sheet: HTMLCanvasElement,
  pixels: Uint32Array,
  side: number,
  { columns, lamps, cap }: Given,
): void {
  const rows = pixels.length / columns;
  if (sheet.width !== columns || sheet.height !== rows) Object.assign(sheet, { width: columns, height: rows });
  const own = sheet.getContext("2d");
  if (!own) return;
  const image = new ImageData(columns, rows);
  pixels.forEach((value, i) => {
    const rgb = lamps.shade(Math.min(value, cap));
    image.data.set([rgb >> 16, (rgb >> 8) & 255, rgb & 255, 255], i * 4);
  });
  own.putImageData(image, 0, 0);
  context.imageSmoothingEnabled = side < 1;
  context.drawImage(sheet, 0, 0, columns * side, rows * side);
}
