/** The declared sizes of an array of another number of elements, and what they are computed from. */
import type { Layout } from "../../pixels/layout.ts";
import { readSource } from "../../source/read.ts";
import type { TextEdit } from "../../source/text.ts";
import type { Refused, Subject } from "../convert/subject.ts";

/** A number of the bitmap that a size may be computed from, before and after, with words that names for it hold. */
interface Quantity {
  readonly before: number;
  readonly after: number;
  readonly named: RegExp;
}

/** The edits that make the declared sizes those of another layout; refused where it is not clear what they count. */
export function declaredEdits(s: Subject, now: Layout): TextEdit[] | Refused {
  const wanted = sizesIn(s, now);
  if (!wanted) return { refused: `it is not clear what the sizes of ${s.array.name} count` };
  const sizes = s.array.dimensions.map(({ size, span }, i) => ({ span, size, wanted: wanted[i] as number }));
  return sizeEdits(s.text, s.array.name, sizes, quantitiesOf(s.layout, now));
}

/** The sizes by which the array is laid out, from the outermost to the innermost. */
function sizesIn({ array, layout }: Subject, now: Layout): number[] | undefined {
  const inner = array.dimensions.slice(1).map((d) => d.size);
  if (inner.length === 0) return [now.elements];
  if (layout.skip > 0 || inner.includes(undefined)) return undefined;
  const [one, two, ...more] = inner as number[];
  const { frames, lines, lineElements, frameElements, span, lead } = layout;
  const framed = frameElements > 0;
  const lined = framed && lead === 0 && lineElements > 0 && now.lineElements > 0;
  const nowLines = now.lines * now.frames;
  if (two === undefined) {
    const isFrame = framed && one === frameElements;
    const isLine = lined && one === lineElements;
    if (isFrame && (frames > 1 || !isLine)) return [now.frames, now.frameElements];
    if (isLine) return [nowLines, now.lineElements];
    if (span > 1 && one === span) return [now.elements / span, span];
  } else if (more.length === 0) {
    if (lined && one === lines && two === lineElements) return [now.frames, now.lines, now.lineElements];
    if (lined && span > 1 && two === span && one === lineElements / span)
      return [nowLines, now.lineElements / span, span];
  } else if (more.length === 1 && lined && span > 1) {
    if (one === lines && two === lineElements / span && more[0] === span)
      return [now.frames, now.lines, now.lineElements / span, span];
  }
  // Frames of the same shape: only the outermost size counts others.
  const product = (inner as number[]).reduce((all, size) => all * size, 1);
  const same = frameElements === now.frameElements && now.elements % product === 0;
  return same ? [now.elements / product, ...(inner as number[])] : undefined;
}

function quantitiesOf(before: Layout, now: Layout): Quantity[] {
  const pair = (
    key: "frames" | "width" | "height" | "lines" | "lineElements" | "frameElements" | "elements",
    named: RegExp,
  ) => ({
    before: before[key],
    after: now[key],
    named,
  });
  return [
    pair("frames", /frame|count|num|step|phase|glyph|char|anim/i),
    pair("width", /width|cols?\b|columns?|(?:^|_)w$|(?:^|_)x$/i),
    pair("height", /height|rows?\b|(?:^|_)h$|(?:^|_)y$/i),
    pair("lines", /rows?|lines?|pages?|bands?/i),
    pair("lineElements", /stride|pitch|row|line/i),
    pair("frameElements", /frame|size|bytes?|len/i),
    pair("elements", /size|bytes?|len|total/i),
  ].filter(({ before: from, after }) => from > 0 && from !== after);
}

interface Size {
  readonly span: { readonly start: number; readonly end: number };
  /** undefined for `[]`. */
  readonly size: number | undefined;
  readonly wanted: number;
}

/** A number stands where it is replaced; names are followed to the one plain number that they mean in this file. */
export function sizeEdits(
  text: string,
  name: string,
  sizes: readonly Size[],
  quantities: readonly Quantity[],
): TextEdit[] | Refused {
  const edits = new Map<number, TextEdit>();
  for (const { span, size, wanted } of sizes) {
    if (size === undefined || size === wanted) continue;
    const expression = text.slice(span.start, span.end);
    const found = followed(text, expression, span.start, wanted, quantities);
    if (!found)
      return { refused: `the size \`${expression.trim()}\` of ${name} can't be followed to a number of this file` };
    if (found === "unclear")
      return { refused: `it is not clear which number of the size \`${expression.trim()}\` of ${name} is to change` };
    for (const edit of found) {
      const known = edits.get(edit.start);
      if (known && known.text !== edit.text)
        return { refused: `the sizes of ${name} share a number that would have to be two` };
      edits.set(edit.start, edit);
    }
  }
  return [...edits.values()];
}

/** A number that a size is computed from; `name` is what it is defined as. */
interface Leaf {
  readonly start: number;
  readonly end: number;
  readonly value: number;
  readonly name: string;
}

const MOST_LEAVES = 8;

