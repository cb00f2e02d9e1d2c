/** Palette formats: indices of other depths, and the colours of a picture as a palette of its own. */
import type { Format } from "../../pixels/formats.ts";
import { FORMATS } from "../../pixels/formats.ts";
import type { Layout } from "../../pixels/layout.ts";
import { layOut } from "../../pixels/layout.ts";
import type { Pixels } from "../../pixels/picture.ts";
import { freeName } from "../../source/identifiers.ts";
import { lineStart } from "../../source/scan.ts";
import type { TextEdit } from "../../source/text.ts";
import { eolOf } from "../../source/text.ts";
import type { Declaration } from "../declaration.ts";
import { typeEdit } from "./declared.ts";
import { formatWords } from "./formatWords.ts";
import { histogramOf } from "./levels.ts";
import { anewRefused, elementsFor, listText } from "./list.ts";
import type { Plan, Target } from "./plan.ts";
import { aim, planOf } from "./plan.ts";
import type { Subject } from "./subject.ts";

export function palettePlans(s: Subject): Plan[] {
  const { format, options } = s.bitmap;
  const formats = [...FORMATS.values()].filter((f) => f.kind === "palette" && f !== format);
  if (format.kind === "palette") {
    // The colours of a head have the place and size that the indices leave them.
    if (options.palette === "head") return [];
    const most = [...histogramOf(s.bitmap).keys()].reduce((a, b) => Math.max(a, b), 0);
    return formats.flatMap((f) => (most <= f.most ? indexPlan(s, f, new Map(), undefined) : []));
  }
  if (
    format.kind !== "rgb" ||
    !s.declaration ||
    s.array.dimensions.length !== 1 ||
    anewRefused(s) !== undefined ||
    !standsBefore(s)
  )
    return [];
  const colours = [...histogramOf(s.bitmap).keys()].sort((a, b) => a - b);
  if (colours.length > 256) return [];
  const index = new Map(colours.map((value, i) => [value, i]));
  return formats.flatMap((f) => (colours.length <= f.most + 1 ? indexPlan(s, f, index, colours) : []));
}

function indexPlan(
  s: Subject,
  format: Format,
  index: ReadonlyMap<number, number>,
  colours: readonly number[] | undefined,
): Plan[] {
  const narrow = s.layout.format.depth > 8 && s.layout.alone && typeEdit(s, 8) !== undefined;
  const bits = narrow && s.type.bits !== 64 ? 8 : s.type.bits;
  const words = formatWords(s, format, bits);
  words.set("format", format.name);
  const made = colours && paletteText(s, colours);
  if (made) words.set("palette", `palette=${made.name}`);
  if (colours && !made) return [];
  const target: Target = {
    words,
    bits: bits === 64 ? undefined : bits,
    pixels: (frames) => frames.map((pixels) => Uint8Array.from(pixels as ArrayLike<number>, (v) => index.get(v) ?? v)),
    ...(made ? { more: [made.edit] } : {}),
  };
  const now = aim(s, target);
  const many = colours ? ` with a palette of ${colours.length} colour${colours.length === 1 ? "" : "s"}` : "";
  return now ? [planOf(s, "format", `format:${format.name}`, `Convert to ${format.name}${many}`, target, now)] : [];
}

/** Whether annotation and statement are all that stands on their lines, up to the name. */
function standsBefore({ bitmap, array, text }: Subject): boolean {
  const comment = bitmap.annotation?.comment;
  const start = comment && comment.end <= array.declaration.start ? comment.start : array.declaration.start;
  return /^[ \t\uFEFF]*$/.test(text.slice(lineStart(text, start), start));
}

/** The statement of a palette array declared as the picture is, with its annotation, before that of the picture. */
function paletteText(s: Subject, colours: readonly number[]): { name: string; edit: TextEdit } | undefined {
  const { text, bitmap, array, layout, type } = s;
  const name = freeName(text, `${array.name}_colours`);
  const { head, tail } = s.declaration as Declaration;
  // Comments in the declaration speak of the picture.
  if (/\/[/*]/.test(head + tail)) return undefined;
  const { format, pack, bytes, elementBits } = layout;
  const row = layOut({
    ...layout,
    width: colours.length,
    height: 1,
    frames: 1,
    bits: "msb",
    pad: "none",
    spare: "last",
    scan: "rows",
    from: "top-left",
    skip: 0,
    lead: 0,
    elementBits,
  });
  if ("why" in row) return undefined;
  const Values = format.depth <= 8 ? Uint8Array : format.depth <= 16 ? Uint16Array : Uint32Array;
  const values = elementsFor(row as Layout, false, [Values.from(colours) as Pixels], undefined);
  // Several narrow colours in a wide element would be read as more colours than there are.
  if (!row.alone && (values.length * elementBits) / format.depth !== colours.length) return undefined;
  const words = [format.name, pack === "each" ? "pack=each" : "", bytes === "le" ? "bytes=le" : ""];
  const comment = bitmap.annotation?.comment;
  const before = comment && comment.end <= array.declaration.start ? comment.start : array.declaration.start;
  const at = lineStart(text, before) + (text.startsWith("\uFEFF") && lineStart(text, before) === 0 ? 1 : 0);
  const indent = text.slice(at, before);
  const eol = eolOf(text);
  const body = listText(s, { layout: row as Layout, options: {}, type, values }, false);
  const size = array.dimensions[0]?.size === undefined ? "" : String(values.length);
  const list = `{${eol}${body.lines}${eol}${indent}}`;
  const note = `// @palette ${words.filter((w) => w !== "").join(" ")}`;
  const statement = `${indent}${note}${eol}${indent}${head}${name}[${size}]${tail}${list};${eol}${eol}`;
  return { name, edit: { start: at, end: at, text: statement } };
}
