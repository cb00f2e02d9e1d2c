/** How the picture is looked at: as lamps of the panel where it hangs, or as upright cells; pure. */
import { eighthsOf } from "../shared/light/lattice.ts";
import type { BitmapInfo } from "../shared/protocol/lsp.ts";
import type { Point, Size } from "./tools/shapes.ts";

export type View = "lit" | "cells";

/** Levels drawn as the light that is seen, or in proportion to how long pixels are driven. */
export type Shows = "seen" | "driven";

/** What a panel says of its look. */
export type Panel = Pick<BitmapInfo, "lattice" | "dot" | "mount">;

/** By how many eighths of a turn, clockwise, the picture is turned; cells stand upright. */
export function turnOf(panel: Panel, view: View): number {
  return view === "cells" ? 0 : eighthsOf(panel);
}

/** The shape of a lamp; undefined for cells. */
export function dotsOf({ dot }: Panel, view: View): "round" | "square" | undefined {
  return view === "cells" ? undefined : dot === "square" ? "square" : "round";
}

/** What a step on the screen is on the bitmap. */
export function stepOf({ x, y }: Point, turn: number): Point {
  switch (quarters(turn)) {
    case 1:
      return { x: y, y: -x || 0 };
    case 2:
      return { x: -x || 0, y: -y || 0 };
    case 3:
      return { x: -y || 0, y: x };
    default:
      return { x, y };
  }
}

/** Row and column of a pixel as they are seen, and how many there are; a diamond's are those that slant to the right. */
export function displayed({ x, y }: Point, { width, height }: Size, turn: number) {
  switch (quarters(turn)) {
    case 1:
      return { row: x, column: height - 1 - y, rows: width, columns: height };
    case 2:
      return { row: height - 1 - y, column: width - 1 - x, rows: height, columns: width };
    case 3:
      return { row: width - 1 - x, column: y, rows: width, columns: height };
    default:
      return { row: y, column: x, rows: height, columns: width };
  }
}

function quarters(turn: number): number {
  return Math.floor(turn / 2) % 4;
}
