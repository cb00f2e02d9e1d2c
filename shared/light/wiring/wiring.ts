/**
 * Where each pixel of a panel sits at its driver. Start here.
 *
 * The driver has a canvas; an address is y · canvas width + x of a cell of it. A panel is made of modules (blocks), each
 * on a rectangle of the canvas. A module may hang turned or mirrored. Its own pixels take the cells of its rectangle, row
 * by row, in the order of `scan`'s words from one of its corners: so order, serpentine and corner are those of each
 * module, as it stands before it is turned, and all modules are alike in that. Without blocks the panel is one module. On
 * a canvas one row high, such as a strip, a module takes the addresses from its place on, one after the other.
 */
import type { Wire, WireBlock } from "../../pixels/wireWords.ts";
import { readWire } from "../../pixels/wireWords.ts";
import { cellOf, type Module, modulesOf, placeIn } from "./module.ts";

export interface Wiring {
  /** The driver's canvas. */
  readonly width: number;
  readonly height: number;
  /** The driver's address of each pixel of the panel, row by row from the top left. */
  readonly index: Uint32Array;
  /** Tells it from any other wiring. */
  readonly key: string;
  /** The `wire=` that gives it; undefined for a table. */
  readonly wire?: string | undefined;
  /** The array of the table that gives it. */
  readonly table?: string | undefined;
}

/** Something wrong with a `wire=`, by offsets in its value. */
interface WireProblem {
  readonly start: number;
  readonly end: number;
  readonly message: string;
  /** A part to add at the end that mends it. */
  readonly add?: string;
}

type Read = { readonly wiring?: Wiring; readonly problems: readonly WireProblem[] };

const MOST_KEPT = 32;
const kept = new Map<string, Read>();

/** The wiring of a panel of a size; undefined, with what is wrong, where not every pixel has an address of its own. */
export function wiringOf(value: string, width: number, height: number): Read {
  const key = `${width}x${height} ${value}`;
  const known = kept.get(key);
  if (known) return known;
  const { wire, problems } = readWire(value);
  // What is wrong with the words is told where they are read.
  const made = problems.length > 0 ? { problems: [] } : build(value, wire, width, height);
  if (kept.size >= MOST_KEPT) kept.delete(kept.keys().next().value ?? "");
  kept.set(key, made);
  return made;
}

/** The canvas that `wire=` says, else the panel's size. */
export function canvasOf(value: string | undefined, width: number, height: number) {
  const canvas = value === undefined ? undefined : readWire(value).wire.canvas;
  return canvas ?? { width, height };
}

/** Whether `wire=` says more than the canvas. */
export function saysOrder(value: string | undefined): boolean {
  if (value === undefined) return false;
  const { blocks, order, corner } = readWire(value).wire;
  return blocks.length > 0 || order !== undefined || corner !== undefined;
}

function build(value: string, wire: Wire, width: number, height: number): Read {
  const canvas = wire.canvas ?? { width, height };
  const all = { start: 0, end: value.length };
  const problems: WireProblem[] = [];
  const modules = modulesOf(wire, width, height);
  const index = new Uint32Array(width * height);
  /** By pixel and by address: the module that has it, from 1. */
  const ofPixel = new Uint32Array(width * height);
  const ofAddress = new Map<number, number>();
  modules.forEach((module, i) => {
    const block = wire.blocks[i];
    const span = block ?? all;
    const outside = block ? outsideOf(block, module, { width, height }, canvas) : tooSmall(module, canvas);
    if (outside !== undefined) problems.push({ start: span.start, end: span.end, message: outside });
    else problems.push(...place(module, i));
  });
  const gaps = problems.length === 0 ? gapsIn(ofPixel, width, all) : undefined;
  if (gaps) {
    const add = oneGap(ofPixel, ofAddress, width, canvas);
    problems.push(add === undefined ? gaps : { ...gaps, add });
  }
  if (problems.length > 0) return { problems };
  const key = `${canvas.width}x${canvas.height} ${value}`;
  return { problems, wiring: { width: canvas.width, height: canvas.height, index, key, wire: value } };

  function place(module: Module, i: number): WireProblem[] {
    const { start, end, text } = wire.blocks[i] ?? { ...all, text: value };
    const nameOf = (m: number) => wire.blocks[m - 1]?.text ?? "the panel";
    const pixels: Shared = { count: 0, first: "", other: "" };
    const addresses: Shared = { ...pixels };
    for (let y = module.y; y < module.y + module.height; y++) {
      for (let x = module.x; x < module.x + module.width; x++) {
        const [cx, cy] = cellOf(module, placeIn(module, x, y));
        const address = cy * canvas.width + cx;
        const at = y * width + x;
        const before = ofPixel[at] as number;
        if (before > 0) share(pixels, `${x},${y}`, nameOf(before));
        const taken = ofAddress.get(address);
        if (taken !== undefined) share(addresses, `${cx},${cy}`, nameOf(taken));
        ofPixel[at] = i + 1;
        ofAddress.set(address, i + 1);
        index[at] = address;
      }
    }
    const said = ({ count, first, other }: Shared, one: string, many: string, where: string): WireProblem[] => {
      const what = count === 1 ? one : many;
      const message = `\`${text}\` and \`${other}\` share ${count} ${what} ${where}, the first at ${first}.`;
      return count > 0 ? [{ start, end, message }] : [];
    };
    return [
      ...said(pixels, "pixel", "pixels", "of the panel"),
      ...said(addresses, "address", "addresses", "of the driver's canvas"),
    ];
  }
}

