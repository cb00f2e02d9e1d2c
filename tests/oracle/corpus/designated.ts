import type { CorpusArray } from "./declarations.ts";
import type { Random } from "./random.ts";

const BYTE = { avr: 8, host: 8 };

/** A C file of arrays with designators (g++ rejects most of them) and strings that fill their arrays exactly. */
export function designatedFile(random: Random, index: number, arrays: number): { text: string; arrays: CorpusArray[] } {
  const made = Array.from({ length: arrays }, (_, i) => {
    const name = `ledge_${index}_${i}`;
    return random.pick([flat, flat, rows, exact])(random, name);
  });
  return {
    text: `#include <stdint.h>\nenum { AT = 2 };\n\n${made.map((m) => m.text).join("\n")}\n`,
    arrays: made.map((m) => m.array),
  };
}

function array(name: string, text: string): { text: string; array: CorpusArray } {
  return { text, array: { name, declaration: text, bits: BYTE, signed: false, readOnly: "never" } };
}

/** Indices in any order, characters, ranges, and items in between that go on from the last place. */
function flat(random: Random, name: string) {
  const size = random.int(4, 40);
  const open = random.chance(0.4);
  let at = 0;
  const items = Array.from({ length: random.int(1, 10) }, () => {
    const value = random.int(0, 255);
    if (at < size && random.chance(0.4)) {
      at++;
      return String(value);
    }
    const to = random.int(0, size - 1);
    const from = random.chance(0.3) ? random.int(0, to) : to;
    at = to + 1;
    if (from < to || random.chance(0.1)) return `[${from} ... ${to}] = ${value}`;
    if (to >= 2 && random.chance(0.2)) return `[AT + ${to - 2}] = ${value}`;
    return `[${random.pick([String(to), `0x${to.toString(16)}`, `'\\${to.toString(8)}'`])}]${random.pick([" = ", "="])}${value}`;
  });
  return array(name, `const uint8_t ${name}[${open ? "" : size}] = { ${items.join(", ")}${random.pick(["", ","])} };`);
}

/** Rows as lists, as strings and by single elements; a row given anew clears the one before. */
function rows(random: Random, name: string) {
  const [height, width] = [random.int(1, 5), random.int(2, 6)];
  const list = () => Array.from({ length: random.int(1, width) }, () => random.int(0, 255)).join(", ");
  const items = Array.from({ length: random.int(1, 6) }, () => {
    const y = random.int(0, height - 1);
    const x = random.int(0, width - 1);
    return random.pick([
      `[${y}] = { ${list()} }`,
      `[${y}] = { [${x}] = ${random.int(0, 255)} }`,
      `[${y}][${x}] = ${random.int(0, 255)}`,
      `[${y}] = "${"z".repeat(random.int(1, width))}"`,
    ]);
  });
  return array(name, `const uint8_t ${name}[${random.chance(0.3) ? "" : height}][${width}] = { ${items.join(", ")} };`);
}

function exact(random: Random, name: string) {
  const units = random.int(1, 9);
  const text = Array.from({ length: units }, () => random.pick(["\\x7f", "\\001", "b", " ", "\\n"]));
  return array(name, `const unsigned char ${name}[${units}] = "${text.join("").replaceAll("\\x7fb", '\\x7f" "b')}";`);
}
