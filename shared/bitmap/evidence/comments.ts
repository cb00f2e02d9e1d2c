/** Comments near an array, and the sizes that they give: `16x16`, `24x32 x3`, `8 x 8 pixels, 10 glyphs`. */
import type { FormatName } from "../../pixels/formats.ts";
import type { SourceArray } from "../../source/arrays.ts";
import { lineEnd, lineStart } from "../../source/scan.ts";
import type { Claim, Hints } from "./claim.ts";
import type { Subject } from "./subject.ts";
import { groupComments, lineOf } from "./subject.ts";
import { speaksOfPictures, speaksOfTables } from "./vocabulary.ts";

export interface Comment {
  readonly at: number;
  readonly text: string;
}

const MOST_ABOVE = 24;
const MOST_LENGTH = 1500;

/** Comments before a statement: right above it, past definitions of constants and at most one empty line. */
export function commentsAbove(text: string, start: number): Comment[] {
  const found: Comment[] = [];
  let at = lineStart(text, start);
  // What stands on the statement's own line before it.
  const own = text.slice(at, start);
  const inline = /\/\*(.*?)\*\//.exec(own);
  if (inline) found.push({ at: at + inline.index, text: inline[1] as string });
  let empty = 0;
  for (let lines = 0; at > 0 && lines < MOST_ABOVE; lines++) {
    let end = at - 1;
    if (text.charCodeAt(end) === 10 && text.charCodeAt(end - 1) === 13) end--;
    const begin = lineStart(text, end);
    const line = text.slice(begin, Math.min(end, begin + MOST_LENGTH));
    if (/^\s*$/.test(line)) {
      if (++empty > 1) break;
      at = begin;
    } else if (/^\s*\/\//.test(line)) {
      found.push({ at: begin, text: line.replace(/^\s*\/\/+/, "") });
      at = begin;
    } else if (/\*\/\s*$/.test(line)) {
      const open = text.lastIndexOf("/*", end - 2);
      if (open < 0 || end - open > MOST_LENGTH) break;
      const head = lineStart(text, open);
      if (/^\s*$/.test(text.slice(head, open))) {
        found.push({ at: open, text: text.slice(open + 2, end).replace(/\*\/\s*$/, "") });
        at = head;
      } else break;
    } else if (/^\s*#\s*(?:define\s+\w+\s+\S{1,24}\s*(?:\/[/*].*)?$|if|ifdef|ifndef|else|endif|pragma)/.test(line)) {
      at = begin;
    } else if (
      /^\s*(?:static\s+)?(?:inline\s+)?(?:const|constexpr|enum)\b[^(){}]*=\s*\w+\s*;\s*$/.test(line) ||
      /^\s*enum\b.*\};?\s*$/.test(line)
    ) {
      at = begin;
    } else break;
  }
  return found;
}

