/** Glyph sets: which character a frame shows, and how wide it is. */
import type { Options, WordProblem } from "../pixels/options.ts";
import { nearest } from "../pixels/words.ts";
import type { Word } from "../source/annotationSyntax.ts";
import type { SourceFile } from "../source/read.ts";
import { elementsOfArray } from "./elements.ts";
import { problem } from "./problem.ts";

const MOST_POINT = 0x10ffff;

/** Code point of the character that a frame shows; undefined where the annotation does not tell. */
export function characterOf({ chars, first }: Options, frame: number): number | undefined {
  if (chars) return chars[frame];
  return first !== undefined && first + frame <= MOST_POINT ? first + frame : undefined;
}

/** A character for people: `'A'`, `U+000A` for one that can't be seen. */
export function characterInWords(point: number): string {
  const text = point === 32 ? " " : seenCharacter(point);
  return text === undefined ? codeInWords(point) : `'${text}'`;
}

/** A character that can be seen by itself; undefined for any other. */
export function seenCharacter(point: number): string | undefined {
  const text = point <= MOST_POINT ? String.fromCodePoint(point) : "";
  return /^[\p{L}\p{N}\p{P}\p{S}]$/u.test(text) ? text : undefined;
}

/** A code point as Unicode writes it: `U+0041`. */
export function codeInWords(point: number): string {
  return `U+${point.toString(16).toUpperCase().padStart(4, "0")}`;
}

/** Characters that do not go with the frames or with each other. */
export function glyphProblems(options: Options, words: ReadonlyMap<string, Word>): WordProblem[] {
  const { chars, first, frames = 1 } = options;
  const problems: WordProblem[] = [];
  const [listed, start] = [words.get("chars"), words.get("first")];
  if (listed && chars && chars.length !== frames) {
    const many = `${frames} ${frames === 1 ? "frame" : "frames"}`;
    problems.push(problem(listed, `\`chars\` lists ${chars.length} characters for ${many}.`));
  }
  if (listed && start)
    problems.push(problem(start, "`first` says nothing beside `chars`, which lists each character."));
  if (start && first !== undefined && first + frames - 1 > MOST_POINT)
    problems.push(
      problem(start, `${frames} characters from U+${first.toString(16).toUpperCase()} on end after U+10FFFF.`),
    );
  return problems;
}

/** The widths of the glyphs, one a frame, from the array that `widths` names; a problem where they can't be right. */
export function widthsOf(
  source: SourceFile,
  options: Options & { readonly width: number },
  words: ReadonlyMap<string, Word>,
): { readonly widths?: readonly number[]; readonly problem?: WordProblem } {
  const { widths: name, width, frames = 1 } = options;
  const word = words.get("widths");
  if (name === undefined || !word) return {};
  const span = { start: word.valueStart, end: word.end };
  const wrong = (message: string, suggestion?: string) => ({ problem: problem(span, message, suggestion) });
  const array = source.arrays.find((a) => a.name === name);
  if (!array) {
    const near = nearest(
      name,
      source.arrays.map((a) => a.name).filter((n) => n !== ""),
    );
    return wrong(`No array ${name} is in this file.${near ? ` Did you mean ${near}?` : ""}`, near);
  }
  const bits = elementsOfArray(array);
  if (!bits) return wrong(`The widths in ${name} are not known${array.readOnly ? `: ${array.readOnly}` : ""}.`);
  if (bits.length < frames) return wrong(`${name} has ${bits.length} widths for ${frames} glyphs.`);
  const widths = Array.from(bits.subarray(0, frames) as ArrayLike<number | bigint>, Number);
  const wide = widths.findIndex((w) => w > width);
  if (wide < 0) return { widths };
  const character = characterOf(options, wide);
  const glyph = character === undefined ? `frame ${wide}` : characterInWords(character);
  return wrong(`${name} gives ${glyph} a width of ${widths[wide]}, but the glyphs are ${width} wide.`);
}
