/** Where the array is used with its size: `{ sun, 16, 16 }`, `draw(x, y, sun, 16, 16, WHITE)`, `.width = 16`. */
import type { SourceFile } from "../../source/read.ts";
import { classOf, IDENT } from "../../source/scan.ts";
import type { Claim, Hints } from "./claim.ts";
import { constantsOf } from "./constants.ts";
import type { Subject } from "./subject.ts";
import { lineOf } from "./subject.ts";
import { handlesPictures } from "./vocabulary.ts";

/** How far a group around a mention is looked for, in characters, and how many mentions are looked at. */
const MOST_GROUP = 300;
const MOST_MENTIONS = 12;
/** From so many questions about one file on, its names are indexed at once. */
const MANY = 8;

interface Asked {
  count: number;
  index: Map<string, number[]> | undefined;
}

const asked = new WeakMap<SourceFile, Asked>();

/** Offsets where a name stands as a whole word. */
function mentionsOf(source: SourceFile, name: string): readonly number[] {
  const state = asked.get(source) ?? { count: 0, index: undefined };
  asked.set(source, state);
  if (++state.count > MANY) {
    state.index ??= indexNames(source);
    return state.index.get(name) ?? [];
  }
  const { text } = source;
  const found: number[] = [];
  for (
    let at = text.indexOf(name);
    at >= 0 && found.length < MOST_MENTIONS;
    at = text.indexOf(name, at + name.length)
  ) {
    if (classOf(text.charCodeAt(at - 1)) >= IDENT || classOf(text.charCodeAt(at + name.length)) >= IDENT) continue;
    found.push(at);
  }
  return found;
}

/** The names of arrays and where they stand, in one pass over the text outside the lists of numbers. */
function indexNames({ text, arrays }: SourceFile): Map<string, number[]> {
  const index = new Map<string, number[]>();
  for (const array of arrays) if (array.node <= 0) index.set(array.name, []);
  let at = 0;
  const scan = (to: number) => {
    for (const m of text.slice(at, to).matchAll(/[A-Za-z_$][\w$]*/g)) {
      const places = index.get(m[0]);
      if (places && places.length < MOST_MENTIONS) places.push(at + m.index);
    }
  };
  for (const array of arrays) {
    if (array.node !== 0 || !array.list || array.base < at) continue;
    scan(array.base);
    at = array.base + array.list.length;
  }
  scan(text.length);
  return index;
}

export function descriptorClaims(subject: Subject): Claim[] {
  const { source, array, text, open } = subject;
  const claims: Claim[] = [];
  if (array.node > 0) {
    // Bytes inside a struct: the numbers beside them are its size.
    const parent = array.list?.nodes[array.list.nodes[array.node]?.parent ?? -1];
    if (parent) claims.push(...claimsOfGroup(subject, array.base + parent.open, open, open + 1, 0));
    return claims;
  }
  for (const at of mentionsOf(source, array.name)) {
    if (at >= array.declaration.start && at < array.declaration.end) continue;
    let inside = at;
    for (let level = 0; level < 3; level++) {
      const group = openingBefore(text, inside);
      if (group < 0) break;
      const found = claimsOfGroup(subject, group, at, at + array.name.length, level);
      if (found.length > 0) {
        claims.push(...found);
        break;
      }
      inside = group;
    }
    if (claims.length >= 6) break;
  }
  return claims;
}

/** The bracket that encloses an offset; -1 where a statement begins first. */
function openingBefore(text: string, at: number): number {
  let depth = 0;
  for (let i = at - 1; i >= Math.max(0, at - MOST_GROUP); i--) {
    const c = text.charCodeAt(i);
    if (c === 41 || c === 125 || c === 93) depth++;
    else if (c === 40 || c === 123 || c === 91) {
      if (depth === 0) return c === 91 ? -1 : i;
      depth--;
    } else if (c === 59 && depth === 0) return -1;
  }
  return -1;
}

interface Field {
  readonly text: string;
  readonly label: string;
  readonly value: number | undefined;
}

