import { readString, SIMPLE, utf8 } from "./strings.ts";
import type { Target, Typed } from "./types.ts";
import { WIDTHS, wideCharacter } from "./types.ts";

/** How an integer literal is spelt, so that another value can be spelt alike. */
export interface LiteralStyle {
  readonly sign: string;
  readonly prefix: string;
  readonly base: 2 | 8 | 10 | 16;
  /** Digits with their separators, as written. */
  readonly digits: string;
  readonly suffix: string;
  /** Letters in upper case, where the digits themselves have none. */
  readonly upper?: boolean;
}

const SPELLING =
  /^([+-]?\s*)(?:(0[xX])([0-9a-fA-F']+)|(0[bB])([01']+)|(B)([01]{1,8})|(0)([0-7']*)|([1-9][0-9']*))((?:[uU](?:ll?|LL?|z|Z)?|(?:ll?|LL?|z|Z)[uU]?)?)$/;

/** Takes an integer literal apart (also the `B00110000` macros of sketches); undefined for any other text. */
export function literalStyle(text: string): LiteralStyle | undefined {
  const m = SPELLING.exec(text);
  if (!m) return undefined;
  const [, sign = "", hexPrefix, hex, binPrefix, bin, macro, macroBits, octalPrefix, octal, decimal, suffix = ""] = m;
  // A separator stands between two digits (C++17 5.13.2); the 0 of an octal literal is one.
  if (/^'/.test(hex ?? bin ?? "") || /''|'$/.test(hex ?? bin ?? octal ?? decimal ?? "")) return undefined;
  if (hexPrefix && hex) return { sign, prefix: hexPrefix, base: 16, digits: hex, suffix };
  if (binPrefix && bin) return { sign, prefix: binPrefix, base: 2, digits: bin, suffix };
  if (macro && macroBits) return suffix ? undefined : { sign, prefix: macro, base: 2, digits: macroBits, suffix };
  if (octalPrefix) {
    const digits = octal ?? "";
    return digits === ""
      ? { sign, prefix: "", base: 10, digits: "0", suffix }
      : { sign, prefix: octalPrefix, base: 8, digits, suffix };
  }
  return decimal ? { sign, prefix: "", base: 10, digits: decimal, suffix } : undefined;
}

/** Value and type of an integer literal without sign (C17 6.4.4.1: the first type of its list that holds it). */
export function literalValue(text: string, target: Target): Typed | undefined {
  const style = literalStyle(text);
  if (style?.sign !== "") return undefined;
  const plain = style.digits.replaceAll("'", "");
  if (plain === "") return undefined;
  const value = style.base === 10 ? BigInt(plain) : BigInt(`0${{ 2: "b", 8: "o", 16: "x" }[style.base]}${plain}`);
  const widths = WIDTHS[target];
  const suffix = style.suffix.toLowerCase();
  const longs = suffix.includes("ll") ? 2 : suffix.includes("l") || suffix.includes("z") ? 1 : 0;
  const sizes = [widths.int, widths.long, 64].slice(longs);
  for (const bits of sizes) {
    if (!suffix.includes("u") && value < 1n << BigInt(bits - 1)) return { value, bits, signed: true };
    if ((suffix.includes("u") || style.base !== 10) && value < 1n << BigInt(bits)) {
      return { value, bits, signed: false };
    }
  }
  return undefined;
}

/**
 * Spells a value in the style of an existing literal: base, prefix, letter case, width, separators and suffix stay.
 * Negative values get a minus sign; a style that had one drops it for values of 0 and more.
 */
export function spellLike(style: LiteralStyle, value: bigint): string {
  const negative = value < 0n;
  const size = negative ? -value : value;
  const wide = style.digits.replaceAll("'", "").length;
  let digits = size.toString(style.base);
  // Decimal literals cannot be padded (a leading 0 would make them octal); all others keep their width.
  if (style.base !== 10) digits = digits.padStart(wide, "0");
  if (style.base === 16 && upperCase(style)) digits = digits.toUpperCase();
  // The B macros end at eight digits.
  if (style.prefix === "B" && digits.length > 8) return `${negative ? "-" : ""}0x${size.toString(16).toUpperCase()}`;
  return (negative ? "-" : "") + style.prefix + separated(digits, style.digits) + style.suffix;
}