function followed(
  text: string,
  expression: string,
  at: number,
  wanted: number,
  quantities: readonly Quantity[],
): TextEdit[] | "unclear" | undefined {
  const leaves: Leaf[] = [];
  const parts = expanded(text, expression, at, "", leaves, new Set());
  if (!parts || leaves.length === 0 || leaves.length > MOST_LEAVES) return undefined;
  const [only, ...more] = leaves;
  // A size that is one number is that number, whatever it equals.
  if (only && more.length === 0 && evaluate(parts, [wanted]) === wanted)
    return only.value === wanted ? [] : [edit(text, only, wanted)];
  let best: { values: number[]; score: number } | undefined;
  let tied = false;
  const named = (leaf: Leaf, value: number) =>
    quantities.some((q) => q.before === leaf.value && q.after === value && q.named.test(leaf.name));
  const choices = leaves.map((leaf) => [
    ...new Set([leaf.value, ...quantities.filter((q) => q.before === leaf.value).map((q) => q.after)]),
  ]);
  for (const values of combinations(choices)) {
    if (evaluate(parts, values) !== wanted) continue;
    // Names that say what they count decide; then the fewest changes; among bare numbers, the first.
    const score = leaves.reduce((sum, leaf, i) => {
      const value = values[i] as number;
      if (value === leaf.value) return sum;
      return sum + (leaf.name === "" ? -2 : named(leaf, value) ? 1 : -3);
    }, 0);
    if (!best || score > best.score) {
      best = { values, score };
      tied = false;
    } else if (score === best.score) tied ||= leaves.some((leaf) => leaf.name !== "");
  }
  if (!best) {
    // Bare numbers that say nothing of the picture give way to the one that is meant.
    if (leaves.some((leaf) => leaf.name !== "") || expression.includes("/")) return undefined;
    const trimmed = expression.trim();
    const start = at + expression.indexOf(trimmed);
    return [{ start, end: start + trimmed.length, text: String(wanted) }];
  }
  if (tied) return "unclear";
  const { values } = best;
  return leaves.flatMap((leaf, i) => (values[i] === leaf.value ? [] : [edit(text, leaf, values[i] as number)]));
}

/** The number in the base that it was written in. */
function edit(text: string, { start, end }: Leaf, value: number): TextEdit {
  const [, prefix = "", digits = "", suffix = ""] =
    /^(0[xX])?([\da-fA-F]+?)([uUlL]*)$/.exec(text.slice(start, end)) ?? [];
  const spelt = prefix ? prefix + value.toString(16).toUpperCase().padStart(digits.length, "0") : String(value);
  return { start, end, text: spelt + suffix };
}

function* combinations(choices: readonly (readonly number[])[]): Generator<number[]> {
  const [first = [], ...rest] = choices;
  if (choices.length === 0) yield [];
  else for (const value of first) for (const more of combinations(rest)) yield [value, ...more];
}

/** An expression of text and of numbers by their place in `leaves`; undefined where a name in it can't be followed. */
type Parts = (string | number)[];

function expanded(
  text: string,
  expression: string,
  at: number,
  name: string,
  leaves: Leaf[],
  inside: ReadonlySet<string>,
): Parts | undefined {
  const parts: Parts = [];
  const token = /\/\*[\s\S]*?\*\/|\/\/[^\r\n]*|0[xX][\da-fA-F]+[uUlL]*|\d+[uUlL]*|[A-Za-z_]\w*|[\s\S]/g;
  for (const { 0: part, index } of expression.matchAll(token)) {
    const start = at + index;
    if (/^\d/.test(part)) {
      const value = Number(part.replace(/[uUlL]+$/, ""));
      let leaf = leaves.findIndex((l) => l.start === start);
      if (leaf < 0) leaf = leaves.push({ start, end: start + part.length, value, name }) - 1;
      parts.push(leaf);
    } else if (/^[A-Za-z_]/.test(part)) {
      const found = inside.has(part) ? undefined : definitionOf(text, part);
      const body = found && expanded(text, found.body, found.at, part, leaves, new Set([...inside, part]));
      if (!body) return undefined;
      parts.push("(", ...body, ")");
    } else if (!part.startsWith("/*") && !part.startsWith("//")) parts.push(part);
  }
  return parts;
}

/** The one object-like macro or constant of that name in the text. */
function definitionOf(text: string, name: string): { readonly body: string; readonly at: number } | undefined {
  const macro = new RegExp(
    `^([ \\t]*#[ \\t]*define[ \\t]+${name}[ \\t]+)([^\\r\\n]*?)[ \\t]*(?=\\r|\\n|$|//|/\\*)`,
    "gm",
  );
  const constant = new RegExp(
    `(\\b(?:const|constexpr|enum)\\b[^;(){}=]*(?:\\{[^;(){}]*)?\\b${name}\\s*=\\s*)([^;,{}]+?)\\s*[;,}]`,
    "g",
  );
  const found = [...text.matchAll(macro), ...text.matchAll(constant)];
  const [only, ...more] = found;
  if (!only || more.length > 0) return undefined;
  return { body: only[2] ?? "", at: only.index + (only[1] ?? "").length };
}

function evaluate(parts: Parts, values: readonly number[]): number | undefined {
  const expression = parts.map((part) => (typeof part === "number" ? String(values[part]) : part)).join("");
  const [array] = readSource(`unsigned char made[${expression}] = {0};`, { target: "host" }).arrays;
  return array?.dimensions[0]?.size;
}
