import { INT_BITS, type PerTarget } from "./arithmetic.ts";
import type { CorpusArray, Declared } from "./declarations.ts";
import type { Random } from "./random.ts";
import type { Vocabulary } from "./vocabulary.ts";

const BYTE: PerTarget<number> = { avr: 8, host: 8 };
const SIXTEEN: PerTarget<number> = { avr: 16, host: 16 };

/** Forms beside lists of numbers: strings, macros of several elements, sizes, structs without inner braces. */
export function moreForms(random: Random, names: Vocabulary, fresh: () => string, hosted: boolean): Declared {
  const forms = [
    string,
    string,
    rowsOfStrings,
    wideString,
    severalElements,
    drawn,
    sizes,
    flatStructs,
    keyedStructs,
    pasted,
  ];
  return random.pick(hosted ? [...forms, standardArray, standardArray, nestedArrays] : forms)(random, names, fresh);
}

type Form = (random: Random, names: Vocabulary, fresh: () => string) => Declared;

function one(name: string, text: string, bits = BYTE, signed = false): Declared {
  return { text, arrays: [{ name, declaration: text, bits, signed, readOnly: "never" }] };
}

function times<T>(random: Random, least: number, most: number, make: (index: number) => T): T[] {
  return Array.from({ length: random.int(least, most) }, (_, i) => make(i));
}

const PLAIN = "abcdefgXYZ019 {}/*,;'#.?";

/** The inside of a string; a hexadecimal escape is not followed by a digit that it would take. */
function inside(random: Random, most: number): { text: string; units: number } {
  let text = "";
  let open = false;
  const count = random.int(1, most);
  for (let i = 0; i < count; i++) {
    const byte = random.int(0, 255);
    const roll = random.int(0, 9);
    const plain = PLAIN.charAt(random.int(0, PLAIN.length - 1));
    if (roll < 3) text += `\\x${byte.toString(16).padStart(random.pick([1, 2]), "0")}`;
    else if (roll < 6) text += `\\${byte.toString(8).padStart(3, "0")}`;
    else if (roll < 7)
      text += random.pick(["\\n", "\\t", "\\\\", '\\"', "\\'", "\\a", "\\r", "\\v", "\\f", "\\b", "\\?"]);
    else if (open && /[0-9a-fA-F]/.test(plain)) text += `" "${plain}`;
    else text += random.chance(0.05) ? "\u00fc" : plain;
    open = roll < 3;
  }
  // In UTF-8 the one character beyond ASCII makes two units.
  return { text, units: count + text.split("\u00fc").length - 1 };
}

const string: Form = (random, _names, fresh) => {
  const name = fresh();
  const parts = times(random, 1, 3, () => inside(random, 12));
  const units = parts.reduce((sum, part) => sum + part.units, 0);
  const size = random.chance(0.6) ? "" : String(units + 1 + random.int(0, 4));
  const type = random.pick(["char", "uint8_t", "unsigned char", "signed char"]);
  const joiner = random.pick([" ", "\n  ", ' /* " */ ', ' // "\n  ']);
  const flash = random.chance(0.3) ? " PROGMEM" : "";
  const body = parts.map(({ text }) => `"${text}"`).join(joiner);
  const braced = random.chance(0.15) ? `{ ${body} }` : body;
  return one(name, `const ${type} ${name}[${size}]${flash} = ${braced};`, BYTE, /^(char|signed char)$/.test(type));
};

const rowsOfStrings: Form = (random, _names, fresh) => {
  const name = fresh();
  const rows = times(random, 1, 5, () => inside(random, 6));
  const width = Math.max(...rows.map(({ units }) => units)) + 1 + random.int(0, 2);
  const items = rows.map(({ text }) =>
    random.chance(0.2) ? `{ "${text}" }` : random.chance(0.1) ? "{ 1, 2 }" : `"${text}"`,
  );
  return one(
    name,
    `const char ${name}[${random.pick(["", String(rows.length + 1)])}][${width}] = { ${items.join(", ")} };`,
    BYTE,
    true,
  );
};

