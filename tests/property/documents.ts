/** Random source files whose arrays are known beforehand: what each element holds, where each name and drawing stands. */
import fc from "fast-check";
import type { Format } from "../../shared/pixels/formats.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import type { Arrangement, Layout } from "../../shared/pixels/layout.ts";
import { isWhole, layOut } from "../../shared/pixels/layout.ts";
import { FILLERS, GAPS, NOTES } from "./fillers.ts";
import { STYLES } from "./spellings.ts";

const SCANS = ["rows", "columns", "serpentine", "serpentine-columns"] as const;
const CORNERS = ["top-left", "top-right", "bottom-left", "bottom-right"] as const;
/** Mostly the default, so that small counterexamples are found. */
const seldom = <T>(values: readonly T[]) => fc.option(fc.constantFrom(...values), { nil: undefined, freq: 3 });

/** Elements that the pixels divide into: 24 bits do not go into 16, and a whole pixel may be wider than its element. */
function fitting<T extends { format: string; elementBits: 8 | 16 | 32 | 64; pack?: string | undefined }>(c: T): T {
  const depth = FORMATS.get(c.format)?.depth ?? 8;
  const elementBits = depth > c.elementBits && (depth % c.elementBits !== 0 || c.pack === "each") ? 32 : c.elementBits;
  return { ...c, elementBits };
}

/** All that decides where pixels sit; undefined options are left to their defaults. */
const arrangements = fc
  .record({
    width: fc.integer({ min: 1, max: 12 }),
    height: fc.integer({ min: 1, max: 10 }),
    frames: fc.constantFrom(1, 1, 1, 2, 3),
    format: fc.oneof(
      { weight: 2, arbitrary: fc.constantFrom("gray8", "mono1") },
      { weight: 3, arbitrary: fc.constantFrom(...FORMATS.keys()) },
    ),
    elementBits: fc.constantFrom<8 | 16 | 32 | 64>(8, 8, 8, 16, 32, 64),
    pack: seldom(["rows", "columns", "pages", "each"] as const),
    bits: seldom(["msb", "lsb"] as const),
    pad: seldom(["element", "byte", "16", "32", "frame", "none"] as const),
    spare: seldom(["last", "first"] as const),
    bytes: seldom(["be", "le"] as const),
    scan: seldom(SCANS),
    from: seldom(CORNERS),
    skip: seldom([1, 2, 3]),
    lead: seldom([1, 2]),
    invert: fc.option(fc.constant(true), { nil: false, freq: 3 }),
  })
  .map(fitting);
type Choices = typeof arrangements extends fc.Arbitrary<infer T> ? T : never;

/** The words of the annotation for these choices, and the arrangement that they mean (the table of defaults). */
export function meaningOf(c: Choices): { words: string; arrangement: Arrangement; layout: Layout } {
  const format = FORMATS.get(c.format) as Format;
  const mixed = format.depth >= 8 && (c.pack === "columns" || c.pack === "pages");
  const pack = mixed ? undefined : c.pack;
  const whole = isWhole(format, pack ?? "rows");
  const scan = whole ? c.scan : undefined;
  const bits = c.bits ?? (pack === "columns" || pack === "pages" ? "lsb" : "msb");
  const bytes = c.bytes ?? (bits === "lsb" ? "le" : "be");
  const { width, height, frames, elementBits } = c;
  const arrangement: Arrangement = {
    width,
    height,
    frames,
    elementBits,
    format,
    bits,
    bytes,
    pack: pack ?? "rows",
    pad: c.pad ?? "element",
    spare: c.spare ?? "last",
    scan: scan ?? "rows",
    from: c.from ?? "top-left",
    skip: c.skip ?? 0,
    lead: c.lead ?? 0,
  };
  const given = {
    pack,
    bits: c.bits,
    pad: c.pad,
    spare: c.spare,
    bytes: c.bytes,
    scan,
    from: c.from,
    skip: c.skip,
    lead: c.lead,
  };
  const options = Object.entries(given).flatMap(([key, value]) => (value === undefined ? [] : [`${key}=${value}`]));
  const all = [
    `${width}x${height}`,
    c.format,
    frames > 1 ? `frames=${frames}` : "",
    c.invert ? "invert" : "",
    ...options,
  ];
  const layout = layOut(arrangement);
  if ("why" in layout) throw new Error(layout.why);
  return { words: all.filter((w) => w !== "").join(" "), arrangement, layout };
}

const values = fc.oneof(
  fc.constantFrom(0n, 1n, 16n, 32n, 64n, 255n),
  fc.bigInt({ min: 0n, max: 255n }),
  fc.bigInt({ min: 0n, max: (1n << 64n) - 1n }),
);

/** Lists of at least one choice, used over and over. */
const cycle = <T>(choice: fc.Arbitrary<T>, most = 12) => fc.array(choice, { minLength: 1, maxLength: most });

export const arrayPlans = fc.record({
  name: fc.constantFrom<string>("drop", "leaf", "sun", "moon"),
  choices: arrangements,
  signed: fc.option(fc.constant(true), { nil: false, freq: 3 }),
  cells: cycle(fc.record({ value: values, style: fc.constantFrom(...STYLES) }), 24),
  gaps: cycle(fc.nat(GAPS.length - 1), 6),
  shape: fc.constantFrom("flat", "flat", "nested", "elided"),
  inner: fc.nat(7),
  /** Elements left to the compiler at the end, and at the ends of inner lists. */
  cut: fc.constantFrom(0, 0, 0, 1, 2, 5, 999),
  rowCuts: cycle(fc.constantFrom(0, 0, 0, 1, 99), 4),
  declared: fc.constantFrom("empty", "number", "expression"),
  head: fc.nat(7),
  annotate: fc.constantFrom("line", "block", "doxygen", "lines", "inside"),
  perLine: fc.constantFrom<"row" | number>("row", "row", 0, 1, 3, 8),
  drawing: fc.constantFrom("none", "line", "block", "spaced", "stale"),
  trailing: fc.boolean(),
  filler: fc.nat(FILLERS.length - 1),
  note: fc.nat(NOTES.length),
});
export type ArrayPlan = typeof arrayPlans extends fc.Arbitrary<infer T> ? T : never;

const styles = fc.record({
  file: fc.constantFrom("art.cpp", "art.ino", "art.h"),
  eol: fc.constantFrom("\n", "\n", "\r\n"),
  indent: fc.constantFrom("  ", "\t", ""),
  bom: fc.boolean(),
  finalBreak: fc.boolean(),
});
export type FileStyle = typeof styles extends fc.Arbitrary<infer T> ? T : never;

/** A file with a few arrays, all annotated. */
export const documents = (most = 3) =>
  fc.record({ style: styles, arrays: fc.array(arrayPlans, { minLength: 1, maxLength: most }) });
export type Plan = { readonly style: FileStyle; readonly arrays: readonly ArrayPlan[] };
