/**
 * The motion as one function in C (C11 and C++11 alike): no heap, no floating point, nothing wider than 16 bits. It
 * follows the kernel step by step, so each of its frames is that of the preview. Start here.
 */

import type { BitmapFile } from "../../bitmap/resolve.ts";
import { highestOf } from "../../pixels/picture.ts";
import { OURS } from "../functionAfter.ts";
import type { Ingredient } from "../ingredients.ts";
import type { Edge } from "../kernel/edge.ts";
import type { Moving } from "../kernel/frame.ts";
import { orderOf } from "../kernel/timeline.ts";
import type { Motion } from "../resolve.ts";
import type { Reader } from "./reader.ts";
import { byteAt, inFlash, readerFor, startOf } from "./reader.ts";
import type { Table } from "./tables.ts";
import { stepOf, tablesOf } from "./tables.ts";

export type Refused = { readonly refused: string };

export interface Style {
  readonly indent: string;
  readonly eol: string;
}

/** Most pixels of a frame that 16 bits count. */
const MOST_PIXELS = 65_535;

/** Names in the function, written with a `$` below; one that the file means otherwise gets a line behind it. */
const NAMES = [
  "frame before after shown position pixels",
  "field inside light positions",
  "start under old i x y distance level share",
]
  .join(" ")
  .split(" ");

/** The text of the function, from `void` to the closing brace. */
export function functionOf(file: BitmapFile, motion: Motion, name: string, style: Style): string | Refused {
  const { moving, image, mask, glyphs } = motion;
  if (!moving || !image) return { refused: motion.problems[0]?.message ?? "its words do not say a whole motion" };
  if (moving.image.length > MOST_PIXELS) return { refused: `more than ${MOST_PIXELS} pixels are too many for 16 bits` };
  const { text } = file.source;
  const imageReader = readerFor(image.bitmap, inFlash(image.text, image.bitmap));
  if ("refused" in imageReader) return imageReader;
  const maskReader = mask && readerFor(mask.bitmap, inFlash(mask.text, mask.bitmap));
  if (maskReader && "refused" in maskReader) return maskReader;
  // Where a file keeps arrays in flash, the tables go there too.
  const flash = /\bPROGMEM\b/.test(text) || inFlash(image.text, image.bitmap);
  const taken = new Set([image.bitmap.array.name, mask?.bitmap.array.name, name, ...file.source.macros.keys()]);
  const own = Object.fromEntries(NAMES.map((n) => [n, taken.has(n) ? `${n}_` : n]));
  const tables = tablesOf(motion);
  const lines = [
    ...headOf(file, motion, name),
    ...tables.flatMap((table) => tableLines(table, flash)),
    ...(glyphs ? glyphLines(image) : positionLines(moving, tables, flash)),
    ...loopLines(moving, {
      image: (start) => imageReader.expression(start),
      imageStart: glyphs ? "$start" : pointerTo(image),
      mask: maskReader && mask ? maskValue(mask, maskReader) : byteAt(flash, "$field", "$i"),
      placed: imageReader.placed || (maskReader?.placed ?? false),
      shared: !tables.some((t) => t.name === "light"),
      flash,
      glyphs,
    }),
    "}",
  ];
  const renamed = lines.map((line) => line.replace(/\$(\w+)/g, (_all, word: string) => own[word] ?? word));
  return renamed
    .map((line) => line.replace(/^(?: {2})+/, (lead) => style.indent.repeat(lead.length / 2)))
    .join(style.eol);
}

/** From 0 to 255: the highest values of all formats divide 255. */
function maskValue(mask: Ingredient, { expression }: Reader): string {
  const factor = 255 / mask.bitmap.format.most;
  const value = expression(pointerTo(mask));
  return factor === 1 ? value : `(${value} * ${factor})`;
}

/** A pointer to the first pixel of a frame. */
function pointerTo({ bitmap, frame }: Ingredient): string {
  const start = startOf(bitmap, frame);
  const flat = bitmap.array.dimensions.length > 1 || bitmap.array.type?.signed;
  const pointer = flat ? `(const uint8_t *)${bitmap.array.name}` : bitmap.array.name;
  return start === 0 ? (flat ? `(${pointer})` : pointer) : `(${pointer} + ${start})`;
}

function headOf(file: BitmapFile, { moving, image, glyphs }: Motion, name: string): string[] {
  const { image: levels, timeline } = moving as Moving;
  const pixels = levels.length;
  // A header may be included more than once.
  const kind = /\.(?:h|hh|hpp|hxx|inc)$/i.test(file.file) ? "static inline void" : "void";
  const again = "`firmware` writes it again.";
  if (glyphs) {
    const glyphCount = image?.bitmap.frames ?? 0;
    const [first = 0] = timeline.positions;
    const last = timeline.positions.at(-1) as number;
    return [
      `${kind} ${name}(uint16_t $before, uint16_t $after, const uint8_t *$shown, int16_t $position, uint8_t *$pixels) {`,
      `  // ${OURS}; ${again}`,
      `  // Glyphs 0 to ${glyphCount - 1}; position from ${first} to ${last}; ${pixels} bytes of pixels, row by row.`,
      "  // A change that comes in the middle of another: a copy of the pixels on the display as the third, else 0.",
    ];
  }
  const last = orderOf(timeline).length - 1;
  const then = { once: "then it stays", around: "then again", "there-and-back": "there and back, then again" }[
    timeline.loop
  ];
  return [
    `${kind} ${name}(uint16_t $frame, uint8_t *$pixels) {`,
    `  // ${OURS}; ${again}`,
    `  // Frames 0 to ${last}, ${then}; ${pixels} bytes of pixels, row by row.`,
  ];
}

