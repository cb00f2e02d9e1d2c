import type { Target } from "../oracle/corpus/arithmetic.ts";
import { type CorpusArray, type Declared, declaration, member } from "../oracle/corpus/declarations.ts";
import { designatedFile } from "../oracle/corpus/designated.ts";
import { moreForms } from "../oracle/corpus/moreForms.ts";
import { type Random, seeded } from "../oracle/corpus/random.ts";
import { trapFiles } from "../oracle/corpus/traps.ts";
import { type Vocabulary, vocabulary } from "../oracle/corpus/vocabulary.ts";

/** A source file and the arrays that a reader must find in it. */
export interface CorpusFile {
  readonly path: string;
  readonly bytes: Uint8Array;
  readonly targets: readonly Target[];
  readonly arrays: readonly CorpusArray[];
  /** Names that a listing may hold or leave out: pointer tables, buffers without a list, strings. */
  readonly optional: readonly string[];
}

const WORDS = [
  "fern",
  "moss",
  "basil",
  "thyme",
  "lamp",
  "vent",
  "tray",
  "pump",
  "sill",
  "pane",
  "bud",
  "vine",
  "gauge",
  "frost",
  "sprout",
];
const EXTENSIONS = [".ino", ".cpp", ".h", ".ino", ".hpp", ".cc"];
const FILES = 44;
const CHUNKS = 22;
/** Forms of `moreForms` in a file. */
const MORE = 18;

/**
 * Firmware source in every form that number arrays are written in: a seeded random part, and files written by hand
 * for the rules of C++ that random text seldom meets. Compiles for both targets, where a file does not say otherwise.
 */
export function formsCorpus(seed: number): readonly CorpusFile[] {
  const random = seeded(seed);
  const files = Array.from({ length: FILES }, (_, index) => randomFile(random, index));
  const designated = [0, 1].map((index): CorpusFile => {
    const { text, arrays } = designatedFile(random, index, 120);
    return { path: `designated${index}.c`, bytes: Buffer.from(text), targets: ["avr", "host"], arrays, optional: [] };
  });
  return [...files, ...designated, ...trapFiles()];
}

function randomFile(random: Random, index: number): CorpusFile {
  let count = 0;
  const fresh = () => `${random.pick(WORDS)}_${index}_${count++}`;
  const names = vocabulary(random, index);
  const only: Target | undefined = index % 11 === 4 ? "host" : index % 11 === 6 ? "avr" : undefined;
  const chunks = [
    ...Array.from({ length: CHUNKS }, () => chunk(random, names, fresh, only)),
    ...Array.from({ length: MORE }, () => moreForms(random, names, fresh, only === "host")),
  ];
  const head = only === "avr" ? "#include <avr/pgmspace.h>\n" : random.pick(["", "// lantern art\n", '/* "{" */\n']);
  const text = `${head}#include <stdint.h>\n#include <stddef.h>${only === "host" ? "\n#include <array>" : ""}\n\n${names.text}\n\n${chunks.map((part) => part.text).join(random.pick(["\n", "\n\n", "\n// ----\n"]))}`;
  const extension =
    only === "host" ? ".cpp" : only === "avr" ? ".ino" : (EXTENSIONS[index % EXTENSIONS.length] as string);
  return {
    path: `forms${String(index).padStart(2, "0")}${extension}`,
    bytes: encoded(random, text),
    targets: only ? [only] : ["avr", "host"],
    arrays: chunks.flatMap((part) => part.arrays),
    optional: [],
  };
}

/** Line ends, a byte order mark, Latin-1 bytes in a comment, and a missing last newline. */
function encoded(random: Random, text: string): Uint8Array {
  const ends = random.int(0, 9);
  const lines = text.split("\n");
  const body =
    ends < 2 ? lines.join("\r\n") : ends < 3 ? lines.map((line, i) => line + (i % 2 ? "\r\n" : "\n")).join("") : text;
  const closed = random.chance(0.3) ? body.trimEnd() : `${body.trimEnd()}\n`;
  const style = random.int(0, 9);
  if (style === 0) return Buffer.concat([Buffer.from([0xef, 0xbb, 0xbf]), Buffer.from(closed)]);
  if (style === 1) return Buffer.from(`// gr\u00fcn, 20 \u00b0C\n${closed}`, "latin1");
  return Buffer.from(style === 2 ? `/* gr\u00fcn \u2744 */ ${closed}` : closed);
}

