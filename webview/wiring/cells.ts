/** What the two drawings of the wiring view hold, and how large their cells are; pure. */
import { lights } from "../../shared/light/wiring/patterns.ts";
import type { Probing } from "./probing.ts";

interface Size {
  readonly width: number;
  readonly height: number;
}

/**
 * Sides of the cells of panel and canvas, which are `across` and `canvas` cells wide. Both beside each other, in one size,
 * where numbers can be read so; else one under the other, each as large as there is room for: a strip is long, and the
 * panel that it is folded into is not.
 */
export function sidesFor(room: number, across: number, canvas: number): { panel: number; driver: number } {
  const beside = Math.floor((room - 32) / (across + canvas));
  if (beside >= 20) return { panel: Math.min(28, beside), driver: Math.min(28, beside) };
  const alone = (columns: number) => Math.max(3, Math.min(28, Math.floor((room - 8) / columns)));
  return { panel: alone(across), driver: alone(canvas) };
}

/** The pixels by their addresses, in pieces where addresses follow each other. */
export function wayOf(index: readonly number[]): number[][] {
  const order = [...index.keys()].sort((a, b) => (index[a] as number) - (index[b] as number));
  const pieces: number[][] = [];
  order.forEach((pixel, i) => {
    const follows = i > 0 && index[pixel] === (index[order[i - 1] as number] as number) + 1;
    if (follows) pieces.at(-1)?.push(pixel);
    else pieces.push([pixel]);
  });
  return pieces;
}

/** The driver's cells: their addresses, where they have a pixel; with a probe, those that its pattern lights. */
export function driverCells(
  { width, height }: Size,
  index: readonly number[] | undefined,
  probing: Probing | undefined,
): { numbers: Int32Array; way: number[][]; lit: ReadonlySet<number> | undefined } {
  const cells = width * height;
  const numbers = new Int32Array(cells).fill(probing ? 0 : -1);
  if (!probing) for (const address of index ?? []) numbers[address] = address;
  const { pattern } = probing ?? {};
  if (!probing) return { numbers, way: [], lit: undefined };
  const lit = Array.from({ length: cells }, (_, i) => i).filter((i) => pattern !== undefined && lights(pattern, i));
  return { numbers, way: [], lit: new Set(lit) };
}
