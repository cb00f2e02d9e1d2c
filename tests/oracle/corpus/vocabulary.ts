import { INT_BITS, wrap } from "./arithmetic.ts";
import { literal } from "./literals.ts";
import type { Random } from "./random.ts";
import { atom, expression, perTarget, type Term } from "./terms.ts";
import { COMMON, type ElementType, TYPES } from "./types.ts";

/** The names that one file defines before its arrays. */
export interface Vocabulary {
  readonly text: string;
  /** Names of values: object-like macros, enumerators, `const` and `constexpr` objects. */
  readonly values: readonly Term[];
  /** Those of them with a value from 1 to 16: dimensions. */
  readonly sizes: readonly Term[];
  readonly types: readonly ElementType[];
  /** Object-like macros that stand for nothing or for an attribute, defined in the file. */
  readonly decorations: readonly string[];
}

export function vocabulary(random: Random, file: number): Vocabulary {
  const lines: string[] = [];
  const values: Term[] = [];
  const small = () =>
    literal(random, BigInt(random.int(0, 255)), random.pick(["hex", "decimal", "binary", "octal", "binary-macro"]));
  const add = (line: string, ...terms: Term[]) => {
    lines.push(line);
    values.push(...terms);
  };
  for (const name of ["OFF", "DIM", "FULL"].map((word) => `${word}_${file}`)) {
    const level = small();
    add(`#define ${name} ${level.text}${random.chance(0.3) ? "  // level of a lamp" : ""}`, atom(name, level.worth));
  }
  const [base] = values as [Term];
  const mixed = expression(random, () => random.pick([small(), base]), 2);
  add(`#define MIX_${file} (${mixed.text})`, atom(`MIX_${file}`, mixed.worth));
  const split = expression(random, small, 2);
  add(`#define SPLIT_${file} \\\n  ( ${split.text} \\\n  )`, atom(`SPLIT_${file}`, split.worth));
  for (const term of constants(random, file, small)) add(term.line, term.term);
  const [enumText, enumerators] = enumeration(random, file);
  add(enumText, ...enumerators);
  const [sizeText, sizes] = sizeNames(random, file);
  lines.push(sizeText);
  const decorations = [`ART_${file}`, `TABLE_${file}`];
  lines.push(`#define ART_${file}`, `#define TABLE_${file} __attribute__((aligned(2)))`);
  const [typeText, types] = typeNames(random, file);
  return { text: [...lines, typeText].join("\n"), values, sizes, types, decorations };
}

function constants(random: Random, file: number, small: () => Term): readonly { line: string; term: Term }[] {
  const forms = [
    "const T N = V;",
    "static const T N = V;",
    "constexpr T N = V;",
    "static constexpr T N{T(V)};",
    "T const N(V);",
    "const T N = V;",
  ];
  return forms.map((form, i) => {
    const type = random.pick(COMMON);
    const value = random.chance(0.5) ? small() : expression(random, small, 2);
    const name = `level_${file}_${i}`;
    const line = form
      .replaceAll("T(V)", `(${type.words.join(" ")})(${value.text})`)
      .replaceAll(/\bT\b/g, type.words.join(" "))
      .replace("N", name)
      .replace("V", () => value.text);
    return {
      line,
      term: atom(
        name,
        perTarget((t) => wrap(value.worth[t].value, type.bits[t], type.signed)),
      ),
    };
  });
}

/** Enumerators count on from the one before; all fit `int`, so that g++ promotes them to `int`. */
function enumeration(random: Random, file: number): readonly [string, readonly Term[]] {
  let value = -1n;
  const terms: Term[] = [];
  const parts = ["SOIL", "LEAF", "STEM", "ROOT", "SEED"].map((word) => {
    const stated = random.chance(0.5)
      ? literal(random, BigInt(random.int(0, 200)), random.pick(["hex", "decimal"]))
      : undefined;
    value = stated ? stated.worth.host.value : value + 1n;
    const name = `${word}_${file}`;
    terms.push(
      atom(
        name,
        perTarget((t) => ({ value, bits: INT_BITS[t], signed: true })),
      ),
    );
    return stated ? `${name} = ${stated.text}` : name;
  });
  const head = random.pick(["enum", `enum Part_${file}`, `enum Part_${file} : uint8_t`]);
  return [`${head} { ${parts.join(", ")}${random.chance(0.4) ? "," : ""} };`, terms];
}

function sizeNames(random: Random, file: number): readonly [string, readonly Term[]] {
  const int = (value: number) => perTarget((t) => ({ value: BigInt(value), bits: INT_BITS[t], signed: true }));
  const [rows, columns, count] = [random.int(2, 5), random.int(2, 6), random.int(1, 4)];
  const lines = [
    `#define ROWS_${file} ${rows}`,
    `constexpr int COLUMNS_${file} = ${columns};`,
    `enum { COUNT_${file} = ${count} };`,
  ];
  return [
    lines.join("\n"),
    [atom(`ROWS_${file}`, int(rows)), atom(`COLUMNS_${file}`, int(columns)), atom(`COUNT_${file}`, int(count))],
  ];
}

function typeNames(random: Random, file: number): readonly [string, readonly ElementType[]] {
  const alias = (name: string, line: (type: string) => string) => {
    const base = random.pick(TYPES);
    return { text: line(base.words.join(" ")), type: { ...base, words: [name] } };
  };
  const made = [
    alias(`dew_${file}_t`, (t) => `typedef ${t} dew_${file}_t;`),
    alias(`mist_${file}_t`, (t) => `using mist_${file}_t = ${t};`),
    alias(`CELL_${file}`, (t) => `#define CELL_${file} ${t}`),
  ];
  const twice = {
    text: `typedef dew_${file}_t rime_${file}_t;`,
    type: { ...(made[0] as (typeof made)[number]).type, words: [`rime_${file}_t`] },
  };
  return [[...made, twice].map(({ text }) => text).join("\n"), [...made, twice].map(({ type }) => type)];
}
