/** Pixels too small for gaps: one image of the whole picture, stretched onto the lattice; marks are drawn over it. */

import { isDiamond, pointAt, type Vector } from "../../shared/light/lattice.ts";
import type { Canvas, Cells } from "./cells.ts";

/** Smallest side on which a stroke across a pixel can be told from its light. */
const MARKED = 4;

/** Draws again where pixels changed; `all` where the canvas is empty. */
export function smallCells(): (on: Canvas, cells: Cells, changed: readonly number[], all: boolean) => void {
  const sheet = document.createElement("canvas");
  let image = new ImageData(1, 1);
  return (on, cells, changed, all) => {
    const { columns, rows } = on.geometry;
    const own = sheet.getContext("2d");
    if (!own) return;
    if (image.width !== columns || image.height !== rows) {
      image = new ImageData(columns, rows);
      sheet.width = columns;
      sheet.height = rows;
    }
    colour(image, cells, changed);
    const dirty = boxOf(changed, columns);
    own.putImageData(image, 0, 0, dirty.x, dirty.y, dirty.width, dirty.height);
    // On a diamond's slanted edges a part can't be drawn without a seam.
    const part = all || isDiamond(on.geometry.turn) ? { x: 0, y: 0, width: columns, height: rows } : dirty;
    stretch(on, sheet, part);
    marks(on, cells, part);
  };
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

function boxOf(indexes: readonly number[], columns: number): Box {
  let [left, top, right, bottom] = [Number.MAX_SAFE_INTEGER, Number.MAX_SAFE_INTEGER, 0, 0];
  for (const index of indexes) {
    const [x, y] = [index % columns, Math.floor(index / columns)];
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  }
  return { x: left, y: top, width: right - left + 1, height: bottom - top + 1 };
}

function colour({ data }: ImageData, { pixels, lamps }: Cells, changed: readonly number[]) {
  for (const index of changed) {
    const rgb = lamps.shade(pixels[index] as number);
    data[index * 4] = rgb >> 16;
    data[index * 4 + 1] = (rgb >> 8) & 255;
    data[index * 4 + 2] = rgb & 255;
    data[index * 4 + 3] = 255;
  }
}

function stretch({ context, geometry, scroll }: Canvas, sheet: HTMLCanvasElement, { x, y, width, height }: Box): void {
  const { origin, along, down } = geometry.lattice;
  context.save();
  context.imageSmoothingEnabled = false;
  context.transform(along.x, along.y, down.x, down.y, origin.x - scroll.x, origin.y - scroll.y);
  context.drawImage(sheet, x, y, width, height, x, y, width, height);
  context.restore();
}

/** Hatched where not written; a stroke across what is over the cap, if there is room for one. */
function marks(on: Canvas, { pixels, lamps, unwritten }: Cells, { x: left, y: top, width, height }: Box): void {
  const { context, geometry: g, theme, scroll } = on;
  const at = (x: number, y: number): Vector => {
    const point = pointAt(g.lattice, x, y);
    return { x: point.x - scroll.x, y: point.y - scroll.y };
  };
  const stroke = (from: Vector, to: Vector) => {
    context.moveTo(from.x, from.y);
    context.lineTo(to.x, to.y);
  };
  context.lineWidth = 1;
  const missing = new Path2D();
  let any = false;
  context.beginPath();
  for (let y = top; y < top + height; y++) {
    for (let x = left; x < left + width; x++) {
      const index = y * g.columns + x;
      if (g.side >= MARKED && lamps.over(pixels[index] as number)) stroke(at(x, y), at(x + 1, y + 1));
      if (unwritten[index] !== 1 || (x > left && unwritten[index - 1] === 1)) continue;
      let end = x + 1;
      while (end < left + width && unwritten[y * g.columns + end] === 1) end++;
      any = true;
      const corners = [at(x, y), at(end, y), at(end, y + 1), at(x, y + 1)];
      for (const [i, corner] of corners.entries()) missing[i === 0 ? "moveTo" : "lineTo"](corner.x, corner.y);
      missing.closePath();
    }
  }
  context.strokeStyle = theme.contrast ? lamps.face : theme.warning;
  context.stroke();
  if (!any) return;
  context.fillStyle = hatching(context, lamps.hatch) ?? lamps.hatch;
  context.fill(missing);
}

/** Diagonal strokes that go on from pixel to pixel. */
function hatching(context: CanvasRenderingContext2D, colour: string): CanvasPattern | null {
  const tile = document.createElement("canvas");
  tile.width = tile.height = 6;
  const own = tile.getContext("2d");
  if (!own) return null;
  own.strokeStyle = colour;
  own.beginPath();
  for (const at of [-3, 3, 9]) {
    own.moveTo(at - 4, 7);
    own.lineTo(at + 4, -1);
  }
  own.stroke();
  return context.createPattern(tile, "repeat");
}
