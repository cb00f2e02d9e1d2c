/** Pictures turned and mirrored, by index. */
import type { Pixels } from "../../pixels/picture.ts";

export type Turn = "clockwise" | "anticlockwise" | "half" | "left-right" | "top-bottom";

export const TURNS: readonly (readonly [Turn, string])[] = [
  ["clockwise", "Turn clockwise"],
  ["anticlockwise", "Turn anticlockwise"],
  ["half", "Turn half round"],
  ["left-right", "Mirror left to right"],
  ["top-bottom", "Mirror top to bottom"],
];

/** Whether width and height change places. */
export function isQuarter(turn: Turn): boolean {
  return turn === "clockwise" || turn === "anticlockwise";
}

/** The turned picture of a frame, row by row; `width` and `height` are those before. */
export function turned(pixels: Pixels, width: number, height: number, turn: Turn): Pixels {
  const out = pixels.slice();
  const across = isQuarter(turn) ? height : width;
  for (let i = 0; i < out.length; i++) {
    const x = i % across;
    const y = (i - x) / across;
    const from = {
      clockwise: (height - 1 - x) * width + y,
      anticlockwise: x * width + (width - 1 - y),
      half: out.length - 1 - i,
      "left-right": y * width + (width - 1 - x),
      "top-bottom": (height - 1 - y) * width + x,
    }[turn];
    out[i] = pixels[from] as number;
  }
  return out;
}
