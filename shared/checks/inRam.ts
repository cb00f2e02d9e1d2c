/** Pictures that take RAM on AVR although nothing writes to them, and how they are kept in flash instead. */
import { declarationOf } from "../bitmap/declaration.ts";
import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import type { Storage } from "../bitmap/storage.ts";
import { isForAvr, isPlainlyInFlash, knowsFlash, storageOf } from "../bitmap/storage.ts";
import { outlineOf } from "../source/outline.ts";
import type { TextEdit } from "../source/text.ts";
import type { IntType } from "../source/types.ts";
import type { Use, Wanted } from "../source/uses.ts";
import { usesOf } from "../source/uses.ts";
import type { Finding, Fix } from "./rules.ts";
import { counted } from "./rules.ts";

/** Arrays whose uses are looked for at most. */
const MOST_ARRAYS = 200;
/** Characters of code, lists aside, that are looked through for their uses. */
const MOST_CODE = 200_000;
/** Fewer bytes of RAM are not worth a word. */
const LEAST_BYTES = 16;

interface InRam {
  readonly index: number;
  readonly bitmap: Bitmap;
  readonly storage: Storage;
  /** undefined where they have not been looked for. */
  readonly uses: readonly Use[] | undefined;
}

/** Information on each array that is copied to RAM at start, with the places that use it. */
export function inRamFindings(file: BitmapFile): Finding[] {
  return inRam(file).map((found) => {
    const { index, bitmap, storage, uses = [] } = found;
    const { array } = bitmap;
    return {
      code: "memory",
      severity: "information",
      message: messageOf(file, found),
      span: array.nameSpan,
      bitmap: index,
      data: { ram: storage.ram },
      places: uses.map(({ kind, span }) => ({ span, message: DONE[kind].replace("…", array.name) })),
    };
  });
}

const DONE: Readonly<Record<Use["kind"], string>> = {
  element: "… is read here",
  flash: "… is read here, as data in flash is",
  size: "the size of … is asked for here",
  written: "… is written to here",
  macro: "a macro names … here",
  other: "… is passed on or declared here",
};

/** `const` and `PROGMEM` for the array and `pgm_read_…` for all that reads it; nothing where that is not all there is. */
export function inRamFix(file: BitmapFile, finding: Finding): Fix[] {
  const found = inRam(file).find(({ index }) => index === finding.bitmap);
  if (!found || whyNot(file, found) !== undefined) return [];
  const { array } = found.bitmap;
  const { text } = file.source;
  const declaration = declarationOf(text, array);
  const read = array.type && readerOf(array.type);
  if (!declaration || !read) return [];
  const edits: TextEdit[] = [];
  const insert = (at: number, words: string) => edits.push({ start: at, end: at, text: words });
  if (found.storage.writable)
    insert(
      array.declaration.start + (/^(?:\s*(?:static|inline)\b\s*)*/.exec(declaration.head)?.[0].length ?? 0),
      "const ",
    );
  insert(array.nameSpan.end + declaration.dimensions.length, " PROGMEM");
  const reads = (found.uses ?? []).filter(({ kind }) => kind === "element");
  for (const { span } of reads) {
    insert(span.start, `${read}(&`);
    insert(span.end, ")");
  }
  edits.sort((a, b) => a.start - b.start);
  const also =
    reads.length > 0 ? `, read by \`${read.replace(/^\(.*\)/, "")}\` in ${counted(reads.length, "place")}` : "";
  return [{ kind: "to-flash", title: `Keep ${array.name} in flash${also}`, edits }];
}

const kept = new WeakMap<BitmapFile, readonly InRam[]>();

function inRam(file: BitmapFile): readonly InRam[] {
  const known = kept.get(file) ?? findInRam(file);
  kept.set(file, known);
  return known;
}

