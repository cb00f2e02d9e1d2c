/** A panel's wiring written into the source: as `wire=`, or as a table where no words say it. */
import type { Panel } from "../../light/panel.ts";
import { canvasOf } from "../../light/wiring/wiring.ts";
import { readWire } from "../../pixels/wireWords.ts";
import { rewriteElements } from "../../source/rewrite.ts";
import type { TextEdit } from "../../source/text.ts";
import { eolOf } from "../../source/text.ts";
import { placed, placeNear } from "../place.ts";
import type { BitmapFile } from "../resolve.ts";
import { tableText } from "./table.ts";

/** What a wiring is found to be: the address of each pixel, and the `wire=` that says it, where one does. */
export interface FoundWiring {
  readonly index: readonly number[];
  readonly wire?: string | undefined;
}

type Rewired = { readonly edits: readonly TextEdit[] } | { readonly refused: string };

/** The edits that make the file say so, in one step. A table that the panel has is kept, and put right. */
export function wireEdits(file: BitmapFile, panel: Panel | undefined, { index, wire }: FoundWiring): Rewired {
  if (!panel) return { refused: "the bitmap names no panel" };
  const { text, annotations } = file.source;
  const definition = annotations.find((a) => a.marker === "panel" && a.words[0]?.text === panel.name);
  if (!definition) return { refused: `${panel.name} is defined in another file: open that` };
  const { width = 0, height = 0 } = panel.options;
  if (index.length !== width * height) return { refused: `${panel.name} has ${width * height} pixels now` };
  const edits: TextEdit[] = [];
  const table = file.wirings.tables.find((t) => t.panel.name === panel.name);
  const canvas = canvasOf(panel.options.wire, width, height);
  if (table) {
    const changes = index.map((address, slot) => ({ slot, bits: BigInt(address) }));
    const made = table.array.count === index.length && rewriteElements(text, table.array, changes, width);
    if (!made || "refused" in made)
      return { refused: made ? made.refused : `${table.array.name} has ${table.array.count} entries` };
    edits.push(...made.edits);
  } else if (wire === undefined) {
    const at = placeNear(file.source, definition.end);
    const wiring = { ...canvas, index: Uint32Array.from(index), key: "" };
    const made = tableText(file, { ...panel, wiring }, wiring, at.span.start);
    edits.push(placed(at, made.text.split(eolOf(text)).join(eolOf(text) + at.indent), eolOf(text)).edit);
  }
  // Where a table says it, words would only say it twice: what stays of them is the canvas.
  const bare = readWire(panel.options.wire ?? "").wire.canvas;
  const words = table || wire === undefined ? bare && `${bare.width}x${bare.height}` : wire;
  const word = definition.words.find((w) => w.key === "wire");
  const last = definition.words.at(-1)?.end ?? definition.end;
  if (word && words === undefined) edits.push({ start: word.start - 1, end: word.end, text: "" });
  else if (word && word.value !== words) edits.push({ start: word.valueStart, end: word.end, text: words ?? "" });
  else if (!word && words !== undefined) edits.push({ start: last, end: last, text: ` wire=${words}` });
  return { edits: edits.sort((a, b) => a.start - b.start) };
}