/** Comments above the statement, in its head, and at either end of its list. */
export function commentsAround(text: string, array: SourceArray, open: number, close: number): Comment[] {
  const found: Comment[] = [];
  const add = (at: number, piece: string) => {
    for (const m of piece.matchAll(/\/\*([\s\S]*?)\*\/|\/\/(.*)/g)) {
      found.push({ at: at + m.index, text: (m[1] ?? m[2] ?? "").slice(0, MOST_LENGTH) });
    }
  };
  const inTable = array.node > 0;
  if (!inTable) {
    found.push(...commentsAbove(text, array.declaration.start));
    // Several declarators share a statement; a head of reasonable length is this one's.
    const head = Math.max(array.declaration.start, open - 600);
    add(head, text.slice(Math.max(head, text.lastIndexOf("}", open - 1) + 1), open));
  } else {
    const begin = Math.max(array.base + 1, lineStart(text, open));
    add(begin, text.slice(begin, open));
    const above = begin > 0 ? lineStart(text, begin - 1) : 0;
    const line = text.slice(above, begin);
    if (above > array.base && /^\s*(?:\/\/|\/\*)/.test(line)) add(above, line);
  }
  // Before the first element: the rest of the brace's line and whole lines of comment.
  const list = array.list;
  const first = list?.nodes[array.node];
  const element =
    first && list.starts.length > first.firstElement ? array.base + (list.starts[first.firstElement] as number) : open;
  const front = text.slice(open + 1, Math.max(open + 1, Math.min(element, open + MOST_LENGTH)));
  // A comment right before the first number on its own line belongs to that row.
  add(open + 1, front.slice(0, Math.max(front.lastIndexOf("\n"), front.indexOf("\n"), 0)));
  const tail = text.slice(close, lineEnd(text, close));
  const behind = /^\}[\s)};,]*(\/[/*].*)$/.exec(tail);
  if (behind) add(close + tail.length - (behind[1] as string).length, behind[1] as string);
  return found;
}

/** Units that make a size one of something else. */
const OTHER_UNIT =
  /^\s*(?:=\s*\d+\s*)?(?:bytes?|words?|entries|entry|steps?|keys?|buttons?|channels?|values?|elements?|taps?|notes?|coefficients?|points?|pairs?|bits\b|pins?|nibbles?|mm\b|cm\b|V\b|ms\b|times?|tables?|blocks?|slots?|samples?|zones?|registers?|servos?|motors?|bars?|character (?:lcd|display)|chars? (?:lcd|display)|lcd)\b/i;
const SIZE =
  /(?<![\w.#])(\d{1,4})\s*(?:px|pixels?|cols?|columns?|dots?|wide)?\s*(?:[xX×*]|\bby\b)\s*(\d{1,4})(?:\s*(?:px|pixels?)?\s*[xX×,(]?\s*[xX×]\s*(\d{1,4}))?(?![\w.]*\d)/g;
const WORDED: readonly [RegExp, boolean][] = [
  [/\bw(?:idth)?\s*[:=]?\s*(\d{1,4})\b\D{1,24}?\bh(?:eight)?\s*[:=]?\s*(\d{1,4})\b/gi, false],
  [/\bh(?:eight)?\s*[:=]\s*(\d{1,4})\b\D{1,24}?\bw(?:idth)?\s*[:=]\s*(\d{1,4})\b/gi, true],
  [
    /\b(\d{1,4})\s*(?:px|pixels?|dots?|columns?|cols?)?\s*(?:wide|across)\b\D{1,24}?\b(\d{1,4})\s*(?:px|pixels?|dots?|rows?)?\s*(?:high|tall|down)\b/gi,
    false,
  ],
  [
    /\b(\d{1,4})\s*(?:px|pixels?|dots?|rows?)?\s*(?:high|tall)\b\D{1,24}?\b(\d{1,4})\s*(?:px|pixels?|dots?|columns?|cols?)?\s*wide\b/gi,
    true,
  ],
  [/\b(\d{1,4})\s*(?:columns|cols)\b\D{1,16}?\b(\d{1,4})\s*rows\b/gi, false],
  [/\b(\d{1,4})\s*rows\b\D{1,16}?\b(\d{1,4})\s*(?:columns|cols|pixels|dots)\b/gi, true],
];
const FRAMES =
  /\b(\d{1,4})\s*(?:\w+\s)?(?:glyphs?|frames?|icons?|tiles?|digits?|chars?|characters?|sprites?|images?|pictures?|numerals?|letters?|symbols?|poses?|phases?)\b/i;

interface Size {
  readonly width: number;
  readonly height: number;
  readonly frames: number | undefined;
  readonly third: number | undefined;
  readonly said: string;
  readonly pixels: boolean;
  /** The size counts things of another name, such as nodes. */
  readonly things: boolean;
}

/** The sizes that a text gives, in its order. */
function sizesIn(text: string): Size[] {
  const sizes: Size[] = [];
  const counted = FRAMES.exec(text);
  const frames = counted ? Number(counted[1]) : undefined;
  const push = (
    width: number,
    height: number,
    said: string,
    third: number | undefined,
    pixels: boolean,
    things = false,
  ) => {
    if (width < 1 || height < 1 || width * height < 8 || sizes.length >= 4) return;
    sizes.push({ width, height, frames, third, said: said.trim(), pixels, things });
  };
  for (const m of text.matchAll(SIZE)) {
    const after = text.slice(m.index + m[0].length);
    if (OTHER_UNIT.test(after)) continue;
    const pixels = /px|pixel|dots/i.test(m[0]) || /^\s*(?:px|pixels?|dots?)\b/i.test(after);
    // Dots by the name of something else, such as nodes, count only where words speak of pictures.
    const things = /^\s*[A-Za-z]{2,}s\b/.test(after) && !speaksOfPictures(after.slice(0, 24));
    push(Number(m[1]), Number(m[2]), m[0], m[3] === undefined ? undefined : Number(m[3]), pixels, things);
  }
  for (const [pattern, swapped] of WORDED) {
    for (const m of text.matchAll(pattern)) {
      const [a, b] = [Number(m[1]), Number(m[2])];
      push(swapped ? b : a, swapped ? a : b, m[0], undefined, /px|pixel|dots|wide|high|tall/i.test(m[0]));
    }
  }
  const square = /\b(\d{1,3})[ -]?(?:px|pixels?)?[ -]square\b/i.exec(text);
  if (square) push(Number(square[1]), Number(square[1]), square[0], undefined, true);
  return sizes;
}

/** What comments say of format and packing. */
export function hintsIn(text: string): Hints {
  const formats: FormatName[] = [];
  if (
    /\b(?:4[- ]?bpp|4[- ]bits?(?: per pixel| grey| gray)|16[- ](?:grey|gray)(?:s|[- ]?(?:levels?|scales?|shades?))|16 (?:levels|shades))\b/i.test(
      text,
    )
  )
    formats.push("gray4");
  if (
    /\b(?:2[- ]?bpp|2[- ]bits?(?: per pixel| grey| gray)|(?:4|four)[- ](?:(?:grey|gray)(?:s|[- ]?(?:levels?|scales?|shades?))|levels|shades))\b/i.test(
      text,
    )
  )
    formats.push("gray2");
  if (/\b(?:rgb[- ]?565|565|r5g6b5|16[- ]?bpp|16[- ]bit colou?r)\b/i.test(text)) formats.push("rgb565");
  if (/\b(?:rgb[- ]?332|332)\b/i.test(text)) formats.push("rgb332");
  if (/\b(?:rgb[- ]?888|24[- ]?bpp|24[- ]bit)\b/i.test(text)) formats.push("rgb888");
  if (
    /\b(?:8[- ]?bpp|(?:8[- ]bit|256) (?:grey|gray)|gr[ea]yscale|gr[ea]y levels?|brightness(?:es)?|one byte (?:per|a) pixel|byte per pixel|pwm)\b/i.test(
      text,
    ) &&
    formats.length === 0
  )
    formats.push("gray8");
  if (/\b(?:1[- ]?bpp|monochrome|mono|1[- ]bit|one bit)\b/i.test(text)) formats.push("mono1");
  const bitLeft =
    /\b(?:bit (?:\d+|zero)|[ml]sb|d[07]|(?:high|low)(?:est)? bit|significant bit)\s*(?:is |first |on |at |in )*(?:the )?left/i.test(
      text,
    );
  const bitTop =
    /\b(?:bit (?:\d+|zero)|[ml]sb|d[07]|(?:high|low)(?:est)? bit|significant bit)\s*(?:is |first |on |at |in )*(?:the )?(?:top|uppermost|upper)/i.test(
      text,
    );
  const vertical =
    bitTop ||
    /\b(?:vertical(?:ly)?|columns? (?:bytes?|by column|major|first|data|of)|column-major|column by column|byte(?:s)? (?:is|are|holds?|per|a|each) (?:a |one )?columns?|(?:one )?byte (?:per|a) column|by columns?|in columns|left column first|top to bottom)\b/i.test(
      text,
    );
  const pages = /\b(?:pages?|page mode|bands? of (?:8|eight))\b/i.test(text);
  const rows =
    bitLeft ||
    /\b(?:horizontal(?:ly)?|row[- ]major|row by row|rows? (?:of|padded|first)|(?:two|2|one|1|three|3) bytes? (?:per|a|each) row|one (?:word |number )?(?:per|a|each|to a) row|bytes? (?:per|a) row|byte (?:per|a) row|line by line|left to right)\b/i.test(
      text,
    );
  const msb =
    /\b(?:msb(?:[- ]first| left| (?:is|at) (?:the )?(?:left|top)| on the left)?|(?:bit 7|d7|highest bit|high bit|top bit) (?:is |on |at )?(?:the )?(?:left|leftmost|top|uppermost|first)|most significant bit (?:first|left|on the left|is))\b/i.test(
      text,
    );
  const lsb =
    /\b(?:lsb(?:[- ]first| left| (?:is|at) (?:the )?(?:left|top)| on (?:the left|top))?|(?:bit 0|d0|lowest bit|low bit) (?:is |on |at )?(?:the )?(?:left|leftmost|top|uppermost|first)|least significant bit (?:first|left|on|is)|xbm)\b/i.test(
      text,
    );
  return {
    ...(formats.length > 0 ? { formats } : {}),
    ...(pages && !rows
      ? { pack: "pages" as const }
      : vertical && !rows
        ? { pack: "columns" as const }
        : rows && !vertical && !pages
          ? { pack: "rows" as const }
          : {}),
    ...(msb !== lsb ? { bits: msb ? ("msb" as const) : ("lsb" as const) } : {}),
    ...(/\b(?:right[- ](?:aligned|justified)|low (?:five|5|six|6|seven|7) bits|lower (?:five|5|six|6|seven|7) bits)\b/i.test(
      text,
    )
      ? { spare: "first" as const }
      : {}),
  };
}

/** The comment at the head of the file, if it speaks of all that is in it. */
export function headComment({ source }: Subject): Comment | undefined {
  const head = /^\s*(?:#pragma once\s+)?(?:\/\*[\s\S]{0,1500}?\*\/|(?:\s*\/\/[^\n]*\n){1,20})/.exec(
    source.text.slice(0, 3000),
  );
  if (!head || !/\b(?:all|each|every|everything|throughout)\b/i.test(head[0])) return undefined;
  return { at: head[0].search(/\S/), text: head[0] };
}

/** Claims of the comments near the array, and of those that speak of its whole group or of all in the file. */
export function commentClaims(subject: Subject): Claim[] {
  const { source, comments } = subject;
  const near = claimsOf(comments, 0.82, "comment");
  if (near.length > 0) return near;
  const group = groupComments(subject).filter((c) => !speaksOfTables(c.text));
  const shared = claimsOf(group, 0.68, "comment of the group");
  if (shared.length > 0) return shared;
  const head = headComment(subject);
  const general = head ? [head] : [];
  return claimsOf(general, 0.64, "comment at the head of the file");

  function claimsOf(from: readonly Comment[], weight: number, where: string): Claim[] {
    return from.flatMap(({ at, text }) =>
      sizesIn(text).flatMap(({ width, height, frames, third, said, pixels, things }): Claim[] => {
        const evidence = `the ${where} on line ${lineOf(source, at)} says “${said}”`;
        const sure = pixels || subject.pictured || speaksOfPictures(text);
        if (things && !sure) return [];
        const inPixels = pixels && !speaksOfTables(text);
        const base = {
          inPixels,
          width,
          height,
          evidence,
          kind: "comment",
          weight: sure ? weight : weight - 0.12,
          pictured: pixels || speaksOfPictures(text),
          ...(sure ? {} : { hints: { formats: ["mono1", "rgb565"] as const } }),
        };
        const claims: Claim[] = [{ ...base, frames: third ?? frames }];
        // A third number may be a depth; a count of frames may be one of something else.
        if (third !== undefined || frames !== undefined) claims.push({ ...base, weight: base.weight - 0.1 });
        return claims;
      }),
    );
  }
}
