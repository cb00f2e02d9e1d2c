/** Words of an `@motion` that change. */
import type { TextEdit } from "../source/text.ts";
import type { Motion } from "./resolve.ts";

/** By option the whole word that it gets, undefined for none; new ones follow the last word. */
export function changeMotion(
  text: string,
  { annotation, words }: Pick<Motion, "annotation" | "words">,
  changes: ReadonlyMap<string, string | undefined>,
): TextEdit[] {
  const edits: TextEdit[] = [];
  const last = annotation.words.at(-1)?.end ?? annotation.markerSpan.end;
  for (const [key, now] of changes) {
    const word = words.get(key);
    if (!word) {
      if (now !== undefined) edits.push({ start: last, end: last, text: ` ${now}` });
    } else if (now === undefined) {
      let start = word.start;
      while (text[start - 1] === " " || text[start - 1] === "\t") start--;
      edits.push({ start, end: word.end, text: "" });
    } else if (now !== word.text) edits.push({ start: word.start, end: word.end, text: now });
  }
  return edits.sort((a, b) => a.start - b.start || a.end - b.end);
}
