/** The frame at a position as it is held at the cap, and beside it the sum of image and edge as it would be. */
import * as l10n from "@vscode/l10n";
import type { Sums } from "../edge/sums.ts";
import { pixelCount } from "../words.ts";
import { el, setText, sizeCanvas } from "./dom.ts";
import type { Lamps } from "./lamps.ts";

export interface EdgePictures {
  readonly element: HTMLElement;
  draw(given: {
    readonly sums: Sums;
    readonly columns: number;
    readonly lamps: Lamps;
    readonly cap: number;
    readonly width: number;
  }): void;
}

/** Sides of a picture, in CSS pixels. */
const LARGE = 108;
const BETWEEN = 12;

export function makeEdgePictures(): EdgePictures {
  const pictures = ["held", "sum"].map(() => ({
    canvas: el("canvas"),
    words: el("figcaption", { class: "dim small" }),
  }));
  const element = el(
    "div",
    { class: "edgePictures" },
    ...pictures.map(({ canvas, words }) => el("figure", {}, canvas, words)),
  );
  return {
    element,
    draw: ({ sums, columns, lamps, cap, width }) => {
      const rows = sums.held.length / columns;
      const room = Math.min(LARGE, (width - BETWEEN) / 2);
      const side = Math.max(1, Math.floor(Math.min(room / columns, LARGE / rows)));
      const [held, sum] = pictures as [(typeof pictures)[0], (typeof pictures)[0]];
      paint(held.canvas, sums.held, columns, side, lamps, cap);
      paint(sum.canvas, sums.sums, columns, side, lamps, cap);
      setText(held.words, l10n.t("held at {0}", cap));
      setText(
        sum.words,
        sums.above === 0 ? l10n.t("sum: none above") : l10n.t("sum: {0} above", pixelCount(sums.above)),
      );
    },
  };
}

function paint(
  canvas: HTMLCanvasElement,
  pixels: Uint32Array,
  columns: number,
  side: number,
  lamps: Lamps,
  cap: number,
): void {
  const rows = pixels.length / columns;
  const context = sizeCanvas(canvas, columns * side, rows * side);
  canvas.setAttribute("aria-hidden", "true");
  context.fillStyle = lamps.face;
  context.fillRect(0, 0, columns * side, rows * side);
  const gap = side >= 6 ? 1 : 0;
  context.lineWidth = 1.5;
  for (let i = 0; i < pixels.length; i++) {
    const [x, y] = [(i % columns) * side, Math.floor(i / columns) * side];
    const value = pixels[i] as number;
    const lit = lamps.lit(Math.min(value, cap));
    if (lit !== undefined) {
      context.fillStyle = lit;
      context.fillRect(x, y, side - gap, side - gap);
    }
    if (value <= cap || side < 4) continue;
    // What is above stands out by a stroke, not by a colour alone.
    context.strokeStyle = lamps.face;
    context.beginPath();
    context.moveTo(x + 1, y + side - 1 - gap);
    context.lineTo(x + side - 1 - gap, y + 1);
    context.stroke();
  }
}
