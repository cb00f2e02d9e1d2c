/** One pixel as a square of the canvas: a lamp or a cell, and by shape what is over the cap or not written. */
import type { Lamps } from "./lamps.ts";
import type { Theme } from "./theme.ts";

interface Face {
  readonly lamps: Lamps;
  /** The colour of its light; undefined for a pixel that is off. */
  readonly lit: string | undefined;
  readonly dots: "round" | "square" | undefined;
  readonly over: boolean;
  /** Not written in the source. */
  readonly missing: boolean;
  /** It stands on its corner, where edges are soft. */
  readonly slanted: boolean;
}

/** Pixels smaller than this (CSS pixels) have neither gaps nor lamps. */
export const SMALL = 6;
/** Radius of a lamp and of the light around it, in sides. */
const LAMP = 0.36;
const HALO = 0.5;

export function drawFace(
  context: CanvasRenderingContext2D,
  theme: Theme,
  face: Face,
  x: number,
  y: number,
  side: number,
): void {
  const { lamps, lit, dots, over } = face;
  context.fillStyle = dots ? lamps.face : theme.background;
  // Soft edges would let the page shine through between two pixels.
  const beyond = face.slanted ? 0.6 : 0;
  context.fillRect(x - beyond, y - beyond, side + 2 * beyond, side + 2 * beyond);
  if (over && lit) square(context, lit, x, y, side, dots ? side * 0.08 : 0);
  else if (dots) lamp(context, theme, face, dots, x, y, side);
  else square(context, lit ?? lamps.face, x, y, side, 0);
  if (theme.contrast && !dots) {
    context.strokeStyle = lamps.edge;
    context.lineWidth = 1;
    context.strokeRect(x + 0.5, y + 0.5, side - 2, side - 2);
  }
  if (face.missing) hatch(context, x, y, side - 1, lamps);
  if (over) notch(context, x, y, side - 1, theme, lamps);
}

/** A cell, with a gap of one pixel to the next. */
function square(context: CanvasRenderingContext2D, colour: string, x: number, y: number, side: number, in_: number) {
  context.fillStyle = colour;
  context.fillRect(x + in_, y + in_, side - 1 - 2 * in_, side - 1 - 2 * in_);
}

function lamp(
  context: CanvasRenderingContext2D,
  theme: Theme,
  { lamps, lit }: Face,
  dots: "round" | "square",
  x: number,
  y: number,
  side: number,
): void {
  const shape = (radius: number) => {
    context.beginPath();
    if (dots === "round") context.arc(x + side / 2, y + side / 2, radius, 0, 2 * Math.PI);
    else context.rect(x + side / 2 - radius, y + side / 2 - radius, 2 * radius, 2 * radius);
  };
  if (lit) {
    context.fillStyle = lit;
    if (!theme.contrast) {
      context.globalAlpha = 0.2;
      shape(HALO * side);
      context.fill();
      context.globalAlpha = 1;
    }
    shape((LAMP + 0.03) * side);
    context.fill();
    if (!theme.contrast) return;
  } else shape((LAMP - 0.04) * side);
  // A lamp that is off is a ring: a disc would look brighter than one of the lowest light.
  context.strokeStyle = lamps.edge;
  context.lineWidth = 1;
  context.stroke();
}

/** Not written: diagonal strokes. */
function hatch(context: CanvasRenderingContext2D, x: number, y: number, size: number, lamps: Lamps): void {
  context.strokeStyle = lamps.hatch;
  context.lineWidth = 1;
  context.beginPath();
  const step = size >= 12 ? size / 3 : size / 2;
  for (let at = step; at < 2 * size - 1; at += step) {
    context.moveTo(x + Math.max(0, at - size), y + Math.min(at, size));
    context.lineTo(x + Math.min(at, size), y + Math.max(0, at - size));
  }
  context.stroke();
}

/** Over the cap: the upper right corner is cut off. */
function notch(
  context: CanvasRenderingContext2D,
  x: number,
  y: number,
  size: number,
  theme: Theme,
  lamps: Lamps,
): void {
  const leg = Math.max(3, size * 0.5);
  context.beginPath();
  context.moveTo(x + size - leg, y);
  context.lineTo(x + size, y);
  context.lineTo(x + size, y + leg);
  context.closePath();
  context.fillStyle = theme.contrast ? theme.background : lamps.face;
  context.fill();
  context.strokeStyle = theme.contrast ? theme.foreground : theme.warning;
  context.lineWidth = size >= 10 ? 2 : 1;
  context.beginPath();
  context.moveTo(x + size - leg, y);
  context.lineTo(x + size, y + leg);
  context.stroke();
}
