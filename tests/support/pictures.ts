/** Pictures of our greenhouse lantern, as the extension would show them to the page. */
import { highest } from "../../shared/light/limit.ts";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import type { Shown } from "../../shared/protocol/webview.ts";
import type { Panel } from "../../webview/look.ts";

const range = (line: number) => ({ start: { line, character: 0 }, end: { line, character: 9 } });

interface Given {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly frames: readonly (readonly number[])[];
  readonly info?: Partial<BitmapInfo> & Panel;
  readonly rest?: Partial<Shown>;
  /** Source line of the first row, from 1. */
  readonly line?: number;
}

/** A shown bitmap, one row of it on each source line. */
function shownOf({ name, width, height, frames, info = {}, rest = {}, line = 14 }: Given): Shown {
  const identity = { name, ordinal: 0, siblings: 1, structure: `${width}x${height}` };
  const { most = 255, full = most, cap, drive = 1 } = info;
  const limit = highest({ cap, drive, format: { full } });
  const bitmap: BitmapInfo = {
    identity,
    name,
    width,
    height,
    frames: frames.length,
    format: "gray8",
    kind: "gray",
    most,
    full,
    light: "linear",
    drive,
    ...(limit === undefined ? {} : { limit }),
    bytes: width * height * frames.length,
    declaration: range(line - 2),
    nameRange: range(line - 2),
    ...info,
  };
  return {
    version: 1,
    bitmap,
    frames,
    rowLines: frames.map((_, f) => Array.from({ length: height }, (_, y) => line + f * (height + 1) + y)),
    unwritten: frames.map(() => []),
    others: [{ name, identity }],
    readOnly: false,
    findings: [],
    ...rest,
  };
}

// biome-ignore format: one row of the picture a line
const DROP = [
  0, 0, 0, 0, 15, 0, 0, 0, 0,
  0, 0, 0, 1, 42, 1, 0, 0, 0,
  0, 0, 0, 26, 64, 26, 0, 0, 0,
  0, 0, 3, 64, 64, 26, 3, 0, 0,
  0, 0, 26, 64, 64, 42, 7, 0, 0,
  0, 3, 64, 64, 42, 26, 15, 3, 0,
  0, 7, 64, 42, 42, 26, 15, 7, 0,
  0, 1, 26, 42, 26, 26, 7, 1, 0,
  0, 0, 0, 15, 26, 15, 0, 0, 0,
];

const LANTERN: Partial<BitmapInfo> = { cap: 64, tint: "#ffb84d", dot: "round", lattice: "diamond", panel: "lantern" };

/** 9×9 grey levels with a cap, one of two bitmaps of its file. */
export function drop(rest: Partial<Shown> = {}): Shown {
  const one = shownOf({ name: "drop_icon", width: 9, height: 9, frames: [DROP], info: LANTERN });
  const sun = { name: "sun_icon", identity: { name: "sun_icon", ordinal: 0, siblings: 1, structure: "9x9" } };
  return { ...one, others: [...one.others, sun], ...rest };
}

/** The drop with pixels over the cap, lines of another width, a last row that is not written, and a finding without a place. */
export function faultyDrop(): Shown {
  const pixels = DROP.map((value, i) => (i === 22 ? 200 : i === 31 ? 90 : i >= 72 ? 0 : value));
  const findings: Shown["findings"] = [
    over(22, "Pixel 4,2 is 200, over the cap of 64."),
    over(31, "Pixel 4,3 is 90, over the cap of 64."),
    { severity: "warning", message: "72 elements are written, 81 are needed: the last 9 are 0.", place: { on: "end" } },
    { severity: "information", message: "tint is given twice: the second one counts." },
  ];
  const unwritten = [Array.from({ length: 9 }, (_, i) => 72 + i)];
  const base = drop({ findings, unwritten });
  return { ...base, frames: [pixels], rowLines: base.rowLines.map((lines) => lines.map((l, y) => (y === 8 ? 0 : l))) };
}

function over(pixel: number, message: string): Shown["findings"][number] {
  return { severity: "warning", message, place: { on: "pixels", frame: 0, pixels: [pixel] } };
}

