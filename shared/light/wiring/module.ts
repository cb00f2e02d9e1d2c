/** One module of a panel: how it hangs, and in which order its own pixels take their addresses. */
import type { Wire, WireBlock, WireCorner, WireOrder, WireTurn } from "../../pixels/wireWords.ts";

export interface Module {
  /** Where it is on the panel, and how large it looks there. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Its own size, before it was turned. */
  readonly across: number;
  readonly down: number;
  /** The panel's columns are its rows. */
  readonly swap: boolean;
  /** The panel's columns (rows) run against its own. */
  readonly flipX: boolean;
  readonly flipY: boolean;
  /** Its corner on the driver's canvas. */
  readonly toX: number;
  readonly toY: number;
  readonly order: WireOrder;
  readonly corner: WireCorner;
  /** The canvas is one row, such as a strip: its addresses follow each other, from `toX` on. */
  readonly flows: boolean;
}

/** The modules of a panel: its blocks, or one that is all of it. */
export function modulesOf(
  { blocks, order = "rows", corner = "top-left", canvas }: Wire,
  width: number,
  height: number,
): Module[] {
  const whole = { width, height, x: 0, y: 0, toX: 0, toY: 0, turns: [] };
  const flows = canvas?.height === 1;
  return (blocks.length > 0 ? blocks : [whole]).map((block) => moduleOf(block, order, corner, flows));
}

function moduleOf(
  block: Pick<WireBlock, "x" | "y" | "width" | "height" | "toX" | "toY" | "turns">,
  order: WireOrder,
  corner: WireCorner,
  flows: boolean,
): Module {
  const { x, y, width, height, toX, toY, turns } = block;
  const { swap, flipX, flipY } = turned(turns);
  const [across, down] = swap ? [height, width] : [width, height];
  return { x, y, width, height, across, down, swap, flipX, flipY, toX, toY, order, corner, flows };
}

/** What turns, one after the other, make of a picture: which of the panel's axes are whose, and which run backwards. */
export function turned(turns: readonly WireTurn[]): Pick<Module, "swap" | "flipX" | "flipY"> {
  let [swap, flipX, flipY] = [false, false, false];
  const quarter = () => {
    // Clockwise: what was the top is on the right.
    [swap, flipX, flipY] = [!swap, !flipY, flipX];
  };
  for (const turn of turns) {
    if (turn === "mirror") flipX = !flipX;
    else for (let i = 0; i < Number(turn) / 90; i++) quarter();
  }
  return { swap, flipX, flipY };
}

/** Which of a module's own addresses, from 0, a pixel of the panel has. It must be one of the module's. */
export function placeIn(module: Module, x: number, y: number): number {
  const { width, height, across, down, swap, order, corner } = module;
  const px = module.flipX ? width - 1 - (x - module.x) : x - module.x;
  const py = module.flipY ? height - 1 - (y - module.y) : y - module.y;
  const [mx, my] = swap ? [py, px] : [px, py];
  const u = corner.endsWith("right") ? across - 1 - mx : mx;
  const v = corner.startsWith("bottom") ? down - 1 - my : my;
  const byColumns = order === "columns" || order === "serpentine-columns";
  const [line, along, length] = byColumns ? [u, v, down] : [v, u, across];
  const back = order.startsWith("serpentine") && line % 2 === 1;
  return line * length + (back ? length - 1 - along : along);
}

/** The driver's x and y of one of a module's own addresses. */
export function cellOf({ flows, across, toX, toY }: Module, place: number): readonly [x: number, y: number] {
  return flows ? [toX + place, toY] : [toX + (place % across), toY + Math.floor(place / across)];
}
