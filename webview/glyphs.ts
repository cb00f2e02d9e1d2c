/** Glyph sets on the page: which character a frame shows, and the frame of a character; pure. */
import * as l10n from "@vscode/l10n";
import { characterInWords, codeInWords } from "../shared/bitmap/glyphs.ts";
import type { BitmapInfo } from "../shared/protocol/lsp.ts";

type Glyphs = Pick<BitmapInfo, "characters" | "widths" | "frames">;

/** True where each frame is a character, or has a width of its own. */
export function isGlyphSet({ characters, widths }: Glyphs): boolean {
  return characters !== undefined || widths !== undefined;
}

/** The character of a frame in words: `'A'`, or its code point where it can't be seen; "" for none. */
export function characterOfFrame({ characters }: Pick<Glyphs, "characters">, frame: number): string {
  const point = characters?.[frame];
  return point === undefined ? "" : characterInWords(point);
}

/** The frame, and its character where it has one. */
export function glyphWords(set: Glyphs, frame: number): string {
  const character = characterOfFrame(set, frame);
  return character === "" ? l10n.t("frame {0}", frame) : l10n.t("{0}, frame {1}", character, frame);
}

/** `U+0041`. */
export function codePoint({ characters }: Glyphs, frame: number): string {
  const point = characters?.[frame];
  return point === undefined ? "" : codeInWords(point);
}

/**
 * The frame of what was typed: one character, a code point as `U+0041`, or, where there are no characters, the number
 * of a frame. Of a character that several frames show it is the first after `from`.
 */
export function frameOfTyped(set: Glyphs, typed: string, from: number): number | { readonly refused: string } {
  const { characters, frames } = set;
  if (!characters) {
    const frame = /^\s*\d+\s*$/.test(typed) ? Number(typed) : -1;
    return frame >= 0 && frame < frames ? frame : { refused: l10n.t("There is no frame {0}.", typed.trim()) };
  }
  const code = /^\s*U\+([\da-f]{1,6})\s*$/i.exec(typed);
  // A lone space is a character too.
  const whole = [...typed].length === 1 ? typed : typed.trim();
  const point = code ? Number.parseInt(code[1] as string, 16) : whole.codePointAt(0);
  if (point === undefined || (!code && [...whole].length !== 1))
    return { refused: l10n.t("Type one character, or its code as U+0041.") };
  const after = characters.indexOf(point, from + 1);
  const found = after >= 0 ? after : characters.indexOf(point);
  return found >= 0 ? found : { refused: l10n.t("The set has no {0}.", characterInWords(point)) };
}
