/**
 * Where the compiler puts an array, and the bytes that it takes there. On AVR, data is in RAM unless it is placed in
 * program memory: constants too are copied from flash at start (avr-libc, "Data in Program Space"). Elsewhere
 * constants stay in flash. What is writable is copied to RAM, or only cleared there where it is all zeros.
 */
import type { SourceArray } from "../source/arrays.ts";
import type { SourceFile } from "../source/read.ts";
import { elementsOfArray } from "./elements.ts";

export interface Storage {
  /** `eeprom`: neither in flash nor in RAM. */
  readonly kind: "flash" | "copied" | "cleared" | "eeprom";
  /** Bytes of flash and of RAM. */
  readonly flash: number;
  readonly ram: number;
  /** It may be written to. */
  readonly writable: boolean;
}

/** A quick answer: the array is surely in flash, by the usual word and without comments that might hold it. */
export function isPlainlyInFlash({ text }: SourceFile, { declaration, nameSpan, base }: SourceArray): boolean {
  const [before, behind] = [text.slice(declaration.start, nameSpan.start), text.slice(nameSpan.end, base)];
  return (before.includes("PROGMEM") || behind.includes("PROGMEM")) && !before.includes("/") && !behind.includes("/");
}

/** Undefined where the size of the array is not known. */
export function storageOf(source: SourceFile, array: SourceArray): Storage | undefined {
  if (!array.type) return undefined;
  const bytes = (array.count * array.type.bits) / 8;
  const words = declaringWords(source, array);
  const placed = words.some((word) => IN_FLASH.test(word) || saysFlash(source.macros.get(word)?.body));
  const writable = !words.some((word) => word === "const" || word === "constexpr" || word === "__flash");
  if (placed) return { kind: "flash", flash: bytes, ram: 0, writable };
  if (words.some((word) => /^(EEMEM|eeprom)$|^\.eeprom/.test(word)))
    return { kind: "eeprom", flash: 0, ram: 0, writable };
  if (!writable && !isForAvr(source)) return { kind: "flash", flash: bytes, ram: 0, writable };
  if (writable && isZero(array)) return { kind: "cleared", flash: 0, ram: bytes, writable };
  return { kind: "copied", flash: bytes, ram: bytes, writable };
}

/** Built for AVR, where constants are not in flash by themselves: as set, or as the file's own words say. */
export function isForAvr(source: SourceFile): boolean {
  return source.target === "avr" || flashWords(source) === "used";
}

/** Whether PROGMEM is known in the file. */
export function knowsFlash(source: SourceFile): boolean {
  return flashWords(source) !== "none";
}

type FlashWords = "used" | "included" | "none";
const known = new WeakMap<SourceFile, FlashWords>();

/** Asked for each array of a file, so looked for once. */
function flashWords(source: SourceFile): FlashWords {
  const before = known.get(source);
  if (before !== undefined) return before;
  // Plain searches, as this is looked for in every version of a text of megabytes.
  const { text } = source;
  const used = text.includes("PROGMEM") || text.includes("avr/pgmspace.h");
  const words = used ? "used" : text.includes("Arduino.h") ? "included" : "none";
  known.set(source, words);
  return words;
}

const IN_FLASH = /^(?:PROGMEM|__flash[1-5]?|__memx|(?:__)?progmem(?:__)?)$|^\.progmem/;

function saysFlash(body: string | undefined): boolean {
  return body !== undefined && /\bPROGMEM\b|\b_*progmem\b|__flash\b/.test(body);
}

/** The words and section names of the declaration, without its sizes and comments. */
function declaringWords({ text }: SourceFile, { declaration, nameSpan, base }: SourceArray): string[] {
  const end = Math.max(nameSpan.end, base);
  const said = `${text.slice(declaration.start, nameSpan.start)} ${text.slice(nameSpan.end, end)}`;
  const bare = said.replace(/\/\*[\s\S]*?\*\/|\/\/[^\r\n]*/g, " ").replace(/\[[^\]]*\]|\{[^}]*\}/g, " ");
  return bare.match(/\.?[A-Za-z_][\w.]*/g) ?? [];
}

function isZero(array: SourceArray): boolean {
  const elements = array.readOnly === undefined ? elementsOfArray(array) : undefined;
  if (!elements) return false;
  for (let i = 0; i < elements.length; i++) if (Number(elements[i]) !== 0) return false;
  return true;
}
