import { editPixels } from "../bitmap/edit.ts";
import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import type { SourceArray } from "../source/arrays.ts";
import { elementSpan } from "../source/arrays.ts";
import type { Initialiser, ListNode } from "../source/initialiser.ts";
import { reflow } from "../source/reflow.ts";
import type { Span } from "../source/text.ts";
import type { Fix, Rule } from "./rules.ts";
import { bitmapOf } from "./rules.ts";

/** Numbers a line that people and tools wrap at whatever the picture; they say nothing of its width. */
const USUAL_WRAPS = new Set([8, 10, 12, 16, 20, 32]);

/** Line breaks that tell of another width than the annotation does: often a picture turned on its side. */
export const rowShape: Rule = {
  codes: ["row-shape"],
  doc: "The lines of the source fit another width than the annotation, such as that of the picture on its side.",
  checkBitmap: (text, bitmap) => {
    const shape = shapeOf(text, bitmap);
    if (!shape) return [];
    const { perLine, lines, turned, width } = shape;
    const row = bitmap.layout?.lineElements ?? 0;
    const fits = turned ? `the turned size ${bitmap.height}×${bitmap.width}` : `a width of ${width}`;
    const message = `${lines} lines of ${perLine} elements fit ${fits}; a ${unit(bitmap)} of ${bitmap.width}×${bitmap.height} takes ${row}.`;
    return [{ code: "row-shape", severity: "warning", message, span: shape.span, data: { perLine, turned } }];
  },
  fixes: (file, finding) => {
    const bitmap = bitmapOf(file, finding);
    const shape = bitmap && shapeOf(file.source.text, bitmap);
    if (!bitmap || !shape) return [];
    return [resized(bitmap, shape), oneRowPerLine(file, bitmap), ...turns(file, bitmap, shape)].filter(
      (f) => f !== undefined,
    );
  },
};

interface Shape {
  readonly perLine: number;
  readonly lines: number;
  /** Width in pixels that the lines speak for. */
  readonly width: number;
  readonly height: number;
  readonly turned: boolean;
  readonly span: Span;
}

function unit(bitmap: Bitmap): string {
  return bitmap.layout?.pack === "columns" || bitmap.layout?.scan.endsWith("columns") ? "column" : "row";
}

/** The shape that the line breaks tell of, where it is not the annotated one. */
function shapeOf(text: string, bitmap: Bitmap): Shape | undefined {
  const { layout, array } = bitmap;
  if (
    !layout ||
    layout.driver ||
    layout.lineElements === 0 ||
    layout.pack === "pages" ||
    array.given < 4 ||
    !array.list?.closed
  )
    return undefined;
  // Columns are written in lines of every kind; only rows have a shape that a reader expects to see.
  if (layout.pack === "columns" || layout.scan.endsWith("columns") || layout.skip + layout.lead > 0) return undefined;
  if (array.given !== layout.elements) return undefined;
  const found = linesOf(text, array);
  if (!found) return undefined;
  const { perLine, lines, span } = found;
  const row = layout.lineElements;
  if (perLine % row === 0 || row % perLine === 0) return undefined;
  const perElement = layout.alone ? 1 / layout.span : layout.elementBits / layout.format.depth;
  const width = perLine * perElement;
  const height = lines / bitmap.frames;
  if (!Number.isInteger(width) || !Number.isInteger(height)) return undefined;
  const turnedRow = Math.ceil(bitmap.height / perElement);
  const turned = perLine === turnedRow && height === bitmap.width;
  if (!turned && USUAL_WRAPS.has(perLine)) return undefined;
  return { perLine, lines, width: turned ? bitmap.height : width, height, turned, span };
}

/** Elements to a line where all lines have the same number of them; undefined for one line or uneven ones. */
function linesOf(text: string, array: SourceArray): { perLine: number; lines: number; span: Span } | undefined {
  if (array.parts) return undefined;
  const node = array.list?.nodes[array.node] as ListNode;
  const inner =
    array.dimensions.length > 1 && node.lists > 0 ? array.dimensions[array.dimensions.length - 1]?.size : undefined;
  if (inner !== undefined && inner > 0 && array.given % inner === 0) {
    return {
      perLine: inner,
      lines: array.given / inner,
      span: { start: elementSpan(array, 0).start, end: elementSpan(array, inner - 1).end },
    };
  }
  let perLine = 0;
  let lines = 0;
  let onLine = 0;
  let end = 0;
  let first = 0;
  const { base } = array;
  const { starts, lengths } = array.list as Initialiser;
  // Straight from the typed arrays: this loop runs over every element of every bitmap.
  for (let i = array.first; i < array.first + array.given; i++) {
    const start = base + (starts[i] as number);
    if (i > array.first && breaksBetween(text, end, start)) {
      if (lines === 0) {
        perLine = onLine;
        first = end;
      } else if (onLine !== perLine) return undefined;
      lines++;
      onLine = 0;
    }
    onLine++;
    end = start + (lengths[i] as number);
  }
  if (lines === 0 || onLine !== perLine) return undefined;
  return { perLine, lines: lines + 1, span: { start: elementSpan(array, 0).start, end: first } };
}

function breaksBetween(text: string, from: number, to: number): boolean {
  for (let i = from; i < to; i++) {
    const c = text.charCodeAt(i);
    if (c === 10 || c === 13) return true;
  }
  return false;
}

function resized(bitmap: Bitmap, shape: Shape): Fix | undefined {
  const size = bitmap.words.get("size");
  const text = `${shape.width}x${shape.height}`;
  const edits = size
    ? [{ start: size.start, end: size.end, text }]
    : bitmap.annotation && [
        {
          start: bitmap.annotation.words[0]?.end ?? bitmap.annotation.markerSpan.end,
          end: bitmap.annotation.words[0]?.end ?? bitmap.annotation.markerSpan.end,
          text: ` ${text}`,
        },
      ];
  return edits && { kind: "size", title: `Change the annotation to ${text}`, edits, preferred: true };
}

function oneRowPerLine(file: BitmapFile, bitmap: Bitmap): Fix | undefined {
  const edits = reflow(file.source.text, bitmap.array, bitmap.layout?.lineElements ?? 0);
  return edits && { kind: "reflow", title: `Put one row of ${bitmap.width} pixels on each line`, edits };
}

/** Reads the array as the turned picture that its lines show, and turns it to the annotated size. */
function turns(file: BitmapFile, bitmap: Bitmap, shape: Shape): (Fix | undefined)[] {
  if (!shape.turned || !bitmap.layout?.alone) return [];
  const edits = reflow(file.source.text, bitmap.array, bitmap.layout.lineElements);
  if (!edits) return [];
  const { width, height } = bitmap;
  const turned = (kind: string, title: string, from: (x: number, y: number) => number): Fix | undefined => {
    const changes = [];
    for (let frame = 0; frame < bitmap.frames; frame++) {
      const pixels = pixelsOf(bitmap, frame);
      if (!pixels) return undefined;
      for (let y = 0; y < height; y++) {
        for (let x = 0; x < width; x++) changes.push({ frame, x, y, value: pixels[from(x, y)] as number });
      }
    }
    const painted = editPixels(file.source.text, bitmap, changes, "tokens");
    return "refused" in painted ? undefined : { kind, title, edits: [...edits, ...painted.edits] };
  };
  // The picture as its lines show it is `height` wide; its pixel (u, v) is number v·height + u.
  return [
    turned("turn-right", "Turn the picture clockwise", (x, y) => (width - 1 - x) * height + y),
    turned("turn-left", "Turn the picture anticlockwise", (x, y) => x * height + (height - 1 - y)),
  ];
}
