/** Changes that people, merges and broken tools make to a source text. */
import type { Random } from "../oracle/corpus/random.ts";
import { FRAGMENTS } from "../property/fragments.ts";

const ANNOTATIONS = [
  "// @bitmap 9x9\n",
  "// @bitmap 8x8 mono1\n",
  "// @bitmap 16x8 mono1 pack=pages\n",
  "/* @bitmap 4x4 rgb565 bytes=le */\n",
  "// @bitmap 5x7 mono1 pack=columns frames=2 first='A'\n",
  "// @bitmap 8x4 palette4 palette=head skip=4\n",
  "// @bitmap 3x3 gray8 cap=25% drive=50% invert\n",
  "// @bitmap 6x6 gray4 pad=none spare=first\n",
  "// @bitmap 4x4 entries\n",
];
const NUMBERS = ["0", "1", "255", "256", "-1", "0x80", "0xFFFFFFFFFFFFFFFF", "99999999999999999999", "0b2", "'\\x41'"];

/** One to six changes of a text; `other` is a text to copy from. */
export function mutate(random: Random, text: string, other: string): string {
  let out = text;
  for (let i = random.int(1, 6); i > 0; i--) out = mutateOnce(random, out, other);
  return out;
}

function mutateOnce(random: Random, text: string, other: string): string {
  const at = random.int(0, text.length);
  const length = random.pick([0, 1, 1, 2, 5, 20, 80, 400]);
  const replaced = (fresh: string, cut = length) => text.slice(0, at) + fresh + text.slice(at + cut);
  switch (random.int(0, 11)) {
    case 0:
      return replaced("");
    case 1:
      return replaced(random.pick(FRAGMENTS), random.pick([0, 0, 1, 4]));
    case 2:
      return replaced(text.slice(at, at + length).repeat(random.int(2, 4)));
    case 3:
      return random.chance(0.5) ? text.slice(0, at) : text.slice(at);
    case 4: {
      const from = random.int(0, other.length);
      return replaced(other.slice(from, from + length * 4), 0);
    }
    case 5:
      return beforeALine(text, at, random.pick(ANNOTATIONS));
    case 6:
      return text.replace(/\d+/g, (number) => (random.chance(0.05) ? random.pick(NUMBERS) : number));
    case 7:
      return text.replaceAll(/\r?\n/g, (eol) => (random.chance(0.1) ? random.pick(["\n", "\r\n", "\r", ""]) : eol));
    case 8:
      return replaced(String.fromCharCode(random.int(0, 0xffff)), random.pick([0, 1]));
    case 9: {
      const lines = text.split("\n");
      const a = random.int(0, lines.length - 1);
      const b = random.int(0, lines.length - 1);
      [lines[a], lines[b]] = [lines[b] as string, lines[a] as string];
      return lines.join("\n");
    }
    case 10:
      return text.replace(/[{}[\]();,"'=]/g, (mark) => (random.chance(0.03) ? random.pick(["", mark + mark]) : mark));
    default:
      return text.replace(/\b[A-Za-z_]\w*\b/g, (word) =>
        random.chance(0.02) ? random.pick(["int", "x", "static", "PROGMEM"]) : word,
      );
  }
}

function beforeALine(text: string, at: number, fresh: string): string {
  const start = text.lastIndexOf("\n", at) + 1;
  return text.slice(0, start) + fresh + text.slice(start);
}
