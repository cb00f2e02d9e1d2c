/** Pictures turned, cropped and brought to the size of a bitmap. */
import { resampled } from "../pixels/resample.ts";
import type { RgbaPicture } from "../pixels/rgba.ts";
import { cropped, MOST_PIXELS, oriented } from "../pixels/rgba.ts";
import type { Choices } from "./choices.ts";

type Refused = { readonly refused: string };

export interface Fitted {
  readonly picture: RgbaPicture;
  /** The picture's part of the frame; around it nothing is shown. */
  readonly inside: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  /** In words what was done that was not asked for. */
  readonly note?: string;
}

type Size = { readonly width: number; readonly height: number };

/** What a picture was brought to last: while other choices are tried its samples need not be averaged anew. */
const known = new WeakMap<RgbaPicture, Map<string, unknown>>();
const MOST_KNOWN = 8;

function remembered<T>(source: RgbaPicture, what: string, size: Size, choices: Choices, make: () => T): T {
  const { turn, mirror, crop, fit, resample } = choices;
  const key = JSON.stringify([what, size.width, size.height, turn, mirror, crop, fit, resample]);
  const own = known.get(source) ?? new Map<string, unknown>();
  known.set(source, own);
  // What stands under a key is what was made for it.
  if (own.has(key)) return own.get(key) as T;
  const made = make();
  if (own.size >= MOST_KNOWN) own.clear();
  own.set(key, made);
  return made;
}

/** Refused are parts outside the picture, and another size than the bitmap's where the fit is to be exact. */
export function fitted(source: RgbaPicture, size: Size, choices: Choices): Fitted | Refused {
  return remembered(source, "fit", size, choices, () => newlyFitted(source, size, choices));
}

function newlyFitted(source: RgbaPicture, size: Size, choices: Choices): Fitted | Refused {
  const part = partOf(oriented(source, choices.turn ?? 0, choices.mirror), size, choices);
  if ("refused" in part) return part;
  const { width, height } = size;
  const same = part.width === width && part.height === height;
  if (same) return { picture: part, inside: { x: 0, y: 0, width, height } };
  if (choices.fit === "exact")
    return {
      refused: `the picture is ${part.width}×${part.height}, and the bitmap ${width}×${height}: choose how it fits`,
    };
  const { x, y, wide, high } = placeOf(part, size, choices);
  if (wide * high > MOST_PIXELS) return { refused: `the picture would be ${wide}×${high} pixels large: crop it` };
  const scaled = resampled(part, wide, high, choices.resample ?? "area");
  const inside = { x: Math.max(0, x), y: Math.max(0, y), width: Math.min(wide, width), height: Math.min(high, height) };
  const picture = cropped(scaled, -x, -y, width, height);
  const note = `scaled from ${part.width}×${part.height} to ${width}×${height} with its sides in proportion`;
  return choices.fit ? { picture, inside } : { picture, inside, note };
}

/** How large the picture becomes, and where its upper left pixel lies in the bitmap. */
function placeOf(part: Size, { width, height }: Size, { fit }: Choices) {
  const across = part.width * height >= part.height * width;
  // Of the two ways to keep its sides in proportion, contain leaves a margin and cover cuts off.
  const byWidth = fit === "cover" ? !across : across;
  const wide = byWidth ? width : Math.max(1, Math.round((part.width * height) / part.height));
  const high = byWidth ? Math.max(1, Math.round((part.height * width) / part.width)) : height;
  return { wide, high, x: Math.floor((width - wide) / 2), y: Math.floor((height - high) / 2) };
}

function partOf(picture: RgbaPicture, size: Size, { crop }: Choices): RgbaPicture | Refused {
  if (!crop) return picture;
  const { x, y, width = size.width, height = size.height } = crop;
  if (width < 1 || height < 1 || x < 0 || y < 0 || x + width > picture.width || y + height > picture.height)
    return {
      refused: `${width}×${height} from ${x},${y} is not inside the picture, which is ${picture.width}×${picture.height}`,
    };
  return cropped(picture, x, y, width, height);
}

/** Longest side of what is shown of a source. */
const SHOWN = 384;

/**
 * The source as it is laid under the bitmap, in eight bits: `finer` pixels for each of the bitmap's, so that both can be
 * seen side by side at one scale.
 */
export function sourceView(source: RgbaPicture, size: Size, choices: Choices): RgbaPicture | Refused {
  return remembered(source, "view", size, choices, () => newView(source, size, choices));
}

function newView(source: RgbaPicture, size: Size, choices: Choices): RgbaPicture | Refused {
  const part = partOf(oriented(source, choices.turn ?? 0, choices.mirror), size, choices);
  if ("refused" in part) return part;
  const finer = Math.max(1, Math.min(16, Math.floor(SHOWN / Math.max(size.width, size.height))));
  const { x, y, wide, high } = placeOf(part, size, choices);
  const [width, height] = [size.width * finer, size.height * finer];
  if (wide * high * finer * finer > MOST_PIXELS) return { refused: "the picture would be too large: crop it" };
  const how = part.width * part.height > wide * high * finer * finer ? "area" : "nearest";
  const { most, data } = cropped(
    resampled(part, wide * finer, high * finer, how),
    -x * finer,
    -y * finer,
    width,
    height,
  );
  // A loop: with a function for each sample this took most of the time.
  const bytes = new Uint8Array(data.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = Math.round(((data[i] as number) * 255) / most);
  return { width, height, most: 255, data: bytes };
}
