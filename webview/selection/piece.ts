/** Pixels taken out of a picture, and what can be done to them; pure. Nothing here changes what it is given. */
import type { Point, Size } from "../tools/shapes.ts";
import type { Box, Selection } from "./selection.ts";

/** A rectangle of raw values, of which only those with 1 in the mask belong to it. */
export interface Piece extends Size {
  readonly pixels: Uint32Array;
  readonly mask: Uint8Array;
}

/** A piece with all of its rectangle. */
export function pieceOf({ width, height }: Size, pixels: ArrayLike<number>): Piece {
  return { width, height, pixels: Uint32Array.from(pixels), mask: new Uint8Array(width * height).fill(1) };
}

/** The selected pixels of a picture; its place is that of the selection's box. */
export function lift(pixels: ArrayLike<number>, { x, y, width, height, size, mask }: Selection): Piece {
  const out = { width, height, pixels: new Uint32Array(width * height), mask: new Uint8Array(width * height) };
  for (let row = 0, to = 0; row < height; row++) {
    for (let column = 0, from = (y + row) * size.width + x; column < width; column++, from++, to++) {
      out.mask[to] = mask[from] as number;
      out.pixels[to] = mask[from] === 1 ? (pixels[from] as number) : 0;
    }
  }
  return out;
}

export type Turn = "right" | "left";

/** A quarter turn. */
export function turned(piece: Piece, turn: Turn): Piece {
  const { width, height } = piece;
  return moved(piece, { width: height, height: width }, (x, y) =>
    turn === "right" ? { x: height - 1 - y, y: x } : { x: y, y: width - 1 - x },
  );
}

/** Where the box of a piece stands after a quarter turn about its middle; two turns bring it back to where it was. */
export function turnedBox({ x, y, width, height }: Box): Box {
  const by = Math.trunc((width - height) / 2);
  return { x: x + by, y: y - by, width: height, height: width };
}

/** Exchanges the columns, left for right; or the rows, top for bottom. */
export function mirrored(piece: Piece, what: "columns" | "rows"): Piece {
  const { width, height } = piece;
  return moved(piece, piece, (x, y) => (what === "columns" ? { x: width - 1 - x, y } : { x, y: height - 1 - y }));
}

/** What goes out at one side comes in at the other. */
export function shifted(piece: Piece, by: Point): Piece {
  const wrap = (value: number, size: number) => ((value % size) + size) % size;
  return moved(piece, piece, (x, y) => ({ x: wrap(x + by.x, piece.width), y: wrap(y + by.y, piece.height) }));
}

/** Other values at the same places. */
export function changed(piece: Piece, change: (value: number) => number): Piece {
  const pixels = piece.pixels.map((value, at) => (piece.mask[at] === 1 ? change(value) : 0));
  return { ...piece, pixels };
}

/** How many pixels of it, other than 0, would be outside of a picture. */
export function litOutside({ width, pixels, mask }: Piece, at: Point, size: Size): number {
  let count = 0;
  for (let i = 0; i < pixels.length; i++) {
    if (mask[i] !== 1 || pixels[i] === 0) continue;
    const [x, y] = [at.x + (i % width), at.y + Math.floor(i / width)];
    if (x < 0 || y < 0 || x >= size.width || y >= size.height) count++;
  }
  return count;
}

/** Puts it onto a picture, pixel by pixel of those inside. */
export function put({ width, height, pixels, mask }: Piece, at: Point, size: Size, to: (i: number, v: number) => void) {
  const [left, right] = [Math.max(0, -at.x), Math.min(width, size.width - at.x)];
  for (let y = Math.max(0, -at.y); y < Math.min(height, size.height - at.y); y++) {
    const target = (at.y + y) * size.width + at.x;
    for (let x = left; x < right; x++) {
      const from = y * width + x;
      if (mask[from] === 1) to(target + x, pixels[from] as number);
    }
  }
}

function moved(piece: Piece, { width, height }: Size, to: (x: number, y: number) => Point): Piece {
  const out = { width, height, pixels: new Uint32Array(width * height), mask: new Uint8Array(width * height) };
  for (let i = 0; i < piece.pixels.length; i++) {
    const { x, y } = to(i % piece.width, Math.floor(i / piece.width));
    out.pixels[y * width + x] = piece.pixels[i] as number;
    out.mask[y * width + x] = piece.mask[i] as number;
  }
  return out;
}
