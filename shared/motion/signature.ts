/** How a function of live code is called, told by what it gives and by the names of its parameters; and its buffer. */
import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import type { BoundAnnotation } from "../source/read.ts";
import type { IntType } from "../source/types.ts";
import type { Context, Expr, Parameter, Routine } from "./interpret/context.ts";
import { refuse } from "./interpret/context.ts";
import { globalExpr } from "./interpret/globals.ts";
import { READ, WRITE } from "./interpret/machine.ts";
import type { Entry } from "./interpret/run.ts";
import type { Type } from "./interpret/types.ts";
import { sizeOf } from "./interpret/types.ts";
import { objectFor } from "./interpret/variables.ts";

/** What a parameter is given: a place in the frame, the frame's number or its time, the size, or the buffer. */
export type Meaning = "x" | "y" | "frame" | "ms" | "seconds" | "width" | "height" | "buffer";

export interface Call {
  readonly cx: Context;
  readonly entry: Entry;
  readonly meanings: readonly Meaning[];
  /** Called for each pixel, whose raw value it gives; else once for a frame. */
  readonly perPixel: boolean;
  /** Where the frame is in memory, for a function that fills it. */
  readonly buffer: Buffer | undefined;
}

export interface Buffer {
  readonly address: number;
  readonly elements: number;
  readonly bits: IntType["bits"];
}

interface Named {
  readonly expr: Expr;
  readonly element: IntType;
  readonly elements: number;
  /** The annotated bitmap of that name. */
  readonly bitmap: Bitmap | undefined;
}

/**
 * The names that parameters have. A number of frames is what all of them mean that do not say otherwise: `t` is a
 * frame's number, as art for small displays counts frames.
 */
const NAMES: readonly (readonly [Meaning, RegExp])[] = [
  ["x", /^(?:x|col|column)$/i],
  ["y", /^(?:y|row)$/i],
  ["width", /^(?:w|width|columns|cols)$/i],
  ["height", /^(?:h|height|rows)$/i],
  ["ms", /^(?:ms|now|millis|time|milliseconds)$|_ms$|Ms$|Millis$/],
  ["seconds", /^(?:s|sec|secs|seconds)$|_s$|Seconds$/],
  ["frame", /^(?:t|frame|n|f|i|k|tick|step|phase|count|counter|frame_?(?:no|number|index|count))$/i],
];

/** The array that the annotation's `buffer=` names. */
export function bufferOf(cx: Context, file: BitmapFile, { words }: BoundAnnotation): Named | undefined {
  const word = words.find((w) => w.key === "buffer");
  if (!word?.value) return undefined;
  const span = { start: word.valueStart, end: word.end };
  const known = cx.globals.get(word.value);
  if (known?.kind !== "global") return refuse(`There is no array \`${word.value}\` in this file.`, span);
  const expr = globalExpr(cx, known.global);
  const { type, home } = expr;
  let element: Type = type;
  while (element.kind === "array") element = element.of;
  if (type.kind !== "array" || element.kind !== "int" || home?.kind !== "memory")
    return refuse(`\`${word.value}\` is no array of whole numbers.`, span);
  const bitmap = file.bitmaps.find((b) => b.array.name === word.value);
  return { expr, element, elements: sizeOf(type, cx.target) / (element.bits / 8), bitmap: bitmap?.layout && bitmap };
}

/** How the function is called. Throws `Stopped` at what is not understood. */
export function signatureOf(cx: Context, entry: Entry, bitmap: Bitmap, named: Named | undefined): Call {
  const { routine } = entry;
  const meanings = routine.parameters.map((p) => meaningOf(p));
  const places = meanings.filter((m) => m === "x" || m === "y").length;
  const numeric = routine.returns.kind === "int" || routine.returns.kind === "float";
  const perPixel = places > 0;
  if (perPixel && (!numeric || places < 2 || meanings.includes("buffer")))
    refuse("A function for one pixel takes x and y, and gives the pixel's value.", routine.span);
  let buffer: Buffer | undefined;
  if (!perPixel) buffer = named ? namedBuffer(named, bitmap, routine) : ownBuffer(cx, routine, meanings, bitmap);
  return { cx, entry, meanings, perPixel, buffer };
}

function meaningOf({ name, type, reference, span }: Parameter): Meaning {
  if (type.kind === "pointer" && type.to.kind === "int") return "buffer";
  const found = NAMES.find(([, form]) => form.test(name))?.[0];
  if (!found || reference || (type.kind !== "int" && type.kind !== "float"))
    return refuse(
      `It is not known what \`${name}\` is given. A parameter is named x, y, t or frame (the frame's number), ms or now (milliseconds), seconds, width or height; or it points to the frame.`,
      span,
    );
  return found;
}

function namedBuffer({ expr, element, elements }: Named, bitmap: Bitmap, routine: Routine): Buffer {
  const needed = bitmap.layout?.elements ?? 0;
  if (bitmap.why !== undefined || !bitmap.layout)
    refuse(bitmap.why ?? "The frame's layout is not known.", routine.span);
  if (elements < needed)
    refuse(
      `The buffer has ${elements} elements; a frame of ${bitmap.width}×${bitmap.height} in ${bitmap.format.name} takes ${needed}.`,
      routine.span,
    );
  return { address: expr.run(), elements, bits: element.bits };
}

/** Room for a frame, for a function that is handed a pointer to it. */
function ownBuffer(cx: Context, routine: Routine, meanings: readonly Meaning[], bitmap: Bitmap): Buffer {
  const i = meanings.indexOf("buffer");
  const type = routine.parameters[i]?.type;
  if (i < 0 || type?.kind !== "pointer" || type.to.kind !== "int")
    return refuse("`buffer=` must name the array that this function fills.", routine.span);
  const { bits } = type.to;
  if (!bitmap.layout || bitmap.layout.elementBits !== bits)
    return refuse(
      `The frame is filled in elements of ${bits} bits, which is not how the panel's pixels lie.`,
      routine.span,
    );
  const { elements } = bitmap.layout;
  return { address: objectFor(cx, (elements * bits) / 8, READ | WRITE, routine.span).address, elements, bits };
}
