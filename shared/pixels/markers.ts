/** Markers that are misspelt: `@Bitmap 9x9`, `@bitmpa lantern`. */
import type { Marker } from "../source/annotationSyntax.ts";
import { MARKERS } from "../source/annotationSyntax.ts";
import type { Span } from "../source/text.ts";
import { FORMATS } from "./formats.ts";
import type { WordProblem } from "./options.ts";
import { wordsFor } from "./options.ts";
import { edits } from "./words.ts";

/**
 * What is wrong with a line of a comment that begins with an `@word`: undefined unless the word is a marker but for a
 * letter or two and what follows speaks of pixels, as documentation knows `@` words of its own.
 */
export function misspeltMarker(
  text: string,
  line: Span,
  panels: { has(name: string): boolean },
): WordProblem | undefined {
  const [, word = "", rest = ""] = /^@(\w+)(.*)$/s.exec(text.slice(line.start, line.end)) ?? [];
  const marker = markerNear(word);
  if (marker === undefined) return undefined;
  const { keys } = wordsFor(marker);
  const speaks = rest.split(/\s+/).some((part) => {
    const [key = "", ...value] = part.split("=");
    return /^\d+x\d+$/.test(part) || FORMATS.has(part) || panels.has(part) || (value.length > 0 && keys.includes(key));
  });
  if (!speaks) return undefined;
  const message = `\`@${word}\` is no annotation, so nothing is read of it. Did you mean \`@${marker}\`?`;
  const end = line.start + 1 + word.length;
  return { start: line.start, end, code: "annotation", message, suggestion: `@${marker}` };
}

/** The marker that a word is, but for a letter or two; without its `@`. */
export function markerNear(word: string): Marker | undefined {
  return MARKERS.find((known) => edits(word.toLowerCase(), known, 2) <= (known.length > 5 ? 2 : 1));
}
