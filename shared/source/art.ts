/**
 * Pixels drawn with macros: one name to a row (`__XX____`), or one name to a pixel (`s _ X X _`). A new value is drawn
 * the same way where the file's own macros can say it; what they say is evaluated, never assumed.
 */
import type { SourceArray } from "./arrays.ts";
import { elementSpan } from "./arrays.ts";
import type { Meaning } from "./initialiser.ts";
import type { IntType } from "./types.ts";
import { stored } from "./types.ts";

/** Draws values as the array draws its own; undefined for what can't be drawn. */
export type Artist = (before: string, value: bigint) => string | undefined;

const MOST_PIXELS = 64;
const MOST_LOOKED_AT = 64;

export function artist(text: string, array: SourceArray, type: IntType, meaning: Meaning): Artist {
  const worth = (expression: string): bigint | undefined => {
    const known = meaning.evaluate(expression);
    return "why" in known ? undefined : known.value;
  };
  const holds = (expression: string, value: bigint): boolean => {
    const known = worth(expression);
    return known !== undefined && stored(known, type) === value;
  };
  const words = new Set<string>();
  const rows = new Set<string>();
  for (let i = 0; i < array.given && i < MOST_LOOKED_AT; i++) {
    const span = elementSpan(array, i);
    const found = wordsOf(text.slice(span.start, span.end));
    if (found.length === 1) rows.add(found[0] as string);
    else for (const word of found) if (meaning.settled(word)) words.add(word);
  }
  const symbols = new Set([...rows].filter((r) => new Set(r).size <= 2).flatMap((r) => [...r]));
  const pairs = [...words].flatMap((a) => [...words].filter((b) => b !== a).map((b): [string, string] => [a, b]));
  const templates = new Map<string, { none: bigint; weights: bigint[] } | undefined>();

  return (before, value) => {
    if (/[/"']/.test(before)) return undefined;
    if (/^[A-Za-z_]\w*$/.test(before)) return byRow(before, value);
    return words.size > 6 ? undefined : byPixel(before, value);
  };

  /** One name says the whole row, a letter to a pixel. */
  function byRow(before: string, value: bigint): string | undefined {
    const letters = new Set(before);
    const width = before.length;
    if (letters.size > 2 || width < 2 || width > MOST_PIXELS) return undefined;
    const bits = BigInt.asUintN(width, value).toString(2).padStart(width, "0");
    for (const first of letters) {
      for (const other of letters.size === 2 ? letters : symbols) {
        if (other === first) continue;
        for (const [dark, lit] of [
          [first, other],
          [other, first],
        ]) {
          const drawn = bits.replace(/[01]/g, (bit) => (bit === "1" ? lit : dark) as string);
          for (const name of [drawn, [...drawn].reverse().join("")])
            if (meaning.settled(name) && holds(name, value)) return name;
        }
      }
    }
    return undefined;
  }

  /** One name says each pixel: which pixel is worth what is found by trying. */
  function byPixel(before: string, value: bigint): string | undefined {
    for (const [dark, lit] of pairs) {
      const parts = before.split(/([A-Za-z_]\w*)/);
      const places = parts.flatMap((p, i) => (p === dark || p === lit ? [i] : []));
      if (places.length === 0 || places.length > MOST_PIXELS) continue;
      const draw = (on: (place: number) => boolean) =>
        parts.map((p, i) => (places.includes(i) ? (on(places.indexOf(i)) ? lit : dark) : p)).join("");
      const key = `${dark} ${lit} ${draw(() => false)}`;
      if (!templates.has(key)) templates.set(key, weigh(draw, places.length));
      const template = templates.get(key);
      if (!template) continue;
      let rest = BigInt.asUintN(type.bits, value) - template.none;
      const on = new Set<number>();
      const heaviest = template.weights.map((weight, place) => ({ weight, place }));
      heaviest.sort((a, b) => (a.weight < b.weight ? 1 : -1));
      for (const { weight, place } of heaviest) {
        if (weight > rest) continue;
        rest -= weight;
        on.add(place);
      }
      const drawn = draw((place) => on.has(place));
      if (holds(drawn, value)) return drawn;
    }
    return undefined;
  }

  /** The value without lit pixels, and what each lit one adds; undefined where lighting one adds nothing. */
  function weigh(draw: (on: (place: number) => boolean) => string, count: number) {
    const none = worth(draw(() => false));
    if (none === undefined) return undefined;
    const weights: bigint[] = [];
    for (let p = 0; p < count; p++) {
      const one = worth(draw((place) => place === p));
      if (one === undefined || one <= none) return undefined;
      weights.push(one - none);
    }
    return { none, weights };
  }
}

function wordsOf(text: string): string[] {
  return text.match(/[A-Za-z_]\w*/g) ?? [];
}
