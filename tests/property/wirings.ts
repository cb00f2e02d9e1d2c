/** Random wirings: panels cut into modules that hang in any way, somewhere on the driver's canvas. */
import fc from "fast-check";

export interface RandomWiring {
  readonly width: number;
  readonly height: number;
  readonly wire: string;
}

const order = fc.constantFrom("rows", "columns", "serpentine", "serpentine-columns", "");
const corner = fc.constantFrom("top-left", "top-right", "bottom-left", "bottom-right", "");
const turns = fc.constantFrom("", "", "/90", "/180", "/270", "/mirror", "/90/mirror", "/mirror/270", "/180/mirror");

/** One to three pieces that a side is cut into. */
const cuts = (most: number) => fc.array(fc.integer({ min: 1, max: most }), { minLength: 1, maxLength: 3 });

export const randomWirings: fc.Arbitrary<RandomWiring> = fc
  .record({
    across: cuts(5),
    down: cuts(5),
    kind: fc.constantFrom("whole", "strip", "stacked", "beside"),
    slack: fc.constantFrom(0, 0, 3),
    order,
    corner,
    turns: fc.array(turns, { minLength: 9, maxLength: 9 }),
    shuffle: fc.array(fc.nat(), { minLength: 9, maxLength: 9 }),
  })
  .map(({ across, down, kind, slack, order, corner, turns, shuffle }) => {
    const [width, height] = [across, down].map((side) => side.reduce((sum, n) => sum + n, 0)) as [number, number];
    const words = [order, corner].filter((word) => word !== "");
    if (kind === "whole") return { width, height, wire: words.join(";") || "rows" };
    const modules = across.flatMap((w, i) =>
      down.map((h, k) => {
        const [x, y] = [sumTo(across, i), sumTo(down, k)];
        const turn = turns[i * 3 + k] as string;
        const swap = (turn.match(/90|270/g) ?? []).length % 2 === 1;
        return { w, h, x, y, turn, own: swap ? [h, w] : [w, h], rank: shuffle[i * 3 + k] as number };
      }),
    );
    modules.sort((a, b) => a.rank - b.rank);
    let at = slack;
    const blocks = modules.map(({ w, h, x, y, turn, own: [ow = 0, oh = 0] }) => {
      const to = kind === "stacked" ? `${slack},${at}` : `${at},0`;
      at += (kind === "strip" ? w * h : kind === "stacked" ? oh : ow) + slack;
      return `${w}x${h}@${x},${y}>${to}${turn}`;
    });
    const wide = Math.max(...modules.map(({ own }) => own[0] as number)) + slack;
    const high = Math.max(...modules.map(({ own }) => own[1] as number));
    const canvas = kind === "strip" ? `${at}x1` : kind === "stacked" ? `${wide}x${at}` : `${at}x${high}`;
    return { width, height, wire: [canvas, ...blocks, ...words].join(";") };
  });

function sumTo(sides: readonly number[], count: number): number {
  return sides.slice(0, count).reduce((sum, n) => sum + n, 0);
}