/** What two modules both take. */
interface Shared {
  count: number;
  first: string;
  other: string;
}

function share(shared: Shared, place: string, other: string): void {
  if (shared.count++ > 0) return;
  shared.first = place;
  shared.other = other;
}

type Size = { readonly width: number; readonly height: number };

function outsideOf(block: WireBlock, module: Module, panel: Size, canvas: Size): string | undefined {
  const { text, x, y, width, height, toX, toY } = block;
  if (x + width > panel.width || y + height > panel.height) {
    const within = Math.max(0, panel.width - x) * Math.max(0, panel.height - y);
    const inside = within === 0 ? 0 : Math.min(width, panel.width - x) * Math.min(height, panel.height - y);
    const first = x >= panel.width || y >= panel.height ? `${x},${y}` : firstBeyond(block, panel);
    return `\`${text}\` goes past the panel of ${panel.width}×${panel.height}: ${counted(width * height - inside)} are outside, the first ${first}.`;
  }
  if (module.flows) {
    const last = toX + width * height;
    if (toY === 0 && last <= canvas.width) return undefined;
    return `\`${text}\` takes ${width * height} addresses from ${toX} on${toY > 0 ? ` in row ${toY}` : ""}, but the driver has ${canvas.width} in one row.`;
  }
  if (toX + module.across <= canvas.width && toY + module.down <= canvas.height) return undefined;
  return `\`${text}\` goes past the driver's canvas of ${canvas.width}×${canvas.height}: there it takes ${module.across}×${module.down} from ${toX},${toY}.`;
}

function firstBeyond({ x, y, width }: WireBlock, panel: Size): string {
  return x + width > panel.width ? `${panel.width},${y}` : `${x},${panel.height}`;
}

function tooSmall(module: Module, canvas: Size): string | undefined {
  const { width, height, flows } = module;
  if (flows ? width * height <= canvas.width : width <= canvas.width && height <= canvas.height) return undefined;
  return `The driver's canvas of ${canvas.width}×${canvas.height} has no room for the panel of ${width}×${height} as one piece; blocks such as ${width}x${height}@0,0>0,0 say where its parts go.`;
}

function counted(pixels: number): string {
  return `${pixels} pixel${pixels === 1 ? "" : "s"}`;
}

function gapsIn(ofPixel: Uint32Array, width: number, span: { start: number; end: number }): WireProblem | undefined {
  let count = 0;
  let first = -1;
  ofPixel.forEach((module, at) => {
    if (module > 0) return;
    if (count++ === 0) first = at;
  });
  if (count === 0) return undefined;
  const message = `${counted(count)} of the panel ${count === 1 ? "is" : "are"} in no block, the first ${first % width},${Math.floor(first / width)}.`;
  return { start: span.start, end: span.end, message };
}

/** The block that is surely missing: what lacks on the panel and at the driver are both one rectangle, of one size. */
function oneGap(
  ofPixel: Uint32Array,
  ofAddress: ReadonlyMap<number, number>,
  width: number,
  canvas: Size,
): string | undefined {
  const free: number[] = [];
  const cells = canvas.width * canvas.height;
  if (cells - ofAddress.size > ofPixel.length) return undefined;
  for (let i = 0; i < cells; i++) if (!ofAddress.has(i)) free.push(i);
  const dark = [...ofPixel.keys()].filter((i) => ofPixel[i] === 0);
  const [on, to] = [rectangle(dark, width), rectangle(free, canvas.width)];
  if (!on || !to || on.width !== to.width || on.height !== to.height) return undefined;
  return `${on.width}x${on.height}@${on.x},${on.y}>${to.x},${to.y}`;
}

/** The rectangle that these cells, in order, are; undefined where they are none. */
function rectangle(cells: readonly number[], across: number) {
  const [first, last] = [cells[0], cells.at(-1)];
  if (first === undefined || last === undefined) return undefined;
  const [x, y] = [first % across, Math.floor(first / across)];
  const width = (last % across) - x + 1;
  const height = Math.floor(last / across) - y + 1;
  if (width < 1 || width * height !== cells.length) return undefined;
  const all = cells.every((cell, i) => cell === (y + Math.floor(i / width)) * across + x + (i % width));
  return all ? { x, y, width, height } : undefined;
}
