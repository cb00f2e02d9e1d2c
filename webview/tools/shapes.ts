/** Shapes on a picture, as indexes of pixels counted row by row; what lies outside the picture is left out. */

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** A straight line, both ends included: J. E. Bresenham, IBM Systems Journal 4(1), 1965, for all octants. */
/** The pixel of a picture that is nearest to a place, which may be outside. */
export function nearestIn({ width, height }: Size, { x, y }: Point): Point {
  return { x: Math.max(0, Math.min(width - 1, x)), y: Math.max(0, Math.min(height - 1, y)) };
}

export function line(size: Size, from: Point, to: Point): number[] {
  const dx = Math.abs(to.x - from.x);
  const dy = Math.abs(to.y - from.y);
  const stepX = from.x < to.x ? 1 : -1;
  const stepY = from.y < to.y ? 1 : -1;
  const out: number[] = [];
  let { x, y } = from;
  let error = dx - dy;
  for (;;) {
    add(out, size, x, y);
    if (x === to.x && y === to.y) return out;
    const twice = 2 * error;
    if (twice > -dy) {
      error -= dy;
      x += stepX;
    }
    if (twice < dx) {
      error += dx;
      y += stepY;
    }
  }
}

/** The edge of the rectangle between two corners. */
export function box(size: Size, from: Point, to: Point): number[] {
  const [left, right] = [Math.min(from.x, to.x), Math.max(from.x, to.x)];
  const [top, bottom] = [Math.min(from.y, to.y), Math.max(from.y, to.y)];
  const out: number[] = [];
  for (let y = top; y <= bottom; y++) {
    const whole = y === top || y === bottom;
    for (let x = left; x <= right; x += whole ? 1 : Math.max(1, right - left)) add(out, size, x, y);
  }
  return out;
}

/** All of the rectangle between two corners. */
export function filledBox(size: Size, from: Point, to: Point): number[] {
  const [left, right] = [Math.max(0, Math.min(from.x, to.x)), Math.min(size.width - 1, Math.max(from.x, to.x))];
  const [top, bottom] = [Math.max(0, Math.min(from.y, to.y)), Math.min(size.height - 1, Math.max(from.y, to.y))];
  const out: number[] = [];
  for (let y = top; y <= bottom; y++) for (let x = left; x <= right; x++) out.push(y * size.width + x);
  return out;
}

/** All pixels that have the value of this one. */
export function everyLike(pixels: ArrayLike<number>, size: Size, at: Point): number[] {
  const out: number[] = [];
  const value = pixels[at.y * size.width + at.x];
  if (!inside(size, at.x, at.y)) return out;
  for (let i = 0; i < size.width * size.height; i++) if (pixels[i] === value) out.push(i);
  return out;
}

/** The pixels of the same value that hang together with this one by their edges (4 neighbours). */
export function fill(pixels: ArrayLike<number>, size: Size, at: Point): number[] {
  const { width, height } = size;
  if (!inside(size, at.x, at.y)) return [];
  const start = at.y * width + at.x;
  const value = pixels[start];
  const seen = new Uint8Array(width * height);
  const out = [start];
  seen[start] = 1;
  for (let next = 0; next < out.length; next++) {
    const index = out[next] as number;
    const x = index % width;
    const around = [x > 0 ? index - 1 : -1, x < width - 1 ? index + 1 : -1, index - width, index + width];
    for (const near of around) {
      if (near < 0 || near >= seen.length || seen[near] || pixels[near] !== value) continue;
      seen[near] = 1;
      out.push(near);
    }
  }
  return out;
}

function inside(size: Size, x: number, y: number): boolean {
  return x >= 0 && y >= 0 && x < size.width && y < size.height;
}

function add(out: number[], size: Size, x: number, y: number): void {
  if (inside(size, x, y)) out.push(y * size.width + x);
}
