/** The spellings of one number that C and C++ allow, and what a change of value must keep of them. */

export const STYLES = [
  "hex",
  "HEX",
  "hex-narrow",
  "0X",
  "decimal",
  "octal",
  "0b",
  "0B",
  "B",
  "character",
  "suffix",
  "separated",
  "negative",
  "name",
  "sum",
  "or",
] as const;
export type Style = (typeof STYLES)[number];

/** Names that every generated file defines, with their values. */
export const NAMES: ReadonlyMap<string, bigint> = new Map([
  ["NONE", 0n],
  ["LIT", 1n],
  ["DIM", 16n],
  ["SOFT", 32n],
  ["GLOW", 64n],
  ["FULL", 255n],
]);

/** Their definitions: macros, an enum and a constant. */
export const DEFINITIONS: readonly string[] = [
  "#define NONE 0",
  "#define LIT (1)",
  "#define FULL 0xFF // all on: '}'",
  "enum Level { DIM = 0x10, GLOW = 1 << 6 };",
  "constexpr uint8_t SOFT = 32;",
];

/** Spells an element; styles that can't spell the value fall back to hexadecimal. */
export function spell(bits: bigint, style: Style, width: number, signed: boolean): string {
  const digits = bits.toString(16);
  const wide = digits.padStart(width / 4, "0");
  const big = bits >= 1n << 63n;
  const negative = BigInt.asIntN(width, bits);
  switch (style) {
    case "hex":
      return `0x${wide}`;
    case "HEX":
      return `0x${wide.toUpperCase()}`;
    case "hex-narrow":
      return `0x${digits}`;
    case "0X":
      return `0X${digits.toUpperCase()}`;
    case "decimal":
      return big ? `${bits}ULL` : bits.toString();
    case "octal":
      return `0${bits.toString(8)}`;
    case "0b":
      return `0b${bits.toString(2).padStart(8, "0")}`;
    case "0B":
      return `0B${bits.toString(2)}`;
    case "B":
      return bits < 256n ? `B${bits.toString(2).padStart(8, "0")}` : `0x${wide}`;
    case "character": {
      const c = String.fromCharCode(Number(bits & 127n));
      if (bits < 32n || bits > 126n) return `0x${wide}`;
      return c === "'" || c === "\\" ? `'\\${c}'` : `'${c}'`;
    }
    case "suffix":
      return `0x${wide}${width === 64 ? "ULL" : width === 32 ? "UL" : "u"}`;
    case "separated":
      return wide.length > 2
        ? `0x${wide.replace(/(?=(?:..)+$)(?!^)/g, "'")}`
        : `0b${bits
            .toString(2)
            .padStart(8, "0")
            .replace(/(?=.{4}$)/, "'")}`;
    case "negative":
      // The least value of a type has no literal of its own: its size needs one bit more.
      return negative < 0n && negative > -(1n << BigInt(width - 1)) && (signed || width === 8)
        ? negative.toString()
        : bits.toString() + (big ? "ULL" : "");
    case "name": {
      const name = [...NAMES].find(([, value]) => value === bits)?.[0];
      return name ?? `0x${wide}`;
    }
    case "sum":
      return bits < 0x4000n ? `${bits - bits / 3n} + ${bits / 3n}` : `0x${wide}`;
    case "or":
      return bits < 0x4000n ? `(0x${(bits & 0xf0f0n).toString(16)} | 0x${(bits & 0x0f0fn).toString(16)})` : `0x${wide}`;
  }
}

/** How a literal is written, as far as another value must be written alike; undefined for what is no literal. */
function form(token: string) {
  const m = /^(-?)(0[xX]|0[bB]|B(?=[01]+$)|0(?=[0-7])|)([0-9a-fA-F][0-9a-fA-F']*)([uUlL]*)$/.exec(token);
  if (!m || (m[2] === "" && /[a-fA-F]/.test(m[3] as string))) return undefined;
  const [, sign, prefix, digits, suffix] = m as unknown as [string, string, string, string, string];
  return { sign, prefix, digits, suffix, plain: digits.replaceAll("'", "") };
}

/** What is wrong with the way a literal was spelt anew; undefined where it kept its style or had none to keep. */
export function styleLost(before: string, after: string): string | undefined {
  const old = form(before);
  if (!old || before === "0") return undefined;
  const now = form(after);
  // The least 64-bit value has no literal of its own (C17 6.4.4.1).
  if (after === "(-9223372036854775807 - 1)" && old.prefix === "") return undefined;
  if (!now) return `${before} became ${after}, which is no literal`;
  // A `B` macro has eight digits at most, so a larger value can't keep it.
  if (old.prefix === "B" && now.prefix === "0x") return undefined;
  if (now.prefix !== old.prefix) return `${before} became ${after}: another prefix`;
  // From 2^63 on a decimal literal needs an unsigned suffix (C17 6.4.4.1).
  const large = old.prefix === "" && BigInt(now.plain) >= 1n << 63n && now.suffix === "ULL";
  if (now.suffix !== old.suffix && !large) return `${before} became ${after}: another suffix`;
  if (old.prefix === "") return now.digits.includes("'") ? `${before} became ${after}` : undefined;
  if (now.plain.length < old.plain.length) return `${before} became ${after}: narrower`;
  if (now.plain.length > old.plain.length && now.plain.startsWith("0"))
    return `${before} became ${after}: padded further`;
  const lower = /[a-f]/.test(old.plain);
  const upper = /[A-F]/.test(old.plain);
  if (lower !== upper && (lower ? /[A-F]/ : /[a-f]/).test(now.plain))
    return `${before} became ${after}: another letter case`;
  return undefined;
}