function findInRam({ source, bitmaps }: BitmapFile): InRam[] {
  if (!isForAvr(source)) return [];
  const candidates: Omit<InRam, "uses">[] = [];
  const seen = new Set<number>();
  for (const [index, bitmap] of bitmaps.entries()) {
    const { array } = bitmap;
    // A statement is judged once, whatever it holds; what a table of pointers leads to has declarations of its own.
    if (candidates.length >= MOST_ARRAYS || array.parts || seen.has(array.nameSpan.start)) continue;
    if (isPlainlyInFlash(source, array)) continue;
    const storage = storageOf(source, array);
    if (storage?.kind !== "copied" || storage.ram < LEAST_BYTES) continue;
    seen.add(array.nameSpan.start);
    candidates.push({ index, bitmap, storage });
  }
  if (candidates.length === 0) return [];
  const wanted = candidates.map(({ bitmap: { array } }): Wanted => {
    const name = source.text.slice(array.nameSpan.start, array.nameSpan.end);
    return { name, subscripts: array.dimensions.length, declared: array.nameSpan };
  });
  const lists = source.initialisers.reduce((sum, { list }) => sum + list.length, 0);
  // This runs at every keystroke: of very much code nothing is looked for, and so nothing is mended.
  const uses = source.text.length - lists > MOST_CODE ? undefined : usesOf(source, wanted);
  return candidates
    .map((candidate, i) => ({ ...candidate, uses: uses && (uses.get(wanted[i] as Wanted) ?? []) }))
    .filter(({ storage, uses: own }) => !storage.writable || own?.every(({ kind }) => kind !== "written"));
}

function messageOf(file: BitmapFile, found: InRam): string {
  const { bitmap, storage, uses = [] } = found;
  const why = storage.writable ? "it is not `const` and has no PROGMEM" : "it has no PROGMEM";
  const where = uses.length === 0 ? "" : ` It is used in ${counted(uses.length, "place")} of this file.`;
  const no = whyNot(file, found);
  return `On AVR, ${bitmap.array.name} takes ${counted(storage.ram, "byte")} of RAM beside those of flash, as ${why}.${where}${no ? ` ${no}` : ""}`;
}

/** Why the change can't be made as a whole; undefined where it can. */
function whyNot(file: BitmapFile, { bitmap, uses }: Pick<InRam, "bitmap" | "uses">): string | undefined {
  const { array } = bitmap;
  const { text } = file.source;
  const sketch = /\.(?:ino|pde)$/i.test(file.file);
  if (/\.(?:h|hh|hpp|hxx|inc|ipp)$/i.test(file.file))
    return "Files that include this one read it too: change the declaration and all reads together.";
  if (array.siblings > 1) return "Another array has its name: change it by hand.";
  const declaration = declarationOf(text, array);
  if (!declaration || !/^[A-Za-z_]\w*$/.test(array.name) || array.dimensions.length === 0)
    return "Its declaration holds more than this array: change it by hand.";
  if (!array.type || readerOf(array.type) === undefined) return "There is no `pgm_read_…` for its elements.";
  const local = !outlineOf(file.source).items.some(({ start }) => start === array.declaration.start);
  if (local && !/\bstatic\b/.test(declaration.head)) return "In a function only a `static` array can be in flash.";
  if (/\bextern\b/.test(declaration.head))
    return "Other files may read it: change the declaration and all reads together.";
  if (!sketch && !knowsFlash(file.source)) return "PROGMEM needs `#include <avr/pgmspace.h>`.";
  if (!uses) return "The file is too long to look for all that reads it.";
  const hard = uses.find(({ kind }) => kind === "other" || kind === "macro" || kind === "written");
  if (!hard) return undefined;
  return hard.kind === "macro"
    ? "A macro names it: what reads it there must be changed by hand."
    : "It is passed on or declared again: what reads it there must be changed by hand.";
}

/** What reads an element in flash (avr-libc, `<avr/pgmspace.h>`); undefined for elements that nothing reads. */
function readerOf({ bits, signed }: IntType): string | undefined {
  const read = { 8: "pgm_read_byte", 16: "pgm_read_word", 32: "pgm_read_dword", 64: undefined }[bits];
  return read && signed ? `(int${bits}_t)${read}` : read;
}
