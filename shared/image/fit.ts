/** Pictures turned, cropped and brought to the size of a bitmap. */
import { resampled } from "../pixels/resample.ts";
import type { RgbaPicture } from "../pixels/rgba.ts";
import { cropped, oriented } from "../pixels/rgba.ts";
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

/** Refused are parts outside the picture, and another size than the bitmap's where the fit is to be exact. */
export function fitted(source: RgbaPicture, size: Size, choices: Choices): Fitted | Refused {
  const turned = oriented(source, choices.turn ?? 0, choices.mirror);
  const part = partOf(turned, size, choices);
  if ("refused" in part) return part;
  const { width, height } = size;
  const same = part.width === width && part.height === height;
  const fit = choices.fit ?? (same ? "exact" : "contain");
  if (same) return { picture: part, inside: { x: 0, y: 0, width, height } };
  const told = `${part.width}×${part.height} to ${width}×${height}`;
  if (fit === "exact")
    return {
      refused: `the picture is ${part.width}×${part.height}, and the bitmap ${width}×${height}: choose how it fits`,
    };
  const across = part.width * height >= part.height * width;
  // Of the two ways to keep its sides in proportion, contain leaves a margin and cover cuts off.
  const byWidth = fit === "contain" ? across : !across;
  const wide = byWidth ? width : Math.max(1, Math.round((part.width * height) / part.height));
  const high = byWidth ? Math.max(1, Math.round((part.height * width) / part.width)) : height;
  if (wide * high > 1 << 24) return { refused: `the picture would be ${wide}×${high} pixels large: crop it` };
  const scaled = resampled(part, wide, high, choices.resample ?? "area");
  const x = Math.floor((width - wide) / 2);
  const y = Math.floor((height - high) / 2);
  const inside = { x: Math.max(0, x), y: Math.max(0, y), width: Math.min(wide, width), height: Math.min(high, height) };
  const picture = cropped(scaled, -x, -y, width, height);
  return choices.fit
    ? { picture, inside }
    : { picture, inside, note: `scaled from ${told} with its sides in proportion` };
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
