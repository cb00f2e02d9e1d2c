import { execFile } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { extname, join, resolve } from "node:path";
import { promisify } from "node:util";

const run = promisify(execFile);

/** The two compilers that judge: avr-gcc for an ATmega328P, gcc for x86-64 Linux (LP64, signed `char`). */
export type CompileTarget = "avr" | "host";

export interface CompileOptions {
  readonly target: CompileTarget;
  /** A header that only the compiler sees (`-include`): it stands for a board's core. */
  readonly prelude?: string;
  /** Folders for `#include`. */
  readonly includes?: readonly string[];
  /** C++ text compiled behind the file, in the same translation unit: probes such as `offsetof`. */
  readonly probes?: string;
}

/** One data object of the object file. */
export interface StoredObject {
  readonly section: string;
  readonly bytes: Uint8Array;
}

interface Section {
  readonly name: string;
  readonly empty: boolean;
  /** Place in the object file, in bytes. */
  readonly offset: number;
  readonly size: number;
}

interface ObjectSymbol {
  readonly name: string;
  readonly offset: number;
  readonly size: number;
  readonly section: Section;
}

const TOOLS = {
  avr: {
    cpp: ["avr-g++", "-std=gnu++14"],
    c: ["avr-gcc", "-std=gnu11"],
    machine: ["-mmcu=atmega328p"],
    prefix: "avr-",
  },
  host: { cpp: ["g++", "-std=c++17"], c: ["gcc", "-std=gnu17"], machine: [], prefix: "" },
} as const;

/**
 * Flags that keep every object in the object file as written: no optimisation, no warnings, unused statics and
 * inline functions kept, and narrowing inside braces wraps as it does in C.
 */
const KEEP = ["-c", "-O0", "-w", "-Wno-narrowing", "-fkeep-inline-functions", "-Dstatic=__attribute__((used)) static"];

/**
 * Compiles a C++ file (`.c`: a C file) and returns the bytes of every data object in it, by its qualified name
 * (`ns::icon`, `draw()::icon`). Throws with the compiler's message where it does not compile, and where two objects
 * share a qualified name but not their bytes.
 */
