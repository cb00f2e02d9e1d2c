/** `dotwright/bitmaps` and `dotwright/picture`: what a painter shows. */
import { findBitmap, identityOf } from "../../shared/bitmap/edit.ts";
import { characterOf } from "../../shared/bitmap/glyphs.ts";
import type { Palette } from "../../shared/bitmap/palettes.ts";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { sendingOf } from "../../shared/checks/bus.ts";
import { highest } from "../../shared/light/limit.ts";
import { liveMotions } from "../../shared/motion/live.ts";
import type { BitmapInfo, LspParams, LspReply, PaletteArray, PictureFrame } from "../../shared/protocol/lsp.ts";
import { elementOfSlot, elementSpan } from "../../shared/source/arrays.ts";
import type { Parsed } from "../documents.ts";
import { bitmapLines } from "./bitmapLines.ts";
import { motionInfo } from "./motionEdits.ts";
import { rangeOf } from "./place.ts";
import { valueRange } from "./range.ts";
import { wiringInfo } from "./wire.ts";
import { bytesOf } from "./words.ts";

export function listBitmaps(parsed: Parsed): LspReply<"dotwright/bitmaps"> {
  const live = liveMotions(parsed.file).flatMap(({ bitmap, why }) => {
    if (!bitmap) return [];
    // What it is filled in is not what it takes in memory.
    const info = { ...infoOf(parsed, bitmap), bytes: 0 };
    return [why === undefined ? info : { ...info, why }];
  });
  const bitmaps = parsed.file.bitmaps.map((b) => infoOf(parsed, b));
  return { ok: { version: parsed.version, bitmaps, ...(live.length > 0 ? { live } : {}) } };
}

/** Refuses a bitmap that is not surely the one meant, has no picture, or lacks one of the frames. */
export function picture(parsed: Parsed, params: LspParams<"dotwright/picture">): LspReply<"dotwright/picture"> {
  const bitmap = findBitmap(parsed.file, params.identity);
  if ("refused" in bitmap) return { err: bitmap.refused };
  const frames: PictureFrame[] = [];
  for (const frame of params.frames ?? [0]) {
    if (!Number.isInteger(frame) || frame < 0 || frame >= bitmap.frames)
      return { err: `${bitmap.array.name} has no frame ${frame}` };
    const pixels = pixelsOf(bitmap, frame);
    if (!pixels) return { err: `${bitmap.array.name} has no picture: ${bitmap.why ?? "its values are not known"}` };
    const shown = { frame, pixels: Array.from(pixels) };
    frames.push(params.elements ? { ...shown, elements: elementPlaces(parsed, bitmap, frame) } : shown);
  }
  const { lines, rows = false } = params;
  if (lines && bitmap.why !== undefined) return { err: `${bitmap.array.name} has no picture: ${bitmap.why}` };
  const peak = peakOf(bitmap);
  const wiring = params.wiring ? wiringInfo(parsed, bitmap) : undefined;
  return {
    ok: {
      version: parsed.version,
      bitmap: infoOf(parsed, bitmap),
      frames,
      ...(peak === undefined ? {} : { peak }),
      ...(lines ? { lines: bitmapLines(parsed, bitmap, lines, rows) } : {}),
      ...motionToTell(parsed, bitmap, params.motion === true),
      ...(wiring ? { wiring } : {}),
    },
  };
}

function motionToTell({ file }: Parsed, bitmap: Bitmap, asked: boolean) {
  const motion = asked ? motionInfo(file, bitmap) : undefined;
  return motion ? { motion } : {};
}

/** Told only where it decides what full light is, as it costs a pass over all pixels. */
function peakOf(bitmap: Bitmap): number | undefined {
  return bitmap.cap === undefined && bitmap.format.kind === "gray" ? valueRange(bitmap)?.most : undefined;
}

/** See `PictureFrame.elements`. */
function elementPlaces({ document }: Parsed, bitmap: Bitmap, frame: number): number[] {
  const { layout, array } = bitmap;
  const places: number[] = [];
  if (!layout) return places;
  for (const slot of layout.table(frame).element) {
    const first = elementOfSlot(array, slot);
    const last = layout.span > 1 ? elementOfSlot(array, slot + layout.span - 1) : first;
    if (first < 0 || last < 0) {
      places.push(-1, -1, -1, -1);
      continue;
    }
    const start = document.positionAt(elementSpan(array, first).start);
    const end = document.positionAt(elementSpan(array, last).end);
    places.push(start.line, start.character, end.line, end.character);
  }
  return places;
}

/** Most glyphs whose characters are told one by one. */
const MOST_GLYPHS = 4096;

export function charactersOf({ options, frames }: Bitmap): number[] | undefined {
  if (characterOf(options, 0) === undefined) return undefined;
  const points: number[] = [];
  for (let frame = 0; frame < Math.min(frames, MOST_GLYPHS); frame++) {
    const point = characterOf(options, frame);
    if (point !== undefined) points.push(point);
  }
  return points;
}

/** What a painter must know of the palette to change its colours. */
function paletteArrayOf({ bitmaps }: Parsed["file"], bitmap: Bitmap, { array, format, values }: Palette): PaletteArray {
  const sharing = bitmaps.filter((other) => other !== bitmap && other.palette?.array === array);
  const fixed = array.readOnly ?? array.fixed;
  return {
    format: format.name,
    values: Array.from(values),
    others: [...new Set(sharing.map((other) => other.array.name))],
    ...(fixed === undefined ? {} : { fixed }),
  };
}

function supplyOf({ mask, options: { full, idle = 0, duty = 1, budget } }: Bitmap): BitmapInfo["supply"] {
  return mask || full === undefined ? undefined : { full, idle, duty, ...(budget === undefined ? {} : { budget }) };
}

export function infoOf({ document, file }: Pick<Parsed, "document" | "file">, bitmap: Bitmap): BitmapInfo {
  const { array, width, height, frames, format, cap, drive, light, options, panel, palette, widths, why } = bitmap;
  const { fps, tint, lattice, mount, dot } = options;
  const limit = highest(bitmap);
  const characters = charactersOf(bitmap);
  const supply = supplyOf(bitmap);
  const sending = sendingOf(bitmap);
  return {
    identity: identityOf(bitmap),
    name: array.name,
    width,
    height,
    frames,
    drive,
    format: format.name,
    kind: format.kind,
    most: format.most,
    full: format.full,
    light,
    bytes: bytesOf(bitmap),
    declaration: rangeOf(document, array.declaration),
    nameRange: rangeOf(document, array.nameSpan),
    ...(cap === undefined ? {} : { cap }),
    ...(limit === undefined ? {} : { limit }),
    ...(palette
      ? {
          palette: palette.name,
          colours: Array.from(palette.colours),
          paletteArray: paletteArrayOf(file, bitmap, palette),
        }
      : {}),
    ...(characters ? { characters } : {}),
    ...(widths ? { widths } : {}),
    ...(fps === undefined ? {} : { fps }),
    ...(supply ? { supply } : {}),
    ...(sending ? { sending: sending.seconds } : {}),
    ...(panel ? { panel: panel.name } : {}),
    ...(tint === undefined ? {} : { tint }),
    ...(lattice === undefined ? {} : { lattice }),
    ...(mount === undefined ? {} : { mount }),
    ...(dot === undefined ? {} : { dot }),
    ...(why === undefined ? {} : { why }),
  };
}