function tableLines({ name, type, values, doc }: Table, flash: boolean): string[] {
  const lines = [`  static const ${type} $${name}[${values.length}]${flash ? " PROGMEM" : ""} = { // ${doc}`];
  for (let i = 0; i < values.length; i += 16)
    lines.push(`    ${Array.from({ length: Math.min(16, values.length - i) }, (_, k) => values[i + k]).join(", ")},`);
  return [...lines, "  };"];
}

/** The frame within the run, and its position. */
function positionLines({ timeline }: Moving, tables: readonly Table[], flash: boolean): string[] {
  const { positions, loop } = timeline;
  const count = positions.length;
  const run = orderOf(timeline).length;
  const lines: string[] = [];
  if (count === 1) lines.push("  (void)$frame;");
  else if (loop === "once") lines.push(`  if ($frame > ${count - 1}) $frame = ${count - 1};`);
  else lines.push(`  $frame %= ${run};`);
  if (run > count) lines.push(`  if ($frame >= ${count}) $frame = ${run} - $frame;`);
  const first = positions[0] as number;
  const last = positions[count - 1] as number;
  if (tables.some((t) => t.name === "positions")) {
    const read = flash ? "pgm_read_word($positions + $frame)" : "$positions[$frame]";
    return [...lines, `  const int16_t $position = (int16_t)${read};`];
  }
  const step = stepOf(positions) ?? 0;
  if (count === 1) return [...lines, `  const int16_t $position = ${first};`];
  const way = `${first} ${step < 0 ? "-" : "+"} (int16_t)($frame * ${Math.abs(step)})`;
  if (first + (count - 1) * step === last) return [...lines, `  const int16_t $position = ${way};`];
  lines.push(`  int16_t $position = ${way};`);
  return [...lines, `  if ($position ${step < 0 ? "<" : ">"} ${last}) $position = ${last};`];
}

/** Where the pixels of the glyphs begin. */
function glyphLines(image: Ingredient): string[] {
  const { bitmap } = image;
  const { frameElements = 0 } = bitmap.layout ?? {};
  const first = pointerTo({ ...image, frame: 0 });
  return [
    `  const uint8_t *$start = ${first} + $after * ${frameElements};`,
    `  const uint8_t *$under = ${first} + $before * ${frameElements};`,
  ];
}

interface Parts {
  readonly image: Reader["expression"];
  readonly imageStart: string;
  readonly mask: string;
  readonly placed: boolean;
  /** The light is 255 where it is full, so its table is that of the inside. */
  readonly shared: boolean;
  readonly flash: boolean;
  readonly glyphs: boolean;
}

function loopLines(moving: Moving, parts: Parts): string[] {
  const { width, height, image } = moving;
  const small = image.length < 256 ? "uint8_t" : "uint16_t";
  const body = pixelLines(moving, parts);
  if (!parts.placed)
    return [`  for (${small} $i = 0; $i < ${image.length}; $i++) {`, ...body.map((l) => `    ${l}`), "  }"];
  return [
    `  ${small} $i = 0;`,
    `  for (uint16_t $y = 0; $y < ${height}; $y++) {`,
    `    for (uint16_t $x = 0; $x < ${width}; $x++, $i++) {`,
    ...body.map((l) => `      ${l}`),
    "    }",
    "  }",
  ];
}

/** `pixelAt` of the kernel, for one pixel. */
function pixelLines({ edge, cap, image }: Moving, { glyphs, mask, ...parts }: Parts): string[] {
  const { soft, rim, level } = edge;
  const hard = soft === rim;
  const outside = hard ? `$distance < ${-rim}` : `$distance <= ${-soft}`;
  const capped = (value: string) => `${value} > ${cap} ? ${cap} : ${value}`;
  const lifted = glyphs || highestOf(image) + level > cap;
  return [
    `const int16_t $distance = (int16_t)${mask} - $position;`,
    ...(glyphs ? [`const uint8_t $old = $shown ? $shown[$i] : ${parts.image("$under")};`] : []),
    `if (${outside}) {`,
    `  $pixels[$i] = ${glyphs ? (cap < 255 ? capped("$old") : "$old") : "0"};`,
    "  continue;",
    "}",
    `uint16_t $level = ${parts.image(parts.imageStart)};`,
    ...(hard ? hardLines(edge) : softLines(edge, { glyphs, ...parts })),
    `$pixels[$i] = (uint8_t)${lifted ? `(${capped("$level")})` : "$level"};`,
  ];
}

function hardLines({ rim, level }: Edge): string[] {
  return level > 0 && rim > 0 ? [`if ($distance < ${rim}) $level += ${level};`] : [];
}

function softLines(
  { soft, rim, level }: Edge,
  { glyphs, flash, shared }: Pick<Parts, "glyphs" | "flash" | "shared">,
): string[] {
  const inside = byteAt(flash, "$inside", `($distance + ${soft})`);
  const light = (steps: string) => `  $level += ${byteAt(flash, shared ? "$inside" : "$light", `(${steps})`)};`;
  const mixing = glyphs
    ? [
        `  const uint8_t $share = ${inside};`,
        "  $level = $level * $share + (uint16_t)$old * (uint8_t)(255 - $share) + 128;",
      ]
    : [`  $level = $level * ${inside} + 128;`];
  const inner = [`if ($distance < ${-rim}) {`, ...mixing, "  $level = ($level + ($level >> 8)) >> 8;"];
  if (level === 0) return [...inner, "}"];
  return [
    ...inner,
    light(`$distance + ${soft}`),
    `} else if ($distance <= ${rim}) {`,
    `  $level += ${level};`,
    `} else if ($distance < ${soft}) {`,
    light(`${soft} - $distance`),
    "}",
  ];
}
