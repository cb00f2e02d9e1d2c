/** What can be made of a panel's wiring: a table, functions and a sketch, as text of the file. Start here. */
import type { Panel } from "../../light/panel.ts";
import type { Wiring } from "../../light/wiring/wiring.ts";
import { canvasOf } from "../../light/wiring/wiring.ts";
import { eolOf } from "../../source/text.ts";
import type { Bitmap, BitmapFile } from "../resolve.ts";
import { addressFunction, lookupFunction } from "./address.ts";
import { drawFunction } from "./draw.ts";
import { stemOf } from "./names.ts";
import { probeSketch } from "./sketch.ts";
import { tableText } from "./table.ts";

export type WiredKind = "table" | "address" | "draw" | "probe";

/** Text to insert, and the name of what it defines. */
type Made = { readonly text: string; readonly name: string } | { readonly refused: string };

/** The wiring of a panel that says nothing of it: row by row. */
export function wiringOrRows(panel: Panel): Wiring | { readonly refused: string } {
  if (panel.wiring) return panel.wiring;
  const { width = 0, height = 0 } = panel.options;
  if (panel.miswired || width * height === 0)
    return { refused: `The wiring of ${panel.name} is not known: its findings say why.` };
  const index = Uint32Array.from({ length: width * height }, (_, i) => i);
  return { width, height, index, key: `${width}x${height} rows`, wire: "rows" };
}

/** `offset` is where the text will stand; `bitmap` is what a draw function reads. */
export function makeWired(
  file: BitmapFile,
  panel: Panel,
  kind: WiredKind,
  {
    bitmap,
    offset,
    known = file.source.text,
  }: {
    readonly bitmap?: Bitmap | undefined;
    readonly offset: number;
    /** The text in which what is needed may be defined already. */
    readonly known?: string;
  },
): Made {
  const eol = eolOf(file.source.text);
  const { width = 0, height = 0, wire } = panel.options;
  if (kind === "probe") {
    const canvas = canvasOf(wire, width, height);
    return probeSketch(panel, canvas.width * canvas.height, eol);
  }
  const wiring = wiringOrRows(panel);
  if ("refused" in wiring) return wiring;
  if (kind === "table") return tableText(file, panel, wiring, offset);
  const stem = stemOf(panel);
  if (kind === "address") return addressFunction(panel, wiring, eol);
  if (!bitmap) return { refused: `A draw function needs a bitmap of ${panel.name} to read.` };
  const parts: string[] = [];
  const address = `${stem}_address`;
  if (!new RegExp(`\\b${address}\\s*\\(`).test(known)) {
    const made = addressFunction(panel, wiring, eol);
    if ("text" in made) parts.push(made.text);
    else {
      const table = file.wirings.tables.find((t) => t.panel.name === panel.name);
      const own = table?.array.type;
      const written = own ? undefined : tableText(file, panel, wiring, offset);
      if (written) parts.push(written.text);
      const bits = written?.bits ?? own?.bits ?? 8;
      const name = written?.name ?? table?.array.name ?? "";
      const flash = written?.flash ?? (table !== undefined && inFlash(file, table));
      parts.push(lookupFunction(panel, wiring, { name, bits, flash }, eol).text);
    }
  }
  const drawn = drawFunction(bitmap, { panel, wiring, address, flash: inFlash(file, bitmap), eol });
  if ("refused" in drawn) return drawn;
  return { text: [...parts, drawn.text].join(eol + eol), name: drawn.name };
}

/** Whether an array is read by the functions for program memory. */
function inFlash({ source }: BitmapFile, { array }: Pick<Bitmap, "array">): boolean {
  return /\bPROGMEM\b/.test(source.text.slice(array.declaration.start, array.base));
}
