/** Writes whole lists of numbers, line by line, all in one style. */

/** Spells elements as hexadecimal literals of full width, `perLine` to a line. */
export function emitRows(
  values: readonly (number | bigint)[],
  options: {
    readonly bits: number;
    readonly perLine: number;
    readonly indent: string;
    readonly eol: string;
    readonly decimal?: boolean;
  },
): string {
  const digits = options.bits / 4;
  const spelt = values.map((v) =>
    options.decimal
      ? v.toString()
      : `0x${BigInt.asUintN(options.bits, BigInt(v)).toString(16).toUpperCase().padStart(digits, "0")}`,
  );
  const width = options.decimal ? Math.max(...spelt.map((s) => s.length)) : 0;
  const lines: string[] = [];
  for (let i = 0; i < spelt.length; i += options.perLine) {
    lines.push(options.indent + alignedTo(width, spelt.slice(i, i + options.perLine)));
  }
  return lines.join(`,${options.eol}`);
}

/** Elements of one line of the source, with the comments that name what they are. */
export interface ElementLine {
  readonly first: number;
  readonly count: number;
  /** On a line of its own before them. */
  readonly above?: string;
  /** After them. */
  readonly behind?: string;
  /** They stand in an inner list, of which they are the first or the last. */
  readonly inner?: { readonly first: boolean; readonly last: boolean };
}

/**
 * Spells lines of elements with a comma after each, the last one only with `trailing`. Numbers are right-aligned in
 * `width` columns. `spell` gives the literal of an element; undefined says that all are like the first, which makes
 * long lists cheap.
 */
export function emitLines(
  lines: readonly ElementLine[],
  options: {
    readonly indent: string;
    readonly eol: string;
    readonly width: number;
    readonly trailing: boolean;
    readonly zero: string;
    readonly spell: ((element: number) => string) | undefined;
  },
): string {
  const { indent, eol, width, trailing, zero, spell } = options;
  const alike = new Map<number, string>();
  const zeros = (count: number) => {
    const known = alike.get(count) ?? alignedTo(width, new Array<string>(count).fill(zero));
    alike.set(count, known);
    return known;
  };
  return lines
    .map(({ first, count, above, behind, inner }, i) => {
      const numbers = spell
        ? alignedTo(
            width,
            Array.from({ length: count }, (_, k) => spell(first + k)),
          )
        : zeros(count);
      const comma = trailing || i < lines.length - 1 ? "," : "";
      const before = above === undefined ? "" : `${indent}/* ${above} */${eol}`;
      const open = inner ? (inner.first ? "{" : " ") : "";
      const close = inner?.last ? "}" : "";
      return `${before}${indent}${open}${numbers}${close}${comma}${behind === undefined ? "" : ` /* ${behind} */`}`;
    })
    .join(eol);
}

function alignedTo(width: number, spelt: readonly string[]): string {
  return spelt.map((s) => s.padStart(width)).join(", ");
}