function chunk(random: Random, names: Vocabulary, fresh: () => string, only: Target | undefined): Declared {
  const several = (place: "file" | "function") =>
    Array.from({ length: random.int(1, 3) }, () => declaration(random, names, fresh, place));
  switch (random.int(0, 9)) {
    case 0:
    case 1:
      return around(several("file"), ...namespace(random, fresh, only));
    case 2:
      return around(several("function"), ...functionBody(random, fresh));
    case 3:
      return only === undefined ? outOfClass(random, names, fresh) : inClass(random, names, fresh, only);
    default:
      return declaration(random, names, fresh, "file");
  }
}

function around(inner: readonly Declared[], open: string, close: string): Declared {
  return {
    text: `${open}\n${inner.map(({ text }) => text).join("\n")}\n${close}`,
    arrays: inner.flatMap(({ arrays }) => arrays),
  };
}

function namespace(random: Random, fresh: () => string, only: Target | undefined): readonly [string, string] {
  const name = fresh();
  const forms = [
    [`namespace ${name} {`, "}"],
    ["namespace {", "} // {"],
    [`namespace ${name} { namespace inner\n{`, "} }"],
    ['extern "C" {', "}"],
    [`inline namespace ${name} {`, "}"],
  ];
  const nested = only === "host" ? [[`namespace ${name}::inner {`, `} // namespace ${name}::inner`]] : [];
  return random.pick([...forms, ...nested]) as [string, string];
}

function functionBody(random: Random, fresh: () => string): readonly [string, string] {
  const name = fresh();
  const forms = [
    [`void ${name}() {`, "}"],
    [
      `int ${name}(int a, const uint8_t *b)\n{\n  int c = a * 2, d[4]; if (a < c) { d[0] = b[1]; }`,
      "  return d[0] + (c << 2); }",
    ],
    [`inline uint8_t ${name}(uint8_t row) { switch (row) { case '{': {`, "  } default: return row; } }"],
    [`struct ${name}_s { int at; void draw() {`, "} };"],
    [`void ${name}() { for (int i = 0; i < 3; i++) {`, '  (void)i; (void)"}"; } }'],
  ];
  return random.pick(forms) as [string, string];
}

function outOfClass(random: Random, names: Vocabulary, fresh: () => string): Declared {
  const name = `${fresh()}_c`;
  const made = Array.from({ length: random.int(1, 3) }, () => member(random, names, fresh));
  const body = made.map(({ text }) => `  ${text}`).join("\n");
  const definitions = made.map(({ definition = "" }) => definition.replace("@", name)).join("\n");
  return {
    text: `class ${name} {\npublic:\n${body}\n};\n${definitions}`,
    arrays: made.flatMap(({ arrays }) => arrays),
  };
}

/** C++17 stores a `constexpr` member where it is declared; C++14 asks for a definition without a list as well. */
function inClass(random: Random, names: Vocabulary, fresh: () => string, only: Target): Declared {
  const name = `${fresh()}_c`;
  const items = Array.from({ length: random.int(1, 8) }, () => random.int(0, 255));
  const made = [fresh(), fresh()].map((array, i) => {
    const start = only === "host" && i === 1 ? "inline static const" : "static constexpr";
    const text = `  ${start} uint8_t ${array}[] = { ${items.join(", ")} };`;
    const definition = only === "host" ? "" : `constexpr uint8_t ${name}::${array}[];`;
    const found: CorpusArray = {
      name: array,
      declaration: text,
      bits: { avr: 8, host: 8 },
      signed: false,
      readOnly: "never",
    };
    return { text, definition, found };
  });
  const middle = random.pick([
    "",
    `  int size() const { return ${random.pick(names.sizes).text}; }\n`,
    `  ${name}() : at_{0} {}\n  int at_;\n`,
  ]);
  const body = made.map(({ text }) => text).join("\n");
  return {
    text: `struct ${name} {\n${middle}${body}\n};\n${made.map(({ definition }) => definition).join("\n")}`,
    arrays: made.map(({ found }) => found),
  };
}