export async function compileBytes(file: string, options: CompileOptions): Promise<Map<string, StoredObject>> {
  const folder = await mkdtemp(join(tmpdir(), "oracle-"));
  try {
    const object = await compile(resolve(file), options, folder);
    return await readObjects(object, options.target, folder, await readSections(object));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** The part of a qualified name that its declaration spells: `icon` of `ns::draw(int)::icon`. */
export function bareName(qualified: string): string {
  const at = qualified.lastIndexOf("::");
  return at < 0 ? qualified : qualified.slice(at + 2);
}

/**
 * The elements that little-endian bytes hold, `elementBits` wide; those of 64 bits as decimal strings, because a
 * double does not hold them all. Throws a RangeError where the bytes are not whole elements.
 */
export function elementsOf(bytes: Uint8Array, elementBits: number, signed: boolean): readonly (number | string)[] {
  const width = elementBits / 8;
  if (![1, 2, 4, 8].includes(width) || bytes.length % width !== 0) {
    throw new RangeError(`${bytes.length} bytes are not whole elements of ${elementBits} bits`);
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  return Array.from({ length: bytes.length / width }, (_, i) => element(view, i * width, width, signed));
}

function element(view: DataView, at: number, width: number, signed: boolean): number | string {
  if (width === 1) return signed ? view.getInt8(at) : view.getUint8(at);
  if (width === 2) return signed ? view.getInt16(at, true) : view.getUint16(at, true);
  if (width === 4) return signed ? view.getInt32(at, true) : view.getUint32(at, true);
  return String(signed ? view.getBigInt64(at, true) : view.getBigUint64(at, true));
}

async function compile(file: string, options: CompileOptions, folder: string): Promise<string> {
  const tools = TOOLS[options.target];
  const inC = extname(file) === ".c";
  const [compiler, standard] = inC ? tools.c : tools.cpp;
  const object = join(folder, "unit.o");
  let source = file;
  if (options.probes !== undefined) {
    source = join(folder, `unit${inC ? ".c" : ".cpp"}`);
    await writeFile(source, `#include "${file}"\n${options.probes}\n`);
  }
  const prelude = options.prelude === undefined ? [] : ["-include", options.prelude];
  const includes = (options.includes ?? []).flatMap((path) => ["-I", path]);
  const language = ["-x", inC ? "c" : "c++"];
  await run(compiler, [
    standard,
    ...tools.machine,
    ...KEEP,
    ...prelude,
    ...includes,
    ...language,
    source,
    "-o",
    object,
  ]);
  return object;
}

/** Parses `readelf -SW`: `  [ 9] .data PROGBITS 00000000 000088 000010 00  WA  0   0  8`, by index. */
async function readSections(object: string): Promise<ReadonlyMap<number, Section>> {
  const { stdout } = await run("readelf", ["-SW", object], { maxBuffer: 1 << 28 });
  const rows = stdout.matchAll(/^ *\[ *(\d+)\] (\S+) +([A-Z_]+) +[0-9a-f]+ ([0-9a-f]+) ([0-9a-f]+) /gm);
  const hex = (text = "") => Number.parseInt(text, 16);
  return new Map(
    Array.from(rows, ([, index, name = "", type, offset, size]) => {
      return [Number(index), { name, empty: type === "NOBITS", offset: hex(offset), size: hex(size) }];
    }),
  );
}

/** Parses `readelf -sW --demangle`: `  14: 00000024  2 OBJECT  GLOBAL DEFAULT  9 Icons::leaf`. */
async function readSymbols(object: string, sections: ReadonlyMap<number, Section>): Promise<readonly ObjectSymbol[]> {
  const { stdout } = await run("readelf", ["-sW", "--demangle", object], { maxBuffer: 1 << 28 });
  const rows = stdout.matchAll(/^ *\d+: ([0-9a-f]+) +(\d+|0x[0-9a-f]+) OBJECT +\S+ +\S+ +(\d+) (.+)$/gm);
  const symbols = Array.from(rows, ([, value = "", size, index, qualified = ""]): ObjectSymbol => {
    const name = qualified.trim().replace(/\.\d+$/, "");
    const section = sections.get(Number(index));
    if (!section) throw new Error(`section ${index} of ${name} is not in the section table`);
    return { name, offset: Number.parseInt(value, 16), size: Number(size), section };
  });
  return symbols.filter(({ name }) => !/^(guard variable|vtable|typeinfo|VTT) /.test(name));
}

async function readObjects(
  object: string,
  target: CompileTarget,
  folder: string,
  sections: ReadonlyMap<number, Section>,
): Promise<Map<string, StoredObject>> {
  const filled = new Map<Section, Uint8Array>();
  const objects = new Map<string, StoredObject>();
  for (const { name, offset, size, section } of await readSymbols(object, sections)) {
    const all = filled.get(section) ?? (await sectionBytes(object, target, folder, section, sections));
    filled.set(section, all);
    const bytes = Uint8Array.from(all.subarray(offset, offset + size));
    if (bytes.length !== size) throw new Error(`${name} ends outside section ${section.name}`);
    const other = objects.get(name);
    if (other && Buffer.compare(other.bytes, bytes) !== 0) throw new Error(`two different objects are named ${name}`);
    objects.set(name, { section: section.name, bytes });
  }
  return objects;
}

async function sectionBytes(
  object: string,
  target: CompileTarget,
  folder: string,
  { name, empty, offset, size }: Section,
  sections: ReadonlyMap<number, Section>,
): Promise<Uint8Array> {
  if (empty) return new Uint8Array(size);
  // A section to each array would be a program to start for each: readelf has told where it lies.
  if (name.startsWith(".art.")) return (await readFile(object)).subarray(offset, offset + size);
  // objcopy picks by name; avr-gcc makes a second .progmem.data for data of inline functions that is placed twice.
  const namesakes = [...sections.values()].filter((section) => section.name === name);
  if (namesakes.length > 1) return (await readFile(object)).subarray(offset, offset + size);
  const out = join(folder, "section.bin");
  const flags = ["-j", name, "--set-section-flags", `${name}=alloc,contents`];
  await run(`${TOOLS[target].prefix}objcopy`, ["-O", "binary", ...flags, object, out]);
  return readFile(out);
}