/** A drop whose panel looks otherwise. */
export function dropOn(panel: Panel & { readonly lattice?: string }, rest: Partial<Shown> = {}): Shown {
  const shown = drop(rest);
  return { ...shown, bitmap: { ...shown.bitmap, ...panel } as Shown["bitmap"] };
}

/** A picture that is wider than high, for turned panels: 6×4, each pixel another level. */
export function wedge(panel: Panel = {}): Shown {
  const pixels = Array.from({ length: 24 }, (_, i) => i);
  return shownOf({
    name: "wedge",
    width: 6,
    height: 4,
    frames: [pixels],
    info: { format: "gray4", most: 23, ...panel },
  });
}

/** Six frames of a drop that falls, 20 a second. */
export function falling(info: Partial<BitmapInfo> = {}, rest: Partial<Shown> = {}): Shown {
  const frames = Array.from({ length: 6 }, (_, f) => DROP.map((_, i) => DROP[i - (f - 2) * 9] ?? 0));
  const all = { ...LANTERN, fps: 20, ...info };
  return shownOf({ name: "falling_drop", width: 9, height: 9, frames, info: all, line: 112, rest });
}

/** A mono picture with a slanted pattern. */
export function mono(width: number, height: number): Shown {
  const pixels = Array.from({ length: width * height }, (_, i) => {
    const [x, y] = [i % width, Math.floor(i / width)];
    const edge = x === 0 || y === 0 || x === width - 1 || y === height - 1;
    return edge || (x + 2 * y) % 17 < 3 ? 1 : 0;
  });
  const info: Partial<BitmapInfo> = {
    format: "mono1",
    kind: "mono",
    most: 1,
    bytes: (width * height) / 8,
    tint: "#9fd8ff",
  };
  return shownOf({ name: "status", width, height, frames: [pixels], info, line: 31 });
}

/** Ninety-six glyphs of 5×7, each a frame without a speed. */
export function glyphs(own: Partial<BitmapInfo> = {}): Shown {
  const frames = Array.from({ length: 96 }, (_, f) =>
    Array.from(
      { length: 35 },
      (_, i) => ((f * 2654435761 + (i + 1) * 40503 * (f + 3)) >>> 7) & 1 & (i % 5 === 4 ? 0 : 1),
    ),
  );
  const info: Partial<BitmapInfo> = {
    format: "mono1",
    kind: "mono",
    most: 1,
    bytes: 480,
    tint: "#9fd8ff",
    dot: "square",
    ...own,
  };
  return shownOf({ name: "font5x7", width: 5, height: 7, frames, info, line: 12 });
}

/** A large picture in 16 or 24 bits of colour, with thousands of different ones: a sky at dawn. */
export function sky(width: number, height: number, format: "rgb565" | "rgb888"): Shown {
  const bits = format === "rgb565" ? [5, 6, 5] : [8, 8, 8];
  const pixels = Array.from({ length: width * height }, (_, i) => {
    const [x, y] = [(i % width) / width, Math.floor(i / width) / height];
    const shares = [y, y * (1 - Math.abs(x - 0.5)), 1 - y];
    return shares.reduce(
      (value, share, c) => value * 2 ** (bits[c] ?? 8) + Math.floor(share * (2 ** (bits[c] ?? 8) - 1)),
      0,
    );
  });
  const most = format === "rgb565" ? 2 ** 16 - 1 : 2 ** 24 - 1;
  const info: Partial<BitmapInfo> = { format, kind: "rgb", most, full: 255, light: "srgb" };
  return shownOf({ name: "sky", width, height, frames: [pixels], info, line: 8 });
}

/** A large grey picture: rings of light. */
export function rings(width: number, height: number): Shown {
  const pixels = Array.from({ length: width * height }, (_, i) => {
    const [x, y] = [(i % width) - width / 2, Math.floor(i / width) - height / 2];
    return Math.round(127.5 + 127.5 * Math.cos(Math.hypot(x, y) / 9));
  });
  return shownOf({ name: "rings", width, height, frames: [pixels], info: { tint: "#ffd9a0" }, line: 8 });
}
