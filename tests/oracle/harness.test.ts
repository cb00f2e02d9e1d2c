import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { bareName, compileBytes, elementsOf } from "../support/compile.ts";
import { formsCorpus } from "../support/formsCorpus.ts";
import { parsePbm, readXbm } from "../support/netpbm.ts";
import { TARGETS } from "./corpus/arithmetic.ts";
import { literal, STYLES } from "./corpus/literals.ts";
import { seeded } from "./corpus/random.ts";
import { expression } from "./corpus/terms.ts";
import { TYPES } from "./corpus/types.ts";
import { type Bench, disagreement, judge, openBench } from "./judge.ts";

let bench: Bench;

beforeAll(async () => {
  bench = await openBench();
});

afterAll(() => bench.close());

async function compiled(name: string, text: string, target: "avr" | "host") {
  const file = join(bench.folder, name);
  await writeFile(file, text);
  return compileBytes(file, { target, prelude: bench.prelude });
}

describe("what the compilers stored is read back", () => {
  const text = String.raw`
const uint8_t rom[4] = { 1, 0x80, 300 };
uint8_t ram[] = { 7, 8 };
uint16_t nothing[3];
namespace ns { static const int16_t deep[] = { -2, 258 }; }
const uint8_t placed[] __attribute__((section(".art.placed"))) = { 5 };
inline int draw(int n) { static const uint8_t local[] = { 9, '\xff' }; return local[n]; }
struct Box { static const uint8_t side[2]; };
const uint8_t Box::side[2] = { 3 };
extern "C" void old(void) { static const uint8_t counted[] = { 4 }; (void)counted; }
const uint8_t flash[] PROGMEM = { 6 };
const uint64_t widest[] = { 0x0102030405060708 };
`;
  const expected = {
    rom: [1, 0x80, 44, 0],
    ram: [7, 8],
    nothing: [0, 0, 0, 0, 0, 0],
    "ns::deep": [0xfe, 0xff, 2, 1],
    placed: [5],
    "draw(int)::local": [9, 255],
    "Box::side": [3, 0],
    "old::counted": [4],
    flash: [6],
    widest: [8, 7, 6, 5, 4, 3, 2, 1],
  };

  it.each(TARGETS)("from every section, by qualified name: %s", async (target) => {
    const objects = await compiled("sections.cpp", text, target);
    expect(Object.fromEntries([...objects].map(([name, { bytes }]) => [name, [...bytes]]))).toEqual(expected);
    expect(objects.get("placed")?.section).toBe(".art.placed");
    expect(objects.get("nothing")?.section).toBe(".bss");
    expect(objects.get("flash")?.section).toBe(target === "avr" ? ".progmem.data" : ".rodata");
  });

  it("from sections that share their name", async () => {
    const local = (name: string) =>
      `inline void ${name}() { static const uint8_t in_${name}[] PROGMEM PLACED(".art") = { 5 }; (void)in_${name}; }`;
    const objects = await compiled(
      "twins.cpp",
      `const uint8_t outer[] PROGMEM = { 1, 2, 3 };\n${local("once")}`,
      "avr",
    );
    expect([...(objects.get("outer")?.bytes ?? [])]).toEqual([1, 2, 3]);
    expect([...(objects.get("once()::in_once")?.bytes ?? [])]).toEqual([5]);
  });

  it("from C files, whose local statics are numbered", async () => {
    const objects = await compiled(
      "plain.c",
      "void f(void) { static const int8_t at_c[4] = { [2] = -1 }; (void)at_c; }",
      "host",
    );
    expect([...objects].map(([name, { bytes }]) => [name, [...bytes]])).toEqual([["at_c", [0, 0, 255, 0]]]);
  });

  it("and errors of the compiler are passed on", async () => {
    await expect(compiled("wrong.cpp", "const uint8_t few[1] = { 1, 2 };", "avr")).rejects.toThrow(
      /too many initializers/,
    );
  });

  it.each(TARGETS)("also for members of structs: %s", async (target) => {
    const file = join(bench.folder, "members.cpp");
    await writeFile(
      file,
      "struct Part { uint8_t a; uint32_t rows[2]; uint8_t tail[2]; };\nconst Part parts[2] = { {}, { 1, { 2, 3 }, { 4 } } };\n",
    );
    const judged = await judge(file, target, bench, { members: ["parts[1].rows", "parts[1].tail"] });
    expect([...(judged.get("parts[1].rows")?.[0] ?? [])]).toEqual([2, 0, 0, 0, 3, 0, 0, 0]);
    expect([...(judged.get("parts[1].tail")?.[0] ?? [])]).toEqual([4, 0]);
  });
});

