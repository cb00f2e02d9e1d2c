/** Literals of an array spelt in another base, each in its place, so that comments and names stay. */
import { isWhole } from "../../pixels/layout.ts";
import { elementSpan, elementValue, sharesText } from "../../source/arrays.ts";
import type { LiteralStyle } from "../../source/literals.ts";
import { literalStyle } from "../../source/literals.ts";
import { reflow } from "../../source/reflow.ts";
import { spellIn } from "../../source/rewrite.ts";
import type { TextEdit } from "../../source/text.ts";
import type { IntType } from "../../source/types.ts";
import { stored } from "../../source/types.ts";
import { perLineOf } from "../make.ts";
import { lossOf } from "./loss.ts";
import type { Plan } from "./plan.ts";
import { spacesBefore, spacesOf, upperIn } from "./setting.ts";
import type { Subject } from "./subject.ts";
import { framesOf } from "./subject.ts";
import type { Built } from "./verify.ts";
import { expectedAs } from "./verify.ts";

type Base = 10 | 16 | 2;

const BASES: readonly (readonly [Base, string])[] = [
  [10, "decimal"],
  [16, "hexadecimal"],
  [2, "binary"],
];

/** Literals that are looked at to tell which styles are worth an offer. */
const MOST_LOOKED_AT = 4096;

export function literalPlans(s: Subject): Plan[] {
  const plans: Plan[] = [];
  const used = basesIn(s);
  for (const [base, name] of BASES) {
    // Nothing to do, or a literal that braces in C++ would refuse as narrowing.
    if (used.size === 0 || (used.size === 1 && used.has(base))) continue;
    if (base !== 10 && s.type.signed && hasNegative(s)) continue;
    plans.push({
      id: `literal:${name}`,
      kind: "literals",
      title: `Write the numbers in ${name}`,
      build: () => unchanged(s, respelt(s, base)),
    });
  }
  const { layout } = s;
  const unit = layout.pack === "pages" ? "band" : lineName(s);
  const perLine = perLineOf(layout);
  if (layout.lineElements === perLine && layout.skip + layout.lead === 0 && breaksElsewhere(s, perLine))
    plans.push({
      id: "lines",
      kind: "literals",
      title: `Put one ${unit} of pixels on each line`,
      build: () => {
        const edits = broken(s, perLine);
        return edits
          ? unchanged(s, edits)
          : { refused: `comments or lists stand between the numbers of ${s.array.name}` };
      },
    });
  return plans;
}

/** Edits that break lines where rows end; spaces that line numbers up stay where no line breaks there. */
function broken({ text, array }: Subject, perLine: number): TextEdit[] | undefined {
  const breaks = (piece: string) => /[\r\n]/.test(piece);
  return reflow(text, array, perLine)?.filter((e) => breaks(e.text) !== breaks(text.slice(e.start, e.end)));
}

/** Whether some line of numbers ends where no row does, or the other way round, in a list that can be broken anew. */
function breaksElsewhere(s: Subject, perLine: number): boolean {
  const { array, text } = s;
  const node = array.list?.nodes[0];
  if (!node || node.lists + node.strings > 0 || node.quoted || array.given === 0 || lossOf(s).comments > 0)
    return false;
  let end = elementSpan(array, 0).end;
  for (let i = 1; i < array.given; i++) {
    const span = elementSpan(array, i);
    let breaks = false;
    for (let at = end; at < span.start && !breaks; at++) breaks = text[at] === "\n" || text[at] === "\r";
    if (breaks !== (i % perLine === 0)) return true;
    end = span.end;
  }
  return false;
}

function lineName({ layout }: Subject): string {
  return layout.pack === "columns" || layout.scan.endsWith("columns") ? "column" : "row";
}

/** Only the spelling changes: the picture must be the same. */
function unchanged(s: Subject, edits: readonly TextEdit[]): Built {
  const { array, bitmap, type } = s;
  return { edits, expected: [expectedAs(array, bitmap, type.bits, framesOf(s))] };
}

function basesIn({ array, text }: Subject): Set<number> {
  const used = new Set<number>();
  for (let i = 0; i < Math.min(array.given, MOST_LOOKED_AT); i++) {
    const { start, end } = elementSpan(array, i);
    const style = literalStyle(text.slice(start, end));
    // A lone `0` is said to be decimal, and looks the same in octal.
    if (style) used.add(style.base);
  }
  return used;
}

function hasNegative({ array, type }: Subject): boolean {
  for (let i = 0; i < array.given; i++) if (stored(elementValue(array, i), type) < 0n) return true;
  return false;
}

interface Token {
  readonly start: number;
  readonly end: number;
  readonly after: string;
  /** Spaces before it that only line it up. */
  readonly padding: number;
}

function respelt(s: Subject, base: Base): TextEdit[] {
  const { array, text, type } = s;
  const tokens: Token[] = [];
  const indent = spacesOf(s) ?? 0;
  const upper = upperIn(s);
  for (let i = 0; i < array.given; i++) {
    const { start, end } = elementSpan(array, i);
    const before = text.slice(start, end);
    const style = literalStyle(before);
    if (!style || sharesText(array, i)) continue;
    const value = stored(elementValue(array, i), type);
    const after = style.base === base ? before : spellIn(styleIn(style, base, type, upper, value), value, type);
    const { count, first } = spacesBefore(text, start);
    const padding = Math.max(0, count - (first ? indent : 1));
    tokens.push({ start, end, after, padding });
  }
  const levels = base === 10 && isWhole(s.layout.format, s.layout.pack);
  const columns = levels && /[\r\n]/.test(text.slice(s.open, s.end)) && array.given > 1;
  const width = columns ? tokens.reduce((most, { after }) => Math.max(most, after.length), 0) : 0;
  // Spaces that line up names or expressions too are nobody's but theirs.
  const alone = tokens.length === array.given;
  return tokens.flatMap(({ start, end, after, padding }) => {
    const from = alone ? start - padding : start;
    const wanted = alone ? after.padStart(width) : after;
    return text.slice(from, end) === wanted ? [] : [{ start: from, end, text: wanted }];
  });
}

/** Hexadecimal and binary literals have all digits of the element; suffixes stay. */
function styleIn(style: LiteralStyle, base: Base, type: IntType, upper: boolean, value: bigint): LiteralStyle {
  const { suffix } = style;
  if (base === 10) return { sign: "", prefix: "", base, digits: "0", suffix };
  const digits = "0".repeat(base === 16 ? type.bits / 4 : type.bits);
  const negative = value < 0n;
  return { sign: negative ? "-" : "", prefix: base === 16 ? "0x" : "0b", base, digits, suffix, upper };
}
