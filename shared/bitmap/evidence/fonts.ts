/** Fonts by their shape: so many glyphs of so many bytes, and characters named in comments beside them. */
import type { Claim, Hints } from "./claim.ts";
import type { BodyLine, Subject } from "./subject.ts";
import { bodyLines } from "./subject.ts";

/** Bytes a glyph and what they are in fonts; common practice, no source. */
const SHAPES: Readonly<Record<number, readonly [number, number, Hints][]>> = {
  5: [
    [5, 7, { pack: "columns" }],
    [5, 8, { pack: "columns" }],
  ],
  6: [[6, 8, { pack: "columns" }]],
  7: [
    [5, 7, { pack: "rows" }],
    [8, 7, { pack: "rows" }],
  ],
  8: [[8, 8, {}]],
  10: [[8, 10, { pack: "rows" }]],
  12: [[8, 12, { pack: "rows" }]],
  14: [[8, 14, { pack: "rows" }]],
  16: [[8, 16, {}]],
  32: [[16, 16, {}]],
  48: [[16, 24, {}]],
  64: [[16, 32, {}]],
};

/** Numbers of glyphs that character sets have: printable ASCII with and without DEL, 7 and 8 bits, and so on. */
const SETS = [95, 96, 128, 256, 224, 223];

export function fontClaims(subject: Subject): Claim[] {
  const { size, count } = subject;
  if (size !== 8) return [];
  const named = charactersNamed(bodyLines(subject));
  const claims: Claim[] = [];
  const add = (glyphs: number, weight: number, evidence: string) => {
    for (const [width, height, hints] of SHAPES[count / glyphs] ?? []) {
      const less = claims.some((c) => c.frames === glyphs) ? 0.04 : 0;
      claims.push({
        width,
        height,
        frames: glyphs,
        hints: { ...hints, formats: ["mono1"] },
        weight: weight - less,
        evidence,
        kind: "font",
      });
    }
  };
  if (named && named.length >= 4) {
    const [from, to] = [named[0] as number, named[named.length - 1] as number];
    add(
      named.length,
      subject.fontish ? 0.84 : 0.74,
      `comments name its characters ${shownChar(from)} to ${shownChar(to)}`,
    );
  }
  if (subject.fontish && claims.length === 0)
    for (const glyphs of SETS) add(glyphs, 0.76, `it holds ${glyphs} glyphs of ${count / glyphs} bytes, as fonts do`);
  return claims;
}

const CHARACTER = /^(?:(?:0x[0-9a-f]{2,4}|\d{1,3}|U\+[0-9A-F]{4})\s*[:=,.-]?\s*)?(?:'(\\?.)'|"(\\?.)"|(\S)|(space))$/i;

/** Code points named behind the lines, one a glyph, if they count up without a gap. */
function charactersNamed(lines: readonly BodyLine[]): readonly number[] | undefined {
  if (!namedOn.has(lines)) namedOn.set(lines, readCharacters(lines));
  return namedOn.get(lines);
}

const namedOn = new WeakMap<readonly BodyLine[], readonly number[] | undefined>();

function readCharacters(lines: readonly BodyLine[]): number[] | undefined {
  const found: number[] = [];
  for (const { comment } of lines) {
    const said = comment.trim();
    const point = /^(?:U\+|char(?:acter)?\s+0x|0x)([0-9A-F]{2,5})\b/i.exec(said);
    const m = CHARACTER.exec(said);
    const char = m?.[4] ? " " : (m?.[1] ?? m?.[2] ?? m?.[3])?.replace(/^\\(?=.)/, "");
    const code =
      char !== undefined
        ? (char.codePointAt(0) as number)
        : point
          ? Number.parseInt(point[1] as string, 16)
          : undefined;
    if (code === undefined) {
      if (said !== "" && found.length === 0) return undefined;
      continue;
    }
    const last = found[found.length - 1];
    if (last !== undefined && code !== last + 1) return undefined;
    found.push(code);
  }
  return found.length > 0 ? found : undefined;
}

function shownChar(code: number): string {
  return code > 32 && code < 127
    ? `'${String.fromCharCode(code)}'`
    : code === 32
      ? "space"
      : `U+${code.toString(16).toUpperCase().padStart(4, "0")}`;
}

/** The word that gives the first character of a set of glyphs, such as `first=' '`; undefined where nothing tells. */
export function firstCharacter(subject: Subject, frames: number): string | undefined {
  const { words, fontish, comments } = subject;
  const named = charactersNamed(bodyLines(subject));
  if (named && named.length === frames && frames > 1) return wordOf(named[0] as number);
  const digits =
    words.some((w) => /^(?:digits?|numerals?|numbers?)$/.test(w)) ||
    comments.some((c) => /\b(?:digits|numerals) 0\b/i.test(c.text));
  const from = /\b(?:from|first(?: is)?|start(?:s|ing)?(?: at| with)?)\s+'(.)'/i.exec(
    comments.map((c) => c.text).join("\n"),
  );
  if (from && fontish) return wordOf((from[1] as string).charCodeAt(0));
  if (frames === 10 && digits) return wordOf(48);
  if (!fontish) return undefined;
  if (frames === 95 || frames === 96 || frames === 224) return wordOf(32);
  if (frames === 128 || frames === 256) return wordOf(0);
  return frames === 26 ? wordOf(65) : undefined;
}

function wordOf(code: number): string {
  return code >= 32 && code < 127 && code !== 39 && code !== 92
    ? `first='${String.fromCharCode(code)}'`
    : `first=U+${code.toString(16).toUpperCase().padStart(4, "0")}`;
}
