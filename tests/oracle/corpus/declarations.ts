import type { PerTarget } from "./arithmetic.ts";
import { elementText, KINDS, type Kind } from "./elements.ts";
import { braced, layout, nestedItems } from "./initialisers.ts";
import type { Random } from "./random.ts";
import { COMMON, type ElementType, TYPES } from "./types.ts";
import type { Vocabulary } from "./vocabulary.ts";

/** Where a declaration stands, as far as it limits the specifiers. */
export type Place = "file" | "function" | "class";

/** An array of the corpus and what is known about it without a compiler. */
export interface CorpusArray {
  /** The declared name; `variable.member` inside a struct variable. */
  readonly name: string;
  readonly declaration: string;
  readonly bits: PerTarget<number>;
  readonly signed: boolean;
  /** Whether the product may leave it unread with a reason, or must. */
  readonly readOnly: "never" | "allowed" | "required";
}

export interface Declared {
  readonly text: string;
  readonly arrays: readonly CorpusArray[];
  /** In a class body: the definition that follows the class, `Class::` as a placeholder `@::`. */
  readonly definition?: string;
}

interface Specifiers {
  readonly text: string;
  readonly constant: boolean;
}

/** One statement that declares one array, or several with other declarators between them. */
export function declaration(random: Random, names: Vocabulary, fresh: () => string, place: Place): Declared {
  const type = random.pick([random.pick(COMMON), random.pick(TYPES), random.pick(names.types)]);
  const head = specifiers(random, type, names, place);
  const kind = random.pick(KINDS);
  const one = () => declarator(random, type, kind, names, fresh(), head.constant);
  const first = one();
  const more = place !== "class" && random.chance(0.12) ? Array.from({ length: random.int(1, 2) }, one) : [];
  const noise = more.length === 0 ? [] : [`${fresh()} = 5`, `${fresh()}(3)`].slice(0, random.int(0, 2));
  const joiner = random.pick([", ", ",\n    "]);
  const rest = random.shuffle([...more.map(({ text }) => text), ...noise]);
  const text = `${head.text} ${[first.text, ...rest].join(joiner)};`;
  const arrays = [first, ...more].map(
    ({ name }): CorpusArray => ({ name, declaration: text, bits: type.bits, signed: type.signed, readOnly: "never" }),
  );
  return { text, arrays };
}

/** A static data member declared in its class and defined behind it, where its list stands. */
export function member(random: Random, names: Vocabulary, fresh: () => string): Declared {
  const type = random.pick([random.pick(COMMON), random.pick(TYPES)]);
  const words = type.words.join(" ");
  const count = random.int(2, 9);
  const name = fresh();
  const kind = random.pick(KINDS);
  const items = Array.from({ length: random.int(1, count) }, () => elementText(random, type, kind, names));
  const text = `static const ${words} ${name}[${count}];`;
  const definition = `const ${words} @::${name}[${count}]${random.pick(["", " PROGMEM"])} = ${braced(random, items, layout(random))};`;
  return {
    text,
    definition,
    arrays: [{ name, declaration: definition, bits: type.bits, signed: type.signed, readOnly: "never" }],
  };
}

function specifiers(random: Random, type: ElementType, names: Vocabulary, place: Place): Specifiers {
  const constant = random.pick(["const", "const", "const", "const", "constexpr", ""]);
  const storage = place === "file" ? random.pick(["static", "", ""]) : "static";
  const decoration = random.chance(0.25) ? random.pick(["IN_FLASH", "ART_API", names.decorations[0] as string]) : "";
  if (random.chance(0.25)) {
    const words = random.shuffle([storage, constant, decoration, ...type.words].filter((word) => word !== ""));
    return { text: words.join(random.pick([" ", " ", "  ", " /* of */ "])), constant: constant !== "" };
  }
  const lead = random.chance(0.12)
    ? random.pick(["KEEP_ART", "ALIGNED_TO(4)", "__attribute__((used))", "alignas(4)"])
    : "";
  const flash = constant !== "" && random.chance(0.2) ? "PROGMEM" : "";
  const [before, between] = random.chance(0.8) ? [flash, ""] : ["", flash];
  const words = random.chance(0.85) ? [constant, ...type.words] : [...type.words, constant];
  return {
    text: [lead, before, storage, ...words, between, decoration]
      .filter((word) => word !== "")
      .join(random.pick([" ", " ", "\t"])),
    constant: constant !== "",
  };
}

function declarator(
  random: Random,
  type: ElementType,
  kind: Kind,
  names: Vocabulary,
  name: string,
  constant: boolean,
): { name: string; text: string } {
  const depth = random.pick([1, 1, 1, 1, 1, 1, 2, 2, 3]);
  const sizes = Array.from({ length: depth }, (_, i) =>
    depth === 1 ? size(random, names, 1, 20) : size(random, names, i === 0 ? 1 : 2, 4),
  );
  const counts = sizes.map(({ value }) => value);
  const items = nestedItems(
    random,
    counts,
    () => elementText(random, type, kind, names),
    random.pick([0, 0.5, 0.9, 1]),
  );
  // `T x[] = {}` is no C++: an array needs an element.
  const open = items.length > 0 && random.chance(depth === 1 ? 0.69 : 0.3);
  const brackets = sizes.map(({ text }, i) => (i === 0 && open ? random.pick(["[]", "[]", "[ ]"]) : `[${text}]`));
  const shape = layout(random);
  const equals = random.chance(0.06) ? " " : random.pick([" = ", " = ", "= ", "=", " =\t"]);
  const gap = shape.nextLine ? `${equals.trimEnd()}\n` : equals;
  const stars = random.chance(0.05) ? random.pick([" /* [3] = { */", " // list follows: {\n"]) : "";
  return {
    name,
    text: `${name}${brackets.join("")}${behind(random, names, name, constant)}${stars}${gap}${braced(random, items, shape)}`,
  };
}

/** Attributes and unknown macros between the brackets and the list; each section holds one array, so none conflict. */
function behind(random: Random, names: Vocabulary, name: string, constant: boolean): string {
  const placing = [
    ...(constant ? [" PROGMEM", " PROGMEM", " PROGMEM IN_FLASH"] : [" IN_FLASH"]),
    ` PLACED(".art.${name}")`,
  ];
  const other = [
    " __attribute__((aligned(4)))",
    " ALIGNED_TO(2)",
    ` ${names.decorations[1]}`,
    ` ${names.decorations[0]} KEEP_ART`,
  ];
  return random.chance(0.45) ? random.pick([...placing, ...other]) : "";
}

/** A dimension: a number in some spelling, a name, or an expression of names and numbers. */
function size(random: Random, names: Vocabulary, least: number, most: number): { text: string; value: number } {
  const roll = random.int(0, 9);
  if (roll < 6) {
    const value = random.int(least, most);
    return {
      value,
      text: random.pick([
        String(value),
        String(value),
        ` ${value} `,
        `0x${value.toString(16)}`,
        `${value}u`,
        `(${value})`,
      ]),
    };
  }
  const a = random.pick(names.sizes);
  const known = Number(a.worth.host.value);
  if (roll < 7) return { text: a.text, value: known };
  const b = random.int(1, 2);
  const [text, value] = random.pick([
    [`${a.text} * ${b}`, known * b],
    [`${a.text} + ${b}`, known + b],
    [`(${a.text}+${b})*2/2`, known + b],
    [`${b}<<1`, b * 2],
  ] as const);
  return { text, value };
}
