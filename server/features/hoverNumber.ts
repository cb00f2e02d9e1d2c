/** What a hover on one number of a bitmap says: its pixels, their values, and the light they give. */

import { characterInWords, characterOf } from "../../shared/bitmap/glyphs.ts";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { EYES } from "../../shared/checks/cautions.ts";
import { counted } from "../../shared/checks/rules.ts";
import { lightness, srgbToLinear } from "../../shared/light/lightness.ts";
import { highest } from "../../shared/light/limit.ts";
import { levelOf, valueInWords } from "../../shared/pixels/colour.ts";
import { isColour } from "../../shared/pixels/formats.ts";
import { elementValue, slotOf } from "../../shared/source/arrays.ts";
import type { HeldPixel } from "./elementPixels.ts";
import { drawingOf, pixelsOfElement } from "./elementPixels.ts";
import { describeColour } from "./hoverColour.ts";
import { driverInWords } from "./hoverWiring.ts";
import { percent } from "./words.ts";

/** Markdown about the written element `index` of the bitmap's array. */
export function describeElement(bitmap: Bitmap, index: number): string {
  const { array } = bitmap;
  if (bitmap.why !== undefined) return `\`${array.name}\` is read-only: ${bitmap.why}.`;
  const slot = slotOf(array, index);
  const value = elementValue(array, index);
  const bits = array.type?.bits ?? 8;
  const pattern = BigInt.asUintN(bits, value);
  const hex = `0x${pattern
    .toString(16)
    .toUpperCase()
    .padStart(bits / 4, "0")}`;
  const head = `\`${array.name}\` element ${slot < 0 ? index : slot} · ${value} · ${hex}`;
  if (slot < 0) return `${head}\n\nOne too many: the array has room for ${array.count}.`;
  const held = pixelsOfElement(bitmap, slot);
  const [first] = held;
  if (!first && bitmap.palette?.array === array && bitmap.layout && slot < bitmap.layout.skip)
    return describeColour(bitmap.palette, index);
  if (!first) return `${head}\n\n${unused(bitmap, slot)}`;
  const pixels = held.length === 1 ? onePixel(bitmap, first) : severalPixels(bitmap, held, pattern);
  return [head, ...pixels, ...driverInWords(bitmap, held), ...partOf(bitmap, slot, first)].join("\n\n");
}

function unused({ layout }: Bitmap, slot: number): string {
  if (layout && slot < layout.skip) return "Skipped: not a pixel (`skip`).";
  if (layout && slot >= layout.elements) return "After the end of the picture: not a pixel.";
  return "Not a pixel.";
}

function inFrame({ frames, options }: Bitmap, frame: number): string {
  const character = characterOf(options, frame);
  const glyph = character === undefined ? "" : ` (${characterInWords(character)})`;
  return frames > 1 || glyph ? `, frame ${frame}${glyph}` : "";
}

function onePixel(bitmap: Bitmap, { x, y, frame, value }: HeldPixel): string[] {
  const { format, cap } = bitmap;
  const place = `Pixel x ${x}, y ${y}${inFrame(bitmap, frame)}`;
  if (format.kind === "mono")
    return [`${place}: ${value > 0 ? "lit" : "dark"}${bitmap.invert ? " (inverted: 0 is lit)" : ""}`];
  const raw = bitmap.invert ? ` (inverted: ${value})` : "";
  const level = levelOf(format, value, bitmap.palette?.colours);
  const parts = [
    isColour(format)
      ? `${place}: ${valueInWords(format, value, bitmap.palette?.colours)}${raw}`
      : `${place}: ${percent(value / format.most)} of full scale${raw}, lightness L* ${lightnessOf(bitmap, value).toFixed(1)}`,
  ];
  const limit = highest(bitmap);
  if (cap === undefined) return parts;
  if (limit !== undefined && level > limit) parts.push(`Over the cap of ${cap}. ${EYES}`);
  else if (cap > 0) parts.push(`${percent((level * bitmap.drive) / cap)} of the cap of ${cap}`);
  return parts;
}

/** Lightness of the light that a value gives, relative to that of a pixel at full scale. */
function lightnessOf({ format, drive, light }: Bitmap, value: number): number {
  const share = (value / format.most) * drive;
  return lightness(light === "srgb" ? srgbToLinear(share) : share);
}

/** Where a pixel takes several elements: which of them this is. */
function partOf({ layout, width }: Bitmap, slot: number, { frame, x, y }: HeldPixel): string[] {
  if (!layout || layout.span < 2) return [];
  const first = layout.table(frame).element[y * width + x] as number;
  return [`Element ${slot - first + 1} of the ${layout.span} that make this pixel.`];
}

/** The run of pixels that share an element, with a drawing of them. */
function severalPixels(bitmap: Bitmap, held: readonly HeldPixel[], pattern: bigint): string[] {
  const frames = [...new Set(held.map((p) => p.frame))];
  const bits = bitmap.array.type?.bits ?? 8;
  const parts = frames.map((frame) => {
    const pixels = held.filter((p) => p.frame === frame);
    const [first, last] = [pixels[0] as HeldPixel, pixels[pixels.length - 1] as HeldPixel];
    const span = (from: number, to: number) => (from === to ? String(from) : `${from} to ${to}`);
    const down = first.x === last.x ? ", top to bottom" : "";
    const place = `${counted(pixels.length, "pixel")}: x ${span(first.x, last.x)}, y ${span(first.y, last.y)}${inFrame(bitmap, frame)}${down}`;
    return `${place}\n\n\`${drawingOf(bitmap, pixels)}\``;
  });
  const indexed = bitmap.format.kind === "palette" && bitmap.palette;
  if (indexed) {
    const used = [...new Set(held.map((p) => p.value))].sort((a, b) => a - b);
    parts.push(used.map((index) => valueInWords(bitmap.format, index, indexed.colours)).join(", "));
  }
  if (bitmap.format.depth === 1)
    parts.push(`Bits \`0b${pattern.toString(2).padStart(bits, "0")}\`${bitmap.invert ? ", 0 is lit" : ""}`);
  return parts;
}
