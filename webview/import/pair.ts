/** Source and result side by side, both as the panel's pixels lie, at one scale. */
import * as l10n from "@vscode/l10n";
import type { Lattice } from "../../shared/light/lattice.ts";
import { latticeOf, pointAt, stepsOf } from "../../shared/light/lattice.ts";
import type { ImportPreview } from "../../shared/protocol/importing.ts";
import { dotsOf, turnOf } from "../look.ts";
import { scaleOf } from "../scale.ts";
import { el, setText, sizeCanvas } from "../view/dom.ts";
import type { Lamps } from "../view/lamps.ts";
import { lampsOf } from "../view/lamps.ts";
import type { Theme } from "../view/theme.ts";

export interface Pair {
  readonly element: HTMLElement;
  /** `names` are those of source and result; `frame` counts the pictures from 0. */
  draw(preview: ImportPreview | undefined, frame: number, names: readonly [string, string], theme: Theme): void;
}

/** Lengths in CSS pixels. */
const TALLEST = 300;
const GAP = 16;
/** Smallest step on which lamps can be told from cells. */
const LAMPS = 5;

export function makePair(): Pair {
  const [source, result] = [el("canvas", { role: "img" }), el("canvas", { role: "img" })];
  const words = [el("figcaption", { class: "small dim" }), el("figcaption", { class: "small dim" })] as const;
  const element = el("div", { class: "pair" }, el("figure", {}, source, words[0]), el("figure", {}, result, words[1]));
  return {
    element,
    draw: (preview, frame, names, theme) => {
      element.hidden = !preview;
      if (!preview) return;
      setText(words[0], names[0]);
      setText(words[1], names[1]);
      source.setAttribute("aria-label", l10n.t("the picture as it lies under the bitmap: {0}", names[0]));
      result.setAttribute("aria-label", l10n.t("the bitmap that it becomes: {0}", names[1]));
      const { bitmap } = preview;
      const turn = turnOf(bitmap, "lit");
      const { across, down } = stepsOf(bitmap.width, bitmap.height, turn);
      const room = Math.max(40, (element.clientWidth - GAP) / 2);
      const fine = Math.min(room / across, TALLEST / down);
      const step = fine >= 2 ? Math.min(24, Math.floor(fine)) : fine;
      const lattice = latticeOf(bitmap.width, bitmap.height, step, turn, { x: 0, y: 0 });
      const size = [across * step, down * step] as const;
      drawSource(sizeCanvas(source, ...size), preview, lattice);
      drawResult(sizeCanvas(result, ...size), preview, frame, lattice, lampsOf(scaleOf(bitmap), theme), step);
    },
  };
}

function drawSource(context: CanvasRenderingContext2D, { source, bitmap }: ImportPreview, lattice: Lattice): void {
  const sheet = el("canvas", { width: String(source.width), height: String(source.height) });
  const image = new ImageData(source.width, source.height);
  image.data.set(Uint8Array.from(atob(source.data), (c) => c.charCodeAt(0)));
  sheet.getContext("2d")?.putImageData(image, 0, 0);
  const { origin, along, down } = lattice;
  const finer = source.width / bitmap.width;
  context.transform(along.x / finer, along.y / finer, down.x / finer, down.y / finer, origin.x, origin.y);
  context.drawImage(sheet, 0, 0);
}

function drawResult(
  context: CanvasRenderingContext2D,
  { bitmap, frames }: ImportPreview,
  frame: number,
  lattice: Lattice,
  lamps: Lamps,
  step: number,
): void {
  const pixels = frames[frame] ?? frames[0] ?? [];
  const { along, down } = lattice;
  const corners = [
    [0, 0],
    [bitmap.width, 0],
    [bitmap.width, bitmap.height],
    [0, bitmap.height],
  ] as const;
  context.beginPath();
  for (const [x, y] of corners) {
    const point = pointAt(lattice, x, y);
    context.lineTo(point.x, point.y);
  }
  context.closePath();
  context.fillStyle = lamps.face;
  context.fill();
  // Where the lattice is a diamond, a step is half of a pixel's diagonal.
  const side = Math.hypot(along.x, along.y);
  const round = dotsOf(bitmap, "lit") === "round";
  pixels.forEach((value, i) => {
    const lit = lamps.lit(value);
    const [x, y] = [i % bitmap.width, Math.floor(i / bitmap.width)];
    if (step < LAMPS) {
      if (lit === undefined) return;
      const at = pointAt(lattice, x, y);
      context.fillStyle = lit;
      context.beginPath();
      context.moveTo(at.x, at.y);
      context.lineTo(at.x + along.x, at.y + along.y);
      context.lineTo(at.x + along.x + down.x, at.y + along.y + down.y);
      context.lineTo(at.x + down.x, at.y + down.y);
      context.fill();
      return;
    }
    const middle = pointAt(lattice, x + 0.5, y + 0.5);
    const radius = side * 0.4;
    context.beginPath();
    if (round) context.arc(middle.x, middle.y, radius, 0, 2 * Math.PI);
    else context.rect(middle.x - radius, middle.y - radius, 2 * radius, 2 * radius);
    if (lit !== undefined) {
      context.fillStyle = lit;
      context.fill();
    } else {
      context.strokeStyle = lamps.edge;
      context.stroke();
    }
  });
}
