import type { Random } from "./random.ts";

/** How the text between the outer braces is laid out. */
export interface Layout {
  readonly perLine: number;
  readonly comma: string;
  readonly indent: string;
  readonly trailing: boolean;
  readonly comments: boolean;
  readonly nextLine: boolean;
}

export function layout(random: Random): Layout {
  return {
    perLine: random.pick([1, 4, 8, 8, 16, 1000]),
    comma: random.pick([",", ", ", ", ", " ,", ",\t", ",  "]),
    indent: random.pick(["  ", "\t", "    ", ""]),
    trailing: random.chance(0.45),
    comments: random.chance(0.36),
    nextLine: random.chance(0.21),
  };
}

/** Comments that a scanner trips over: quotes, braces, commas, numbers and drawings. */
const BLOCK = [
  "/* '{' */",
  '/* " */',
  "/*}*/",
  "/* 0x3F, 12, */",
  "/* ..##.. */",
  "/* it's { \"open */",
  "/***/",
  "/* // */",
  "/* = { 1, 2 }; */",
];
const LINE = [
  '// "}',
  "// '{'",
  "// 'A' U+0041",
  "// 0x00, 0x01,",
  "// }; /* not closed",
  "// #..#",
  "// isn't",
  "//",
  '// row 3 -- "\\"',
];

/** Item texts joined as the layout says, without the braces. */
function joinItems(
  random: Random,
  items: readonly string[],
  { perLine, comma, indent, trailing, comments }: Layout,
): string {
  const lines: string[] = [];
  for (let at = 0; at < items.length; at += perLine) {
    const last = at + perLine >= items.length;
    const row = items
      .slice(at, at + perLine)
      .map((item) => (comments && random.chance(0.12) ? `${item} ${random.pick(BLOCK)}` : item));
    const end = last ? (trailing && items.length > 0 ? "," : "") : comma.trimEnd();
    const lead = comments && random.chance(0.2) ? `${random.pick(BLOCK)} ` : "";
    lines.push(`${lead}${row.join(comma)}${end}${comments && random.chance(0.3) ? ` ${random.pick(LINE)}\n` : ""}`);
  }
  if (perLine === 1000 && !lines.some((line) => line.endsWith("\n"))) return ` ${lines.join("")} `;
  return `\n${lines.map((line) => indent + line.trimEnd()).join("\n")}\n`;
}

/** `{ … }` around items. */
export function braced(random: Random, items: readonly string[], shape: Layout): string {
  if (items.length === 0) return random.pick(["{}", "{ }", "{ /* dark */ }"]);
  return `{${joinItems(random, items, shape)}}`;
}

/**
 * Items of a list for an array of the dimensions, with rows that are braced, braced and too short, or without braces
 * ([dcl.init.aggr]). A row without braces is full, unless it is the last, and begins with an element, since a brace
 * there would open the row itself. `elided`: this list has no braces of its own.
 */
export function nestedItems(
  random: Random,
  dimensions: readonly number[],
  element: () => string,
  braces: number,
  elided = false,
  last = true,
): string[] {
  const [count = 0, ...inner] = dimensions;
  const given = elided && !last ? count : random.chance(0.75) ? count : random.int(elided ? 1 : 0, count);
  const items: string[] = [];
  for (let i = 0; i < given; i++) {
    if (inner.length === 0) {
      items.push(element());
    } else if ((elided && i === 0) || !random.chance(braces)) {
      items.push(...nestedItems(random, inner, element, braces, true, last && i === given - 1));
    } else {
      items.push(
        `{${random.pick(["", " "])}${nestedItems(random, inner, element, braces).join(random.pick([", ", ","]))}${random.pick(["", " ", ","])}}`.replace(
          /\{\s*,\}/,
          "{}",
        ),
      );
    }
  }
  return items;
}
