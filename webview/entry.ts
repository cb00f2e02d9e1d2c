/** A value as it is typed, in formats of every kind; pure. */
import * as l10n from "@vscode/l10n";
import { fieldsOf, hexOf, nearestColour, packRgb, rgbOf } from "../shared/pixels/colour.ts";
import { FORMATS, type Format } from "../shared/pixels/formats.ts";
import type { BitmapInfo } from "../shared/protocol/lsp.ts";
import { parseLevel } from "./levels.ts";
import { formatOf, highestIndex, rawHex } from "./values.ts";

/** The raw value, and the colour that was asked for where the format has not got it. */
export interface Entered {
  readonly value: number;
  readonly wanted?: number;
}

type Typed = Entered | { readonly refused: string };

/** A value to paint with: a level, a colour, or an index, which may be asked for by its colour too. */
export function parseValue(text: string, bitmap: BitmapInfo): Typed {
  if (bitmap.kind === "rgb") return parseColour(text, formatOf(bitmap));
  if (bitmap.kind === "palette") return parseIndex(text, bitmap);
  return wrapped(parseLevel(text, bitmap.most));
}

/** A colour of a format by name: of a grey one a level. */
export function parseFor(text: string, format: string): Typed {
  const known = FORMATS.get(format) as Format;
  return known.kind === "rgb" ? parseColour(text, known) : wrapped(parseLevel(text, known.most));
}

/**
 * `#rrggbb` or `#rgb` to the nearest colour, `0x1200` or decimal as the raw value, one or three shares of full
 * (`50%`, `50% 20% 0%`) to the nearest level of each channel.
 */
function parseColour(text: string, format: Pick<Format, "name" | "kind" | "most">): Typed {
  const word = text.trim();
  const wanted = colourOf(word);
  if (wanted !== undefined) {
    const value = packRgb(format, wanted);
    return rgbOf(format, value) === wanted ? { value } : { value, wanted };
  }
  if (/^(?:\d+|0x[\da-f]+)$/i.test(word)) {
    const value = Number(word);
    if (value <= format.most) return { value };
    return { refused: l10n.t("{0} is above {1}, the highest value", word, rawHex(format, format.most)) };
  }
  const shares = sharesOf(word);
  if (!shares)
    return { refused: l10n.t("“{0}” is not a colour: write #ffb84d, a raw value, or 50% or 50% 20% 0%", word) };
  if (shares.some((share) => share > 100)) return { refused: l10n.t("{0} is more than full", word) };
  const value = fieldsOf(format.name).reduce((all, [shift, most], i) => {
    const share = shares[i] ?? shares[0] ?? 0;
    return all | (Math.round((most * share) / 100) << shift);
  }, 0);
  return { value };
}

/** A colour to what the format made of it, in words. */
export function enteredWords(bitmap: BitmapInfo, { value, wanted }: Entered, has: number): string {
  const held = bitmap.kind === "rgb" ? `${hexOf(has)} ${rawHex(bitmap, value)}` : `${value} ${hexOf(has)}`;
  return wanted === undefined ? held : l10n.t("{0} → {1}", hexOf(wanted), held);
}

function parseIndex(text: string, bitmap: BitmapInfo): Typed {
  const wanted = colourOf(text.trim());
  const { colours } = bitmap;
  if (wanted === undefined || !colours) return wrapped(parseLevel(text, highestIndex(bitmap)));
  const value = nearestColour(colours.slice(0, highestIndex(bitmap) + 1))(wanted);
  return colours[value] === wanted ? { value } : { value, wanted };
}

/** 0xRRGGBB of `#rrggbb` or `#rgb`. */
function colourOf(word: string): number | undefined {
  const digits = /^#([\da-f]{3}|[\da-f]{6})$/i.exec(word)?.[1];
  if (digits === undefined) return undefined;
  return Number.parseInt(digits.length === 3 ? digits.replace(/./g, "$&$&") : digits, 16);
}

function sharesOf(word: string): readonly number[] | undefined {
  const shares = word
    .replace(/\s+%/g, "%")
    .split(/[\s,]+/)
    .map((part) => /^(\d+(?:\.\d+)?)%$/.exec(part)?.[1]);
  if (shares.length !== 1 && shares.length !== 3) return undefined;
  return shares.some((share) => share === undefined) ? undefined : shares.map(Number);
}

function wrapped(level: number | { readonly refused: string }): Typed {
  return typeof level === "number" ? { value: level } : level;
}
