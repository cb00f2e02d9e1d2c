/**
 * The wirings that panels usually have: one module or a grid of equal ones in a chain, each wired in one of the orders
 * from one of its corners, all of them perhaps hung sideways, and those of every second line of the chain upside down.
 * Common practice, no source. The simplest come first.
 */
import type { WireCorner, WireOrder, WireTurn } from "../../pixels/wireWords.ts";
import { cellOf, type Module, placeIn, turned } from "./module.ts";

interface Size {
  readonly width: number;
  readonly height: number;
}

export interface Candidate {
  /** The address of a pixel. */
  readonly addressOf: (x: number, y: number) => number;
  /** The `wire=` that gives it. */
  readonly wire: () => string;
  /** The driver's canvas. */
  readonly canvas: Size;
}

const ORDERS: readonly WireOrder[] = ["rows", "serpentine", "columns", "serpentine-columns"];
const CORNERS: readonly WireCorner[] = ["top-left", "top-right", "bottom-left", "bottom-right"];
const MOST_MODULES = 64;

/**
 * All of them for a panel of a size; several may give every pixel the same address. A canvas other than the panel's is
 * one whose driver is larger than the panel: then also those in which the panel stands in a corner of it.
 */
export function* family(width: number, height: number, canvas: Size = { width, height }): Generator<Candidate> {
  for (const order of ORDERS) for (const corner of CORNERS) yield single({ width, height }, order, corner);
  const [rightmost, lowest] = [canvas.width - width, canvas.height - height];
  if (rightmost >= 0 && lowest >= 0 && rightmost + lowest > 0)
    for (const toX of new Set([0, rightmost]))
      for (const toY of new Set([0, lowest]))
        for (const order of ORDERS)
          for (const corner of CORNERS) yield single({ width, height }, order, corner, { canvas, toX, toY });
  for (const [across, down] of splits(width, height)) {
    const square = width / across === height / down;
    // Turned by a quarter, a square module takes the same cells as one wired by columns.
    for (const [beside, quarter] of [
      [false, false],
      [true, false],
      ...(square ? [] : [[true, true] as const]),
    ] as const)
      for (const upside of [false, true])
        for (const chain of ORDERS)
          for (const start of CORNERS) {
            // Where only one line of modules is, every order of the chain along it is the same.
            if ((across === 1 || down === 1) && chain !== (down === 1 ? "rows" : "columns")) continue;
            if (upside && !chain.startsWith("serpentine")) continue;
            for (const order of ORDERS)
              for (const corner of CORNERS)
                yield chained({ width, height, across, down, beside, quarter, upside, chain, start, order, corner });
          }
  }
}

/** Columns and rows of modules, fewest modules first. A module has two pixels each way at least. */
function splits(width: number, height: number): (readonly [number, number])[] {
  const divisors = (side: number) =>
    Array.from({ length: Math.min(side, MOST_MODULES) }, (_, i) => i + 1).filter((n) => side % n === 0 && side / n > 1);
  const all = divisors(width).flatMap((across) => divisors(height).map((down) => [across, down] as const));
  return all
    .filter(([across, down]) => across * down > 1 && across * down <= MOST_MODULES)
    .sort(([a, b], [c, d]) => a * b - c * d);
}

const UPRIGHT = turned([]);

function single(
  { width, height }: Size,
  order: WireOrder,
  corner: WireCorner,
  larger?: { readonly canvas: Size; readonly toX: number; readonly toY: number },
): Candidate {
  const { toX = 0, toY = 0, canvas = { width, height } } = larger ?? {};
  const at = { x: 0, y: 0, toX, toY };
  const module: Module = {
    ...{ ...at, width, height, across: width, down: height, ...UPRIGHT, order, corner },
    flows: larger === undefined,
  };
  const block = toX + toY > 0 ? [`${width}x${height}@0,0>${toX},${toY}`] : [];
  return {
    addressOf(x, y) {
      const [cx, cy] = cellOf(module, placeIn(module, x, y));
      return cy * canvas.width + cx;
    },
    wire: () => {
      const size = larger ? [`${canvas.width}x${canvas.height}`] : [];
      return [...size, ...block, ...wordsOf(order, corner)].join(";") || "rows";
    },
    canvas,
  };
}

function wordsOf(order: WireOrder, corner: WireCorner): string[] {
  return [...(order === "rows" ? [] : [order]), ...(corner === "top-left" ? [] : [corner])];
}

interface Chain {
  readonly width: number;
  readonly height: number;
  /** Columns and rows of modules. */
  readonly across: number;
  readonly down: number;
  /** The modules stand side by side on the driver's canvas, else one takes its addresses after the other. */
  readonly beside: boolean;
  /** Each hangs turned clockwise by 90°. */
  readonly quarter: boolean;
  readonly upside: boolean;
  readonly chain: WireOrder;
  readonly start: WireCorner;
  readonly order: WireOrder;
  readonly corner: WireCorner;
}

function chained(c: Chain): Candidate {
  const { across, down, beside } = c;
  const [width, height] = [c.width / across, c.height / down];
  const [wide, high] = c.quarter ? [height, width] : [width, height];
  const canvas = beside ? { width: across * down * wide, height: high } : { width: c.width * c.height, height: 1 };
  const at = { x: 0, y: 0, toX: 0, toY: 0 };
  const own = { width, height, across: wide, down: high };
  const [turn, other]: readonly WireTurn[] = c.quarter ? ["90", "270"] : [];
  const upright: Module = {
    ...at,
    ...own,
    ...(turn ? turned([turn]) : UPRIGHT),
    order: c.order,
    corner: c.corner,
    flows: !beside,
  };
  const upsideDown: Module = { ...upright, ...turned([other ?? "180"]) };
  const size = { width: across, height: down, across, down };
  const grid: Module = { ...at, ...size, ...UPRIGHT, order: c.chain, corner: c.start, flows: true };
  const line = c.chain.endsWith("columns") ? down : across;
  const hangsUpsideDown = (place: number) => c.upside && Math.floor(place / line) % 2 === 1;
  const step = beside ? wide : width * height;
  return {
    addressOf(x, y) {
      const place = placeIn(grid, Math.floor(x / width), Math.floor(y / height));
      const module = hangsUpsideDown(place) ? upsideDown : upright;
      const [cx, cy] = cellOf(module, placeIn(module, x % width, y % height));
      return cy * canvas.width + cx + place * step;
    },
    wire() {
      const blocks = Array.from({ length: across * down }, (_, i) => {
        const [column, row] = [i % across, Math.floor(i / across)];
        const place = placeIn(grid, column, row);
        const hangs = hangsUpsideDown(place) ? (other ?? "180") : turn;
        return `${width}x${height}@${column * width},${row * height}>${place * step},0${hangs ? `/${hangs}` : ""}`;
      });
      return [`${canvas.width}x${canvas.height}`, ...blocks, ...wordsOf(c.order, c.corner)].join(";");
    },
    canvas,
  };
}

/** The simplest usual wiring that gives every pixel this address; undefined where none does. */
export function usualFor(
  index: ArrayLike<number>,
  width: number,
  height: number,
  canvas?: Size,
): Candidate | undefined {
  for (const candidate of family(width, height, canvas)) if (gives(candidate, index, width)) return candidate;
  return undefined;
}

function gives({ addressOf }: Candidate, index: ArrayLike<number>, width: number): boolean {
  for (let i = 0; i < index.length; i++) if (addressOf(i % width, Math.floor(i / width)) !== index[i]) return false;
  return true;
}
