/**
 * The rows of a bitmap that end on some lines. A row here is what its array has in one run: a row of pixels, a column,
 * or a band of 8 rows. One that goes over several lines is told on the line of its last written element: only there is
 * all of it known to a reader who comes from above, and each row has one place.
 */
import type { TextDocument } from "vscode-languageserver-textdocument";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { elementsOf } from "../../shared/bitmap/resolve.ts";
import type { Layout } from "../../shared/pixels/layout.ts";
import { isWhole } from "../../shared/pixels/layout.ts";
import { pixelOf } from "../../shared/pixels/picture.ts";
import type { RowPixels } from "../../shared/protocol/lsp.ts";
import { elementSpan } from "../../shared/source/arrays.ts";
import { visitPixels } from "./elementPixels.ts";
import { slotsOf, writtenAt } from "./written.ts";

type Area = Pick<RowPixels, "frame" | "x" | "y" | "width" | "height">;

/** Rows whose last written element is one of those from `from` up to `to` (exclusive), in order of the text. */
export function rowsEnding(document: TextDocument, bitmap: Bitmap, from: number, to: number): RowPixels[] {
  const { layout, array } = bitmap;
  const bits = elementsOf(bitmap);
  // In driver order a row of the text is no row of the picture.
  if (!layout || !bits || layout.driver) return [];
  const indexOf = writtenAt(array);
  const ending: { last: number; area: Area }[] = [];
  for (const area of areasOf(bitmap, layout, from, to)) {
    const { element } = layout.table(area.frame);
    let last = -1;
    for (const pixel of pixelsIn(area, layout)) {
      const at = element[pixel] as number;
      for (let k = 0; k < layout.span; k++) last = Math.max(last, indexOf(at + k));
    }
    if (last >= from && last < to) ending.push({ last, area });
  }
  ending.sort((a, b) => a.last - b.last || a.area.frame - b.area.frame);
  return ending.map(({ last, area }) => ({
    ...area,
    line: document.positionAt(elementSpan(array, last).start).line,
    pixels: pixelsIn(area, layout).map((pixel) => pixelOf(bits, layout, area.frame, pixel, bitmap.invert)),
  }));
}

/** The rows that have a pixel in these written elements. */
function areasOf(bitmap: Bitmap, layout: Layout, from: number, to: number): Area[] {
  const found = new Map<number, Area>();
  const slots = slotsOf(bitmap.array, from, to);
  if (!slots) return [];
  let before = -1;
  visitPixels(bitmap, slots[0], slots[1] + 1, (_slot, frame, pixel) => {
    const area = areaAt(layout, frame, pixel % layout.width, Math.floor(pixel / layout.width));
    const key = (frame * layout.height + area.y) * layout.width + area.x;
    if (key === before) return;
    before = key;
    found.set(key, area);
  });
  return [...found.values()];
}

function areaAt({ width, height, format, pack, scan, from }: Layout, frame: number, x: number, y: number): Area {
  const whole = isWhole(format, pack);
  if (whole ? scan.endsWith("columns") : pack === "columns") return { frame, x, y: 0, width: 1, height };
  if (whole || pack !== "pages") return { frame, x: 0, y, width, height: 1 };
  // Bands are counted from the side where reading begins.
  const upward = from.startsWith("bottom");
  const near = (upward ? height - 1 - y : y) & ~7;
  const far = Math.min(height, near + 8);
  return { frame, x: 0, y: upward ? height - far : near, width, height: far - near };
}

function pixelsIn(area: Area, layout: Layout): number[] {
  const pixels: number[] = [];
  for (let y = area.y; y < area.y + area.height; y++)
    for (let x = area.x; x < area.x + area.width; x++) pixels.push(y * layout.width + x);
  return pixels;
}