function upperCase(style: LiteralStyle): boolean {
  const letters = style.digits.replace(/[^a-fA-F]/g, "");
  return letters === "" ? (style.upper ?? style.prefix === "0X") : letters === letters.toUpperCase();
}

/** Puts digit separators at the places, counted from the right, where the model has them. */
function separated(digits: string, model: string): string {
  if (!model.includes("'")) return digits;
  let out = "";
  let left = digits.length;
  let place = model.length;
  while (left > 0) {
    place--;
    if (model[place] === "'" && out !== "") {
      out = `'${out}`;
      continue;
    }
    left--;
    out = digits[left] + out;
  }
  return out;
}

/**
 * The code units of a quoted literal's inside (UTF-8 bytes for characters beyond ASCII); undefined where an escape is
 * wrong or a character could not be decoded (U+FFFD).
 */
export function unquote(inside: string): number[] | undefined {
  const units: number[] = [];
  for (let i = 0; i < inside.length; ) {
    const c = inside.charCodeAt(i);
    if (c !== 92) {
      const point = inside.codePointAt(i) ?? c;
      if (point === 0xfffd) return undefined;
      units.push(...utf8(point));
      i += point > 0xffff ? 2 : 1;
      continue;
    }
    const hex = /^\\x([0-9a-fA-F]+)/.exec(inside.slice(i, i + 12));
    const octal = /^\\([0-7]{1,3})/.exec(inside.slice(i, i + 4));
    const universal = /^\\(?:u([0-9a-fA-F]{4})|U([0-9a-fA-F]{8}))/.exec(inside.slice(i, i + 10));
    if (hex) {
      const value = Number.parseInt(hex[1] as string, 16);
      if (value > 0xff) return undefined;
      units.push(value);
      i += hex[0].length;
    } else if (octal) {
      const value = Number.parseInt(octal[1] as string, 8);
      if (value > 0xff) return undefined;
      units.push(value);
      i += octal[0].length;
    } else if (universal) {
      units.push(...utf8(Number.parseInt((universal[1] ?? universal[2]) as string, 16)));
      i += universal[0].length;
    } else if (inside[i + 1] === "\n" || inside[i + 1] === "\r") {
      i += inside[i + 1] === "\r" && inside[i + 2] === "\n" ? 3 : 2;
    } else {
      const value = SIMPLE[inside[i + 1] ?? ""];
      if (value === undefined) return undefined;
      units.push(value);
      i += 2;
    }
  }
  return units;
}

/** Value of a character literal such as `'A'` or `'\x1f'`: one code unit, with the sign that `char` has. */
export function characterValue(text: string, target: Target): Typed | undefined {
  if (!text.startsWith("'") || !text.endsWith("'") || text.length < 3) return undefined;
  const units = unquote(text.slice(1, -1));
  if (units?.length !== 1) return undefined;
  const value = BigInt(units[0] as number);
  const { charSigned } = WIDTHS[target];
  return { value: charSigned ? BigInt.asIntN(8, value) : value, bits: 8, signed: charSigned };
}

/** Value of a character with an encoding prefix, such as `u'x'`: one code unit of the prefix's type. */
export function wideCharacterValue(prefix: string, text: string, target: Target): Typed | undefined {
  const string = readString(
    `${prefix}"${text.slice(1, -1).replaceAll('"', '\\"')}"`,
    0,
    text.length + prefix.length,
    target,
    false,
  );
  const value = string.values[0];
  if (string.problem || string.values.length !== 1 || value === undefined) return undefined;
  if (prefix === "L") {
    const { bits, signed } = wideCharacter(target);
    return { value: signed ? BigInt.asIntN(bits, BigInt(value)) : BigInt(value), bits, signed };
  }
  // u8 characters have type char before C++20, and then read as such.
  if (prefix === "u8") return characterValue(text, target);
  return { value: BigInt(value), bits: string.bits, signed: false };
}

/** Spells a value as a character literal where it is a printable ASCII character; undefined elsewhere. */
export function spellCharacter(value: bigint): string | undefined {
  if (value < 32n || value > 126n) return undefined;
  const c = String.fromCharCode(Number(value));
  return c === "'" || c === "\\" ? `'\\${c}'` : `'${c}'`;
}
