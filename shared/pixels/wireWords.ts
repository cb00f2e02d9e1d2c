/**
 * The parts of `wire=`, joined by `;`: the driver's canvas, blocks, the order of addresses and the corner where they
 * begin. Only what they say; where that puts each pixel is the business of light/wiring.
 */
import type { Options } from "./options.ts";
import { nearest } from "./words.ts";

export type WireOrder = NonNullable<Options["scan"]>;
export type WireCorner = NonNullable<Options["from"]>;
export type WireTurn = "90" | "180" | "270" | "mirror";

/** A part of the text, by offsets from its start. */
interface Part {
  readonly start: number;
  readonly end: number;
}

/** A module of the panel: `wxh@X,Y>x,y[/turns]`. */
export interface WireBlock extends Part {
  readonly text: string;
  /** Size as it stands on the panel, and where. */
  readonly width: number;
  readonly height: number;
  readonly x: number;
  readonly y: number;
  /** Its top-left corner on the driver's canvas. */
  readonly toX: number;
  readonly toY: number;
  /** From the driver's picture to the panel, one after the other. */
  readonly turns: readonly WireTurn[];
}

/** What the parts say; what is not said is missing. */
export interface Wire {
  readonly canvas?: { readonly width: number; readonly height: number };
  readonly blocks: readonly WireBlock[];
  readonly order?: WireOrder;
  readonly corner?: WireCorner;
}

/** Something wrong with a part. `suggestion` replaces it; an empty one takes it away, with the `;` beside it. */
export interface WirePartProblem extends Part {
  readonly message: string;
  readonly suggestion?: string;
}

const ORDERS: readonly string[] = ["rows", "columns", "serpentine", "serpentine-columns"];
const CORNERS: readonly string[] = ["top-left", "top-right", "bottom-left", "bottom-right"];
const TURNS: readonly string[] = ["90", "180", "270", "mirror"];

/** Widest and tallest canvas, and most cells that one may have. */
const MOST_SIDE = 65535;
const MOST_CELLS = 1 << 24;

/** Reads the value of `wire=`. Parts that are wrong are left out and named; nothing throws. */
export function readWire(value: string): { readonly wire: Wire; readonly problems: readonly WirePartProblem[] } {
  const problems: WirePartProblem[] = [];
  const blocks: WireBlock[] = [];
  let canvas: Wire["canvas"];
  let order: WireOrder | undefined;
  let corner: WireCorner | undefined;
  let at = 0;
  for (const text of value.split(";")) {
    const part: Part = { start: at, end: at + text.length };
    at = part.end + 1;
    const wrong = (message: string, suggestion?: string, span: Part = part) =>
      problems.push({ ...span, message, ...(suggestion === undefined ? {} : { suggestion }) });
    const once = (what: string, before: string | undefined) => {
      if (before !== undefined) wrong(`\`wire\` has ${what} already: ${before}.`, "");
      return before === undefined;
    };
    if (text === "") wrong("A part of `wire` is empty: parts are joined by one `;`.", "", around(value, part));
    else if (ORDERS.includes(text)) {
      if (once("an order", order)) order = text as WireOrder;
    } else if (CORNERS.includes(text)) {
      if (once("a corner", corner)) corner = text as WireCorner;
    } else if (text.includes("@") || text.includes(">")) {
      const block = readBlock(text, part, wrong);
      if (block) blocks.push(block);
    } else if (/^\d+x\d+$/.test(text)) {
      const [width = 0, height = 0] = text.split("x").map(Number);
      if (!isSize(width, height)) wrong(`A canvas has sides of 1 to ${MOST_SIDE} and ${MOST_CELLS} addresses at most.`);
      else if (once("a canvas", canvas && `${canvas.width}x${canvas.height}`)) canvas = { width, height };
    } else {
      const near = nearest(text, [...ORDERS, ...CORNERS]);
      wrong(
        `\`${text}\` is no part of \`wire\`: a canvas such as 12x4, a block such as 6x4@0,4>6,0, an order (${ORDERS.join(", ")}) or a corner (${CORNERS.join(", ")}).${near === undefined ? "" : ` Did you mean \`${near}\`?`}`,
        near,
      );
    }
  }
  const wire: Wire = { blocks, ...(canvas && { canvas }), ...(order && { order }), ...(corner && { corner }) };
  return { wire, problems };
}

/** Where a part is empty there is nothing to see: the `;` beside it. */
function around(value: string, { start, end }: Part): Part {
  return value === "" ? { start, end } : start === 0 ? { start, end: end + 1 } : { start: start - 1, end };
}

function isSize(width: number, height: number): boolean {
  return width >= 1 && height >= 1 && width <= MOST_SIDE && height <= MOST_SIDE && width * height <= MOST_CELLS;
}

function readBlock(
  text: string,
  part: Part,
  wrong: (message: string, suggestion?: string, span?: Part) => void,
): WireBlock | undefined {
  const [body = "", ...turns] = text.split("/");
  const m = /^(\d{1,5})x(\d{1,5})@(\d{1,5}),(\d{1,5})>(\d{1,5}),(\d{1,5})$/.exec(body);
  if (!m) {
    wrong(
      `\`${text}\` is no block: size, corner on the panel and corner at the driver, such as 6x4@0,4>6,0, then perhaps /90, /180, /270 or /mirror.`,
    );
    return undefined;
  }
  let at = part.start + body.length + 1;
  for (const turn of turns) {
    const span = { start: at, end: at + turn.length };
    at = span.end + 1;
    if (TURNS.includes(turn)) continue;
    const near = nearest(turn, TURNS);
    wrong(`\`${turn}\` is no turn of a block: 90, 180, 270 (degrees clockwise) or mirror.`, near, span);
    return undefined;
  }
  const [width, height, x, y, toX, toY] = m.slice(1).map(Number) as [number, number, number, number, number, number];
  if (!isSize(width, height)) {
    wrong("A block has at least one pixel.");
    return undefined;
  }
  return { ...part, text, width, height, x, y, toX, toY, turns: turns as WireTurn[] };
}
