/** The characters of a glyph set, kept true where its glyphs are added, taken away or moved. */

import type { Refused } from "../convert/subject.ts";
import type { WordChanges } from "../convert/words.ts";
import { characterInWords, characterOf } from "../glyphs.ts";
import type { Bitmap } from "../resolve.ts";
import type { FramesChange } from "./change.ts";

/** Characters that a word of an annotation may list. */
const MOST_LISTED = 1024;
const MOST_POINT = 0x10ffff;

/** The words `first` and `chars` after the change; none where the annotation tells no characters. */
export function characterWords({ options, frames, array }: Bitmap, { order }: FramesChange): WordChanges | Refused {
  if (options.first === undefined && !options.chars) return new Map();
  const points = pointsAfter(order, frames, (frame) => characterOf(options, frame), options.chars === undefined);
  if (!points) return { refused: `no character is free for a new glyph of ${array.name}` };
  const [first = 0] = points;
  if (!options.chars && first === options.first && isRun(points)) return new Map();
  return charactersInWords(points, options.chars !== undefined);
}

/** The words that name so many characters: `first` where they follow each other, unless they are to be `listed`. */
export function charactersInWords(points: readonly number[], listed = false): WordChanges | Refused {
  const [first = 0] = points;
  if (!listed && isRun(points)) {
    const words = characterInWords(first);
    return new Map([["first", `first=${words === "'''" || words === "'\\'" ? hex(first) : words}`]]);
  }
  if (points.length > MOST_LISTED) return { refused: `${points.length} characters are too many to list` };
  return new Map([
    ["first", undefined],
    ["chars", `chars="${points.map(spelt).join("").replaceAll("*/", "*\\u002F")}"`],
  ]);
}

function isRun(points: readonly number[]): boolean {
  return points.every((point, i) => point === (points[0] as number) + i);
}

/**
 * A glyph that stays keeps its character; a new one, or a second copy, takes the next free one after its neighbour's.
 * `run`: at the ends of the set the characters go on as they run, also where they can't be seen.
 */
function pointsAfter(
  order: FramesChange["order"],
  frames: number,
  characterAt: (frame: number) => number | undefined,
  run: boolean,
): number[] | undefined {
  const kept = new Set<number>();
  const used = new Set<number>();
  const points = order.map((frame) => {
    if (frame === "dark" || kept.has(frame)) return undefined;
    kept.add(frame);
    const point = characterAt(frame);
    if (point !== undefined) used.add(point);
    return point;
  });
  for (let frame = 0; frame < frames; frame++) {
    // The characters of glyphs that go are free, but to give them to another glyph at once would be a surprise.
    const point = characterAt(frame);
    if (point !== undefined) used.add(point);
  }
  const leading = points.findIndex((point) => point !== undefined);
  for (let i = leading - 1; i >= 0 && leading > 0; i--) {
    const point =
      free((points[i + 1] as number) - 1, -1, used, run) ?? free((points[i + 1] as number) + 1, 1, used, run);
    if (point === undefined) return undefined;
    points[i] = point;
    used.add(point);
  }
  for (const [i, known] of points.entries()) {
    if (known !== undefined) continue;
    const point = free((points[i - 1] ?? 0x40) + 1, 1, used, run && points.slice(i).every((p) => p === undefined));
    if (point === undefined) return undefined;
    points[i] = point;
    used.add(point);
  }
  return points as number[];
}

function free(from: number, by: 1 | -1, used: ReadonlySet<number>, any: boolean): number | undefined {
  for (let point = from; point >= (any ? 1 : 0x21) && point <= MOST_POINT; point += by) {
    if (used.has(point) || (point >= 0xd800 && point <= 0xdfff)) continue;
    if (any || characterInWords(point).startsWith("'")) return point;
  }
  return undefined;
}

/** A character inside quotes, as an escape where it could not be seen or would end them. */
function spelt(point: number): string {
  const text = String.fromCodePoint(point);
  if (text === '"' || text === "\\") return `\\${text}`;
  if (characterInWords(point).startsWith("'")) return text;
  return point > 0xffff
    ? `\\U${point.toString(16).padStart(8, "0")}`
    : `\\u${point.toString(16).toUpperCase().padStart(4, "0")}`;
}

function hex(point: number): string {
  return `U+${point.toString(16).toUpperCase().padStart(4, "0")}`;
}
