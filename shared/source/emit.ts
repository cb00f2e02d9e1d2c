/** Writes whole lists of numbers: one bitmap row to a line, all in one style. */

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
    lines.push(
      options.indent +
        spelt
          .slice(i, i + options.perLine)
          .map((s) => s.padStart(width))
          .join(", "),
    );
  }
  return lines.join(`,${options.eol}`);
}