/** Fields between the bracket at `group` and its end, with the index of the one that holds the offset `at`. */
function fieldsOf(subject: Subject, group: number, at: number): { fields: Field[]; own: number; end: number } {
  const { text, source } = subject;
  const constants = constantsOf(source);
  const fields: Field[] = [];
  let own = -1;
  let depth = 0;
  let from = group + 1;
  let end = from;
  const limit = Math.min(text.length, subject.open === at ? subject.close + MOST_GROUP : at + MOST_GROUP);
  const push = (to: number) => {
    if (at >= from && at < to) own = fields.length;
    const raw =
      to - from > 200
        ? ""
        : text
            .slice(from, to)
            .replace(/\/\*.*?\*\/|\/\/.*/g, "")
            .trim();
    const m = /^(?:\.\s*(\w+)\s*=\s*|(\w+)\s*:\s*(?!:))?([\s\S]*)$/.exec(raw);
    const written = (m?.[3] ?? "").trim();
    const number = /^(?:0[xX][0-9a-fA-F]+|\d{1,5})[uU]?$/.test(written)
      ? Number(written.replace(/[uU]$/, ""))
      : undefined;
    const named = /^\w+$/.test(written) ? constants.get(written.replace(/_/g, "").toLowerCase())?.value : undefined;
    fields.push({ text: raw, label: (m?.[1] ?? m?.[2] ?? "").toLowerCase(), value: number ?? named });
    from = to + 1;
  };
  for (end = from; end < limit; end++) {
    // The array's own list is one field.
    if (end === subject.open && subject.array.node > 0) end = subject.close;
    const c = text.charCodeAt(end);
    if (c === 40 || c === 123 || c === 91) depth++;
    else if (c === 41 || c === 125 || c === 93) {
      if (depth === 0) break;
      if (end !== subject.close || subject.array.node === 0) depth--;
    } else if (c === 44 && depth === 0) push(end);
    else if (c === 59 && depth === 0) break;
  }
  push(end);
  return { fields, own, end };
}

function claimsOfGroup(subject: Subject, group: number, at: number, after: number, level: number): Claim[] {
  const { text, source, array } = subject;
  const { fields, own } = fieldsOf(subject, group, at);
  if (own < 0 || fields.length < 3 || fields.length > 40) return [];
  // An entry of a list of names has no size of its own, and an element of the array is not the array.
  if (text[after] === "[" && array.node === 0) return [];
  const call = text[group] === "(";
  const before = text.slice(Math.max(0, group - 160), group);
  const head = call ? (/([\w.:>-]+)\s*$/.exec(before)?.[1] ?? "") : (/[^;}\n]*$/.exec(before)?.[0] ?? "");
  const handles =
    handlesPictures(call ? (head.split(/[.:>-]+/).pop() ?? "") : head) ||
    fields.some((f) => /bitmap|glyph|image|pixels/.test(f.label));
  if (!handles && !subject.pictured) return [];
  const drawnBy = call && /bitmap|image|icon|sprite|glyph|xbm|picture|splash/i.test(head);
  const numbers = fields.flatMap((f) => (f.value === undefined ? [] : [f.value]));
  const hints: Hints = { numbers, ...(/xbm/i.test(head) ? { pack: "rows" as const, bits: "lsb" as const } : {}) };
  const weight = (handles ? 0.92 : 0.8) - 0.04 * level;
  const shown = text.slice(call ? group - head.length : group, group + 60).replace(/\s+/g, " ");
  const stop = shown.search(call ? /\)/ : /\}/);
  const quoted =
    array.node > 0 ? "the numbers beside it" : `\`${(stop < 0 ? shown : shown.slice(0, stop + 1)).trim()}\``;
  const evidence = (w: number, h: number) =>
    `${quoted} on line ${lineOf(source, at)} ${array.node > 0 ? "give" : "gives"} ${w} and ${h}`;
  const claims: Claim[] = [];
  const add = (w: Field | undefined, h: Field | undefined, less: number) => {
    const [width, height] = [w?.value ?? 0, h?.value ?? 0];
    if (width < 2 || height < 2 || width * height < 8) return;
    claims.push({
      width,
      height,
      hints,
      weight: weight - less,
      kind: "descriptor",
      pictured: handles,
      drawnBy,
      evidence: evidence(width, height),
    });
  };
  const labelled = (pattern: RegExp) => fields.find((f) => pattern.test(f.label));
  const width = labelled(/^(?:w|width|cols|columns|size_x|x_?size)$/);
  const height = labelled(/^(?:h|height|rows|size_y|y_?size)$/);
  if (width && height) add(width, height, 0);
  add(fields[own + 1], fields[own + 2], 0.01);
  add(fields[own - 2], fields[own - 1], 0.02);
  // A count or a name may stand between the array and its size.
  for (let i = own + 2; i + 1 < fields.length && claims.length < 4; i++) add(fields[i], fields[i + 1], 0.12);
  for (let i = own - 2; i > 0 && claims.length < 6; i--) add(fields[i - 1], fields[i], 0.13);
  return claims;
}
