/** Words of an annotation that change: which must stand there for options to mean what is wanted. */
import type { Format } from "../../pixels/formats.ts";
import { isColour } from "../../pixels/formats.ts";
import type { Options } from "../../pixels/options.ts";
import type { Word } from "../../source/annotationSyntax.ts";
import type { TextEdit } from "../../source/text.ts";
import type { Bitmap } from "../resolve.ts";

/** By option: the whole word that it gets, undefined for none. Options that are not in it stay. */
export type WordChanges = ReadonlyMap<string, string | undefined>;

type Choice = "pack" | "bits" | "pad" | "spare" | "bytes" | "scan" | "light";

/** Options by what they are to mean; "default" takes away the bitmap's own word. */
export type Wanted = { readonly [K in Choice]?: NonNullable<Options[K]> | "default" };

/**
 * The words that make the options mean what is wanted in a format. A word that says what holds without it goes, unless
 * it stood there before; one that the panel would say otherwise is written out.
 */
export function wordsToMean(bitmap: Bitmap, wanted: Wanted, format: Format): Map<string, string | undefined> {
  const panel = bitmap.panel?.options ?? {};
  const own: Options = {};
  for (const key of bitmap.words.keys()) Object.assign(own, { [key]: bitmap.options[key as keyof Options] });
  const changes = new Map<string, string | undefined>();
  const now = new Map<Choice, string>();
  const held = (key: Choice, fallback: string): void => {
    const want = wanted[key];
    const mine = own[key];
    if (want === undefined) now.set(key, mine ?? fallback);
    else if (want === "default" || want === fallback) {
      now.set(key, fallback);
      if (bitmap.words.has(key) && (want === "default" || mine !== want)) changes.set(key, undefined);
    } else {
      now.set(key, want);
      if (mine !== want) changes.set(key, `${key}=${want}`);
    }
  };
  const deep = format.depth >= 8 && panel.pack !== "each";
  held("pack", deep ? "rows" : (panel.pack ?? "rows"));
  const pack = now.get("pack");
  held("bits", panel.bits ?? (pack === "rows" || pack === "each" ? "msb" : "lsb"));
  held("bytes", panel.bytes ?? (now.get("bits") === "lsb" ? "le" : "be"));
  held("pad", panel.pad ?? "element");
  held("spare", panel.spare ?? "last");
  held("scan", panel.scan ?? "rows");
  held("light", panel.light ?? (isColour(format) ? "srgb" : "linear"));
  return changes;
}

/** The annotation's words after the changes, and the edits that make them so. */
export function changeWords(
  text: string,
  bitmap: Bitmap,
  changes: WordChanges,
): { readonly words: string; readonly edits: TextEdit[] } {
  const { annotation, words } = bitmap;
  if (!annotation) return { words: "", edits: [] };
  const keys = new Map<Word, string>([...words].map(([key, word]) => [word, key]));
  const edits: TextEdit[] = [];
  const out: string[] = [];
  const fresh = new Map(changes);
  for (const word of annotation.words) {
    const key = keys.get(word);
    if (key === undefined || !changes.has(key)) {
      out.push(word.text);
      continue;
    }
    fresh.delete(key);
    const now = changes.get(key);
    if (now === word.text) out.push(now);
    else if (now !== undefined) {
      out.push(now);
      edits.push({ start: word.start, end: word.end, text: now });
    } else edits.push({ ...withSpace(text, word), text: "" });
  }
  const isPlace = (word: Word) => {
    const key = keys.get(word);
    return key === "size" || key === "format" || (key === undefined && word.text === bitmap.panel?.name);
  };
  const last = annotation.words.at(-1)?.end ?? annotation.markerSpan.end;
  const place = annotation.words.filter(isPlace).pop()?.end ?? annotation.markerSpan.end;
  const placed = (key: string) => key === "size" || key === "format";
  for (const [key, now] of [...fresh].sort(([a], [b]) => Number(placed(b)) - Number(placed(a)))) {
    if (now === undefined) continue;
    const at = placed(key) ? place : last;
    edits.push({ start: at, end: at, text: ` ${now}` });
    out.push(now);
  }
  return { words: out.join(" "), edits };
}

/** A word with the white space before it. */
function withSpace(text: string, { start, end }: Word): { start: number; end: number } {
  let from = start;
  while (text[from - 1] === " " || text[from - 1] === "\t") from--;
  return { start: from, end };
}
