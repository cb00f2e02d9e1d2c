/** Width and height as named constants: `#define SUN_WIDTH 16`, `constexpr int sunHeight = 16`, `enum { SUN_W = 16 }`. */
import type { SourceFile } from "../../source/read.ts";
import type { Claim } from "./claim.ts";
import type { Subject } from "./subject.ts";
import { lineOf } from "./subject.ts";

interface Constant {
  readonly name: string;
  readonly value: number;
}

const known = new WeakMap<SourceFile, ReadonlyMap<string, Constant>>();

const plain = (name: string) => name.replace(/_/g, "").toLowerCase();

const NUMBER = /^\(?\s*(0[xX][0-9a-fA-F]+|\d{1,5})[uUlL]*\s*\)?$/;

/** Constants of a file by their name in lower case, without underscores; read once, when first asked for. */
export function constantsOf(source: SourceFile): ReadonlyMap<string, Constant> {
  const before = known.get(source);
  if (before) return before;
  const found = new Map<string, Constant>();
  const { text, macros } = source;
  const add = (name: string, value: number) => {
    const key = plain(name);
    if (!found.has(key)) found.set(key, { name, value });
    if (/^k[A-Z]/.test(name) && !found.has(key.slice(1))) found.set(key.slice(1), { name, value });
  };
  for (const [name, { body, params }] of macros) {
    const number = params ? null : (NUMBER.exec(body) ?? NUMBER.exec(macros.get(body)?.body ?? ""));
    if (number) add(name, Number(number[1]));
  }
  // Numbers stand in no array's list behind an equals sign, so this looks at few places even in a large file.
  const value = /\s*(0[xX][0-9a-fA-F]+|\d{1,5})[uUlL]*\s*[;,}]/y;
  for (let at = text.indexOf("="); at >= 0; at = text.indexOf("=", at + 1)) {
    value.lastIndex = at + 1;
    const number = value.exec(text);
    if (!number) continue;
    const head = /(?:^|[^.\w>])([A-Za-z_]\w*)\s*$/.exec(text.slice(Math.max(0, at - 64), at));
    if (head) add(head[1] as string, Number(number[1]));
  }
  known.set(source, found);
  return found;
}

const WIDTHS = ["width", "w", "cols", "columns", "xsize", "sizex", "wd"];
const HEIGHTS = ["height", "h", "rows", "lines", "ysize", "sizey", "ht"];
const FRAMES = ["frames", "framecount", "numframes", "nframes", "count", "glyphs", "chars", "glyphcount"];

/** Beginnings of names that speak of this array, the most exact first, and how exact they are. */
function stemsOf(words: readonly string[]): [string, number][] {
  const stems: [string, number][] = [];
  const trimmed = [...words];
  const add = (list: readonly string[], weight: number) => {
    const stem = list.join("");
    if (stem.length > 1 && !stems.some(([s]) => s === stem)) stems.push([stem, weight]);
  };
  add(trimmed, 0.93);
  while (
    trimmed.length > 1 &&
    /^(?:bits|data|bitmap|bmp|map|img|image|pixels|px|icon|icons|xbm|raw|buf|glyphs|table|array|gfx|art|frames|rows|anim|sprite|\d+x\d+)$/.test(
      trimmed[trimmed.length - 1] as string,
    )
  ) {
    trimmed.pop();
    add(trimmed, 0.92);
  }
  if (/^[gks]$/.test(trimmed[0] ?? "")) add(trimmed.slice(1), 0.92);
  for (let n = words.length - 1; n > 0; n--) {
    add(words.slice(0, n), 0.74);
    add(words.slice(words.length - n), 0.74);
    // `icons` for `ICON_W`.
    const last = words[n - 1] as string;
    if (last.endsWith("s")) add([...words.slice(0, n - 1), last.slice(0, -1)], 0.74);
  }
  const plural = words[words.length - 1] ?? "";
  if (plural.endsWith("s")) add([...words.slice(0, -1), plural.slice(0, -1)], 0.9);
  return stems;
}

export function constantClaims(subject: Subject): Claim[] {
  const { source, words, count, size } = subject;
  const constants = constantsOf(source);
  if (constants.size === 0) return [];
  const find = (stem: string, endings: readonly string[]) => {
    for (const ending of endings) {
      const found = constants.get(stem + ending) ?? constants.get(ending + stem);
      // A single letter before a name is too little to go by: `HSUN` is no height.
      if (found && (ending.length > 1 || plain(found.name).endsWith(ending)) && found.value > 0) return found;
    }
    return undefined;
  };
  const said = (list: readonly Constant[]) =>
    list.map((c) => `\`${c.name}\` is ${c.value} (line ${lineOf(source, source.text.indexOf(c.name))})`).join(" and ");
  const claims: Claim[] = [];
  for (const [stem, weight] of stemsOf(words)) {
    const width = find(stem, WIDTHS);
    const height = find(stem, HEIGHTS);
    const frames = find(stem, FRAMES);
    const kind = "constants";
    // A partial name may speak of something else of that family.
    const needsWord = weight < 0.8;
    if (width && height) {
      const base = { width: width.value, height: height.value, kind, needsWord };
      if (frames) claims.push({ ...base, frames: frames.value, weight, evidence: said([width, height, frames]) });
      claims.push({ ...base, weight: frames ? weight - 0.1 : weight, evidence: said([width, height]) });
    } else if (width && weight > 0.8) {
      const row = Math.ceil(width.value / size);
      if (count % row === 0)
        claims.push({
          width: width.value,
          height: count / row,
          frames: 1,
          kind,
          weight: 0.6,
          needsWord: true,
          evidence: said([width]),
        });
    } else if (!height) {
      const side = constants.get(`${stem}size`) ?? constants.get(`${stem}side`);
      if (side && side.value > 3)
        claims.push({
          width: side.value,
          height: side.value,
          kind,
          weight: 0.62,
          needsWord: true,
          evidence: said([side]),
        });
    }
    if (claims.length > 0 && weight > 0.8) break;
  }
  return claims.slice(0, 6);
}