const wideString: Form = (random, _names, fresh) => {
  const name = fresh();
  const [type, prefix, bits, signed] = random.pick([
    ["char16_t", "u", SIXTEEN, false],
    ["char32_t", "U", { avr: 32, host: 32 }, false],
    ["wchar_t", "L", INT_BITS, true],
  ] as const);
  const items = times(random, 1, 8, () => random.pick(["a", "\\x1234", "\\0", "\\u2744", "z", "\\101"]));
  return one(name, `const ${type} ${name}[] = ${prefix}"${items.join('" "')}";`, bits, signed);
};

const severalElements: Form = (random, names, fresh) => {
  const name = fresh();
  const macro = `TWO_${name}`;
  const items = times(random, 1, 9, () =>
    random.chance(0.5)
      ? `${macro}(${random.pick(["0x1234", "0b1010000011110000", "40000u", random.pick(names.values).text])})`
      : String(random.int(0, 255)),
  );
  const body = random.pick([
    "(uint8_t)((w) >> 8), (uint8_t)((w) & 0xFF)",
    "(w) & 15, 7, ((w) >> 4) & 15",
    "(w)&1,(w)&2",
  ]);
  const rest = random.chance(0.3) ? `\n#define REST_${name} 9, 8, 7` : "";
  if (rest !== "") items.push(`REST_${name}`);
  return one(name, `#define ${macro}(w) ${body}${rest}\nconst uint8_t ${name}[] = { ${items.join(", ")} };`);
};

const drawn: Form = (random, _names, fresh) => {
  const name = fresh();
  const width = random.int(4, 8);
  const row = () => times(random, width, width, () => random.pick(["o_", "X_"]));
  const rows = times(random, 1, 6, row).map((pixels) => `${name}_s ${pixels.map((p) => p + name).join(" ")}`);
  const head = `#define o_${name} )*2\n#define X_${name} )*2+1\n#define ${name}_s ${"(".repeat(width)}0`;
  return one(name, `${head}\nconst uint8_t ${name}[] = {\n${rows.map((r) => `  ${r},`).join("\n")}\n};`);
};

const sizes: Form = (random, names, fresh) => {
  const name = fresh();
  const other = fresh();
  const items = [
    `sizeof(${other})`,
    `sizeof ${other}`,
    `sizeof(${other}) / sizeof(${other}[0])`,
    `sizeof(*${other})`,
    "sizeof(uint16_t)",
    "sizeof(long)",
    "sizeof(int) * 2",
    "sizeof(1L + 1)",
    `sizeof(${random.pick(names.values).text} + 0L)`,
    "sizeof(unsigned char)",
  ];
  const list = random.pick([
    `const uint16_t ${other}[][2] = { 1, 2, 3 };`,
    `const uint8_t ${other}[] = { 4, 5, 6 };`,
    `static const char ${other}[] = "tray";`,
  ]);
  const chosen = times(random, 1, 6, () => random.pick(items));
  const made = one(name, `const uint8_t ${name}[sizeof(${other}) + 6] = { ${chosen.join(", ")} };`);
  const [type, bits, signed] = list.includes("uint16_t") ? ["", SIXTEEN, false] : ["", BYTE, list.includes("char ")];
  const beside: CorpusArray = {
    name: other,
    declaration: `${type}${list}`,
    bits: bits as PerTarget<number>,
    signed: Boolean(signed),
    readOnly: "never",
  };
  return { text: `${list}\n${made.text}`, arrays: [beside, ...made.arrays] };
};

const flatStructs: Form = (random, _names, fresh) => {
  const name = fresh();
  const type = `${name}_t`;
  const rows = random.int(1, 5);
  const entries = random.int(1, 4);
  const items: string[] = [];
  for (let i = 0; i < entries; i++) {
    items.push(`${i}`, ...times(random, rows, rows, () => String(random.int(0, 255))), "0xF800");
  }
  // The last entry may end early.
  const given = items.slice(0, Math.max(items.length - rows - 1, items.length - random.int(0, rows)));
  const text = `struct ${type} { uint8_t w; uint8_t rows[${rows}]; uint16_t tint; };\nconst ${type} ${name}[] = { ${given.join(", ")} };`;
  const arrays = Array.from(
    { length: entries },
    (_, i): CorpusArray => ({
      name: `${name}[${i}].rows`,
      declaration: text,
      bits: BYTE,
      signed: false,
      readOnly: "allowed",
    }),
  );
  // An entry whose members are all left out has no list to stand in.
  const begun = given.length - (entries - 1) * (rows + 2) > 1;
  return { text, arrays: begun ? arrays : arrays.slice(0, -1) };
};

