/** A frame as people see it: cells with gaps between them, or the lit lamps of the panel where it hangs. */
import type { Bitmap } from "../shared/bitmap/resolve.ts";
import { eighthsOf, isDiamond, latticeOf, pointAt, stepsOf } from "../shared/light/lattice.ts";
import { fullLight } from "../shared/light/limit.ts";
import type { Raster } from "./png.ts";
import { panelRaster } from "./raster.ts";

/** The ground that cells stand on. */
export const CELL_GROUND = 0x2e3133;
/** The edge of a lamp that is off, on the black of the panel. */
export const LAMP_EDGE = 0x3d3d3d;
/** Radius of a lamp and of the light around it, in sides of a pixel: as the paint editor draws them. */
export const LAMP = 0.39;
const HALO = 0.5;
const HALO_SHARE = 0.2;

/** Side of a lamp's square in a lattice of whole steps; on its corner, a step is half the diagonal. */
function stepFor(turn: number, side: number): number {
  return isDiamond(turn) ? Math.max(1, Math.round(side / Math.SQRT2)) : side;
}

/** Width and height of the picture of a panel with `side` screen pixels to a pixel. */
export function panelSize({ width, height, options }: Bitmap, side: number): { width: number; height: number } {
  const turn = eighthsOf(options);
  const { across, down } = stepsOf(width, height, turn);
  const step = stepFor(turn, side);
  return { width: across * step, height: down * step };
}

/** Cells `side` screen pixels apart in the light that they give, the cap as full light; undefined without a picture. */
export function cellRaster(bitmap: Bitmap, frame: number, side: number): Raster | undefined {
  const seen = panelRaster(bitmap, frame, fullLight(bitmap));
  if (!seen) return undefined;
  const { width, height } = seen;
  const gap = side < 4 ? 0 : Math.max(1, Math.round(side / 12));
  const data = new Uint8Array(width * height * side * side * 3);
  for (let i = 0; i < data.length; i += 3)
    data.set([CELL_GROUND >> 16, (CELL_GROUND >> 8) & 255, CELL_GROUND & 255], i);
  const rowBytes = width * side * 3;
  const inner = side - gap;
  const [before] = [Math.floor(gap / 2)];
  for (let y = 0; y < height; y++) {
    const first = (y * side + before) * rowBytes;
    for (let x = 0; x < width; x++) {
      const colour = seen.data.subarray((y * width + x) * 3, (y * width + x) * 3 + 3);
      for (let k = 0; k < inner; k++) data.set(colour, first + (x * side + before + k) * 3);
    }
    for (let k = 1; k < inner; k++) data.copyWithin(first + k * rowBytes, first, first + rowBytes);
  }
  return { width: width * side, height: height * side, channels: 3, data };
}

/** Lamps where they stand on the panel, in its lattice, mounting, tint and dots; undefined without a picture. */
export function lampRaster(bitmap: Bitmap, frame: number, side: number): Raster | undefined {
  const seen = panelRaster(bitmap, frame, fullLight(bitmap));
  if (!seen) return undefined;
  const { options } = bitmap;
  const turn = eighthsOf(options);
  const size = panelSize(bitmap, side);
  const step = stepFor(turn, side);
  const lattice = latticeOf(bitmap.width, bitmap.height, step, turn, { x: 0, y: 0 });
  const slanted = isDiamond(turn);
  const stamp = stampOf(slanted ? step * Math.SQRT2 : step, step, slanted, options.dot === "square");
  const data = new Uint8Array(size.width * size.height * 3);
  const edge = [LAMP_EDGE >> 16, (LAMP_EDGE >> 8) & 255, LAMP_EDGE & 255];
  for (let i = 0; i < bitmap.width * bitmap.height; i++) {
    const middle = pointAt(lattice, (i % bitmap.width) + 0.5, Math.floor(i / bitmap.width) + 0.5);
    const colour = seen.data.subarray(3 * i, 3 * i + 3);
    const off = colour.every((channel) => channel === 0);
    const left = Math.floor(middle.x) - stamp.reach;
    const top = Math.floor(middle.y) - stamp.reach;
    for (let k = 0; k < stamp.lamp.length; k++) {
      const u = left + (k % stamp.side);
      const v = top + Math.floor(k / stamp.side);
      const share = off ? (stamp.ring[k] as number) : stamp.lit(k);
      if (share === 0 || u < 0 || v < 0 || u >= size.width || v >= size.height) continue;
      const at = (v * size.width + u) * 3;
      for (let c = 0; c < 3; c++) {
        const before = data[at + c] as number;
        const light = (off ? edge[c] : colour[c]) as number;
        // Neighbours' light overlaps at most where both are faint: the brighter one is seen.
        data[at + c] = Math.max(before, Math.round(share * light));
      }
    }
  }
  return { ...size, channels: 3, data };
}

interface Stamp {
  /** From the pixel that holds the middle to the edge of the stamp, and the whole of it. */
  readonly reach: number;
  readonly side: number;
  /** Shares of each screen pixel that the lamp, its halo and the ring of one that is off cover. */
  readonly lamp: Float64Array;
  readonly ring: Float64Array;
  lit(at: number): number;
}

/** Sub-pixels of a screen pixel in each direction. */
const FINE = 4;

/** All lamps fall on the screen's pixels alike: the one shape is worked out once. */
function stampOf(length: number, step: number, slanted: boolean, square: boolean): Stamp {
  const middle = !slanted && step % 2 === 1 ? 0.5 : 0;
  const reach = Math.ceil(HALO * length * (square && slanted ? Math.SQRT2 : 1)) + 1;
  const side = 2 * reach + 1;
  const [lamp, halo, ring] = [0, 1, 2].map(() => new Float64Array(side * side)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const width = 1 / Math.max(length, 6);
  for (let k = 0; k < side * side; k++) {
    for (let s = 0; s < FINE * FINE; s++) {
      const x = ((k % side) - reach + ((s % FINE) + 0.5) / FINE - middle) / length;
      const y = (Math.floor(k / side) - reach + (Math.floor(s / FINE) + 0.5) / FINE - middle) / length;
      const far = distance(x, y, slanted, square);
      const add = (to: Float64Array) => {
        to[k] = (to[k] as number) + 1 / (FINE * FINE);
      };
      if (far <= LAMP) add(lamp);
      if (far <= HALO) add(halo);
      if (far <= LAMP - 0.02 && far >= LAMP - 0.02 - width) add(ring);
    }
  }
  const lit = (at: number) => {
    const own = lamp[at] as number;
    return own + (1 - own) * HALO_SHARE * (halo[at] as number);
  };
  return { reach, side, lamp, ring, lit };
}

/** Of a point from the middle of a lamp, in sides of its square. */
function distance(x: number, y: number, slanted: boolean, square: boolean): number {
  if (!square) return Math.hypot(x, y);
  const [u, v] = slanted ? [(x + y) / Math.SQRT2, (y - x) / Math.SQRT2] : [x, y];
  return Math.max(Math.abs(u), Math.abs(v));
}
