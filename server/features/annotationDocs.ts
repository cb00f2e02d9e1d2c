/** What the words of annotations mean, for hover and completion. */
import { homeOf } from "../../shared/bitmap/panels.ts";
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import type { Panel } from "../../shared/light/panel.ts";
import { USUAL } from "../../shared/motion/problem.ts";
import type { Format } from "../../shared/pixels/formats.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import { rowOf } from "../../shared/pixels/options.ts";
import type { Marker } from "../../shared/source/annotationSyntax.ts";

export const MARKER_DOCS: Readonly<Record<Marker, string>> = {
  bitmap: "The next list of numbers is a bitmap: its size or panel, then its format and options.",
  panel: "Defines a panel: its name and size, then what its bitmaps take over from it. Stands alone.",
  wiring: "The next list of numbers is an index table: entry i is the driver's index of pixel i of the named panel.",
  palette: "The next list of numbers holds colours of the format named here.",
  motion:
    "An image is uncovered by an edge that moves through a mask. The array after it holds the baked frames; before a function, firmware computes them.",
};

/** Defaults that an option's own text does not name. */
const DEFAULTS: Readonly<Record<string, string>> = {
  pack: "rows",
  spare: "last",
  scan: "rows",
  from: "top-left",
  skip: "0",
  lead: "0",
  frames: "1",
  cap: "none",
  drive: "100%",
  night: "none",
  overhead: "1/1, as on SPI",
  tint: "#ffffff",
  palette: "indices are drawn as greys",
  lattice: "square",
  dot: "round",
  mount: "0",
  light: "linear for mono and gray, srgb for colour",
};

const MOTION_DEFAULTS: Readonly<Record<string, string>> = {
  ...Object.fromEntries(Object.entries(USUAL).map(([key, value]) => [key, String(value)])),
  level: "the cap",
  from: "where all is dark, 255 + `soft`",
  to: "where the image stands alone, -`soft`",
  fps: "that of the bitmap",
};

/** Markdown about an option of a marker; undefined for a word that is none. */
export function optionDoc(marker: Marker, key: string): string | undefined {
  const row = rowOf(marker, key);
  if (!row) return undefined;
  const form = row.flag
    ? "A bare word, without a value."
    : `Takes ${row.values ? `one of ${row.values.map((v) => `\`${v}\``).join(", ")}` : row.form}.`;
  const usual = (marker === "motion" ? MOTION_DEFAULTS : DEFAULTS)[key];
  return [row.doc, form, ...(usual === undefined ? [] : [`Without it: ${usual}.`])].join("\n\n");
}

/** One sentence about a format. */
export function formatDoc(format: Format): string {
  const what = {
    mono: "lit or dark",
    gray: "brightness",
    rgb: "red, green and blue",
    palette: "an index into a palette",
  }[format.kind];
  if (format.name === "rgb565" || format.name === "rgb332")
    return `${format.depth} bits a pixel: red, green and blue in ${[...format.name.slice(3)].join(", ")} bits, red highest.`;
  return `${format.depth} ${format.depth === 1 ? "bit" : "bits"} a pixel: ${what}, 0 to ${format.most}.`;
}

/** A panel's size, who uses it, and where it is defined if that is in another file. */
export function panelDoc(panel: Panel, { bitmaps, id }: BitmapFile): string {
  const { width, height, format } = panel.options;
  const users = bitmaps.filter((b) => b.panel?.name === panel.name).length;
  const size = width === undefined ? "" : ` · ${width}×${height}`;
  return `panel \`${panel.name}\`${size} ${(format ?? FORMATS.get("gray8"))?.name} · ${users} ${users === 1 ? "bitmap" : "bitmaps"} in this file${panel.id === id ? "" : ` · defined in ${homeOf(panel)}`}`;
}