const keyedStructs: Form = (random, _names, fresh) => {
  const name = fresh();
  const type = `${name}_t`;
  const entries = times(random, 1, 4, (i) => {
    const rows = times(random, 1, 4, () => `0x${random.int(0, 255).toString(16)}`).join(", ");
    return random.chance(0.3) ? `{ "k{${i}", ${i}, { ${rows} } }` : `{ "k}${i}", ${i}, { ${rows} }, 'x', { 1 } }`;
  });
  const text = `struct ${type} { const char *key; int at; uint8_t rows[4]; char mark; int16_t deep[2]; };\nconst ${type} ${name}[] = {\n  ${entries.join(",\n  ")}\n};`;
  const arrays = entries.flatMap((entry, i): CorpusArray[] => [
    { name: `${name}[${i}].rows`, declaration: text, bits: BYTE, signed: false, readOnly: "never" },
    ...(entry.includes("'x'")
      ? [{ name: `${name}[${i}].deep`, declaration: text, bits: SIXTEEN, signed: true, readOnly: "never" as const }]
      : []),
  ]);
  return { text, arrays };
};

const pasted: Form = (random, _names, fresh) => {
  const name = fresh();
  const head = `#define CAT_${name}(a, b) a##b\n#define BIN_${name}(x) CAT_${name}(0b, x)\n#define ALL_${name}(...) __VA_ARGS__\n#define LAST_${name}(a, ...) __VA_ARGS__`;
  const items = times(random, 1, 8, () =>
    random.pick([
      `CAT_${name}(1, 2)`,
      `BIN_${name}(1011)`,
      `ALL_${name}(1, 2, 3)`,
      `LAST_${name}(1, 2, 3)`,
      `CAT_${name}(0x, ${random.int(10, 99)})`,
      "5",
    ]),
  );
  return one(name, `${head}\nconst uint8_t ${name}[] = { ${items.join(", ")} };`);
};

const standardArray: Form = (random, _names, fresh) => {
  const name = fresh();
  const count = random.int(1, 12);
  const [type, bits] = random.pick([
    ["uint8_t", BYTE],
    ["uint16_t", SIXTEEN],
    ["unsigned char", BYTE],
  ] as const);
  const items = times(random, 1, count, () => String(random.int(0, 255))).join(", ");
  const list = random.pick([` = { ${items} }`, ` = {{ ${items} }}`, `{ ${items} }`, `{{${items}}}`]);
  const head = random.pick(["const", "constexpr", "static const"]);
  return one(
    name,
    `${head} std::array<${type}, ${random.pick([String(count), `${count} * 1`, `(${count})`])}> ${name}${list};`,
    bits,
  );
};

/** `std::array` of others, in two or three dimensions, with the braces that may be left out and rows that end early. */
const nestedArrays: Form = (random, _names, fresh) => {
  const name = fresh();
  const sizes = times(random, 2, 3, () => random.int(1, 4));
  const type = sizes.reduceRight((inner, size) => `std::array<${inner}, ${size}>`, "uint8_t");
  const total = sizes.reduce((product, size) => product * size, 1);
  const value = () => String(random.int(0, 255));
  const list = (level: number): string => {
    const size = sizes[level] as number;
    if (level === sizes.length - 1) {
      const items = times(random, 1, size, value).join(", ");
      return random.chance(0.5) ? `{{ ${items} }}` : `{ ${items} }`;
    }
    return `{{ ${times(random, 1, size, () => list(level + 1)).join(", ")} }}`;
  };
  const flat = () => `{ ${times(random, 1, total, value).join(", ")} }`;
  return one(
    name,
    `${random.pick(["const ", "", "static "])}${type} ${name}${random.chance(0.3) ? "" : " = "}${random.chance(0.2) ? flat() : list(0)};`,
  );
};