describe("elements are taken from bytes", () => {
  const bytes = Uint8Array.from([0xff, 0x00, 0x01, 0x80, 0xfe, 0xff, 0xff, 0xff]);

  it.each([
    [8, false, [255, 0, 1, 128, 254, 255, 255, 255]],
    [8, true, [-1, 0, 1, -128, -2, -1, -1, -1]],
    [16, false, [255, 32769, 65534, 65535]],
    [16, true, [255, -32767, -2, -1]],
    [32, false, [2147549439, 4294967294]],
    [32, true, [-2147417857, -2]],
    [64, false, ["18446744067267166463"]],
    [64, true, ["-6442385153"]],
  ] as const)("of %i bits, signed %s", (bits, signed, elements) => {
    expect(elementsOf(bytes, bits, signed)).toEqual(elements);
  });

  it("only where they are whole", () => {
    expect(() => elementsOf(bytes.subarray(1), 16, false)).toThrow(RangeError);
  });
});

describe("the corpus stands on facts that the compilers confirm", () => {
  it.each(TARGETS)("widths and signs of the element types: %s", async (target) => {
    const lines = TYPES.map(
      ({ words }, i) =>
        `const int16_t type_${i}[] = { sizeof(${words.join(" ")}), (${words.join(" ")})-1 < (${words.join(" ")})0 };`,
    );
    const objects = await compiled("types.cpp", lines.join("\n"), target);
    const measured = TYPES.map((_, i) => elementsOf(objects.get(`type_${i}`)?.bytes ?? new Uint8Array(), 16, true));
    expect(measured).toEqual(TYPES.map(({ bits, signed }) => [bits[target] / 8, signed ? 1 : 0]));
  });

  it.each(TARGETS)("values of random expressions: %s", async (target) => {
    const random = seeded(7);
    const leaf = () =>
      literal(
        random,
        BigInt(random.pick([random.int(0, 40), random.int(0, 255), 32767, 32768, 65535, 65536])),
        random.pick(STYLES),
      );
    const terms = Array.from({ length: 400 }, () => expression(random, leaf, 3));
    const lines = terms.map(
      ({ text }, i) => `constexpr int64_t term_${i}[] = { (int64_t)(${text}), sizeof(${text}) };`,
    );
    const objects = await compiled("expressions.cpp", lines.join("\n"), target);
    const values = terms.map((_, i) => elementsOf(objects.get(`term_${i}`)?.bytes ?? new Uint8Array(), 64, true)[0]);
    expect(values).toEqual(terms.map(({ worth }) => String(BigInt.asIntN(64, worth[target].value))));
  });

  it("and one seed gives one corpus, of unique names", () => {
    const files = formsCorpus(3);
    expect(formsCorpus(3)).toEqual(files);
    const names = files.flatMap(({ arrays }) => arrays.map(({ name }) => name));
    expect(new Set(names).size).toBe(names.length);
  });
});

describe("the judge finds fault", () => {
  const listed = { file: "a.h", line: 1, name: "a", elementBits: 8, signed: false, values: [1, 2] };
  const stored = [Uint8Array.from([1, 2])];
  const expected = { name: "a", bits: 8, signed: false, readOnly: "never" } as const;

  it.each([
    ["agreement", {}, {}, undefined],
    ["a wrong value", { values: [1, 3] }, {}, /differs/],
    ["a missing element", { values: [1] }, {}, /1 elements of 8 bits, the compiler 2 bytes/],
    ["a wrong width", { values: [513], elementBits: 16 }, {}, /16 bits, not 8/],
    ["a wrong sign", { signed: true }, {}, /is signed/],
    ["no values", { values: undefined }, {}, /no values/],
    ["an unread array", { readOnly: "why", values: undefined }, {}, /read-only/],
    [
      "an unread array where that is allowed",
      { readOnly: "why", values: undefined },
      { readOnly: "allowed" },
      undefined,
    ],
    ["a guess", {}, { readOnly: "required" }, /not read-only/],
  ] as const)("with %s", (_, listing, expectation, message) => {
    const { values = undefined, ...rest } = { ...listed, ...listing };
    const problem = disagreement(
      values === undefined ? rest : { ...rest, values },
      { ...expected, ...expectation },
      stored,
    );
    if (message === undefined) expect(problem).toBeUndefined();
    else expect(problem).toMatch(message);
  });
});

describe("netpbm", () => {
  it("reads the example of the Xlib manual: least significant bit left, rows padded to bytes", async () => {
    const file = join(bench.folder, "example.xbm");
    await writeFile(
      file,
      "#define example_width 10\n#define example_height 3\nstatic char example_bits[] = {\n  0x01, 0x02, 0x80, 0x01, 0x0f, 0xfc };\n",
    );
    const { width, height, ink } = await readXbm(file);
    expect([width, height, ink.join("")]).toEqual([10, 3, "100000000100000001101111000000"]);
  });

  it("and other data is refused", () => {
    expect(() => parsePbm(Buffer.from("P1 1 1 1"))).toThrow(/not a raw PBM/);
    expect(() => parsePbm(Buffer.from("P4 9 2\nab"))).toThrow(/2 bytes/);
  });
});

describe("bareName", () => {
  it.each([
    ["icon", "icon"],
    ["a::b::icon", "icon"],
    ["f(int)::icon", "icon"],
    ["(anonymous namespace)::icon", "icon"],
  ])("%s -> %s", (qualified, bare) => {
    expect(bareName(qualified)).toBe(bare);
  });
});
