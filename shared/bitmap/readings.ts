/** The readings of an array that a claimed size allows: formats and packings whose length fits exactly. */
import type { Format, FormatName } from "../pixels/formats.ts";
import { FORMATS } from "../pixels/formats.ts";
import type { Arrangement } from "../pixels/layout.ts";
import type { Claim, Hints } from "./evidence/claim.ts";
import { countsUpTo, isOrderedTable } from "./evidence/notPixels.ts";
import type { Subject } from "./evidence/subject.ts";

export interface Reading {
  readonly claim: Claim;
  readonly arrangement: Arrangement;
  /** Better than others by habit and hints; to be compared within one array. */
  readonly habit: number;
  /** The frames were not stated but follow from the length. */
  readonly counted: boolean;
}

const MOST_FRAMES = 4096;

/** What the values as a whole allow; one pass. */
export interface Profile {
  readonly most: number;
  /** 0 and one other value, and nothing else. */
  readonly twoValued: boolean;
  /** Values that are no picture of one number a pixel: a permutation, or only rising or falling. */
  readonly ordered: boolean;
  /** Only rising, or only falling. */
  readonly monotone: boolean;
}

export function profileOf(subject: Subject): Profile {
  const { bits, count } = subject;
  let most = 0;
  let other = 0;
  let twoValued = true;
  let rising = 0;
  let falling = 0;
  for (let i = 0; i < count; i++) {
    const value = Number(bits[i]);
    if (value > most) most = value;
    if (i > 0 && value >= Number(bits[i - 1])) rising++;
    if (i > 0 && value <= Number(bits[i - 1])) falling++;
    if (value === 0 || value === other) continue;
    if (other === 0) other = value;
    else twoValued = false;
  }
  const monotone = rising === count - 1 || falling === count - 1;
  return { most, twoValued: twoValued && other > 0, ordered: monotone || isOrderedTable(subject), monotone };
}

type Packing = Partial<Arrangement> & { readonly habit: number };

/** All readings of the claimed size; `hints` are what the comments say of format and packing. */
export function readingsOf(subject: Subject, claim: Claim, hints: Hints, profile: Profile): Reading[] {
  const { count } = subject;
  const { width, height, skip = 0 } = claim;
  const readings: Reading[] = [];
  if (width > 65535 || height > 65535) return readings;
  // Three by three is a filter sooner than a picture.
  if (!subject.pictured && (width < 5 || height < 5) && !claim.drawn) return readings;
  for (const [name, packings] of packingsOf(subject, claim, hints, profile)) {
    const only = claim.hints?.formats;
    if (only && !only.includes(name) && !hints.formats?.includes(name)) continue;
    const format = FORMATS.get(name) as Format;
    for (const { habit, ...packing } of packings) {
      const arrangement = arrange(subject, claim, format, packing);
      const one = elementsOfFrame(arrangement);
      const frames = claim.frames ?? (count - skip) / one;
      if (!Number.isInteger(frames) || frames < 1 || frames > MOST_FRAMES || one * frames + skip !== count) continue;
      if (frames === 1 && countsUpTo(subject, width * height) && !claim.drawn) continue;
      const counted = claim.frames === undefined && frames > 1;
      const own = claim.hints ? hinted(arrangement, claim.hints) : 0;
      // What follows from the form of the evidence itself rules others out, but is no second reason for its own.
      const better = habit + hinted(arrangement, hints) + (claim.kind === "descriptor" ? own : Math.min(0, own));
      readings.push({ claim, arrangement: { ...arrangement, frames }, habit: better, counted });
    }
  }
  return readings;
}

function packingsOf(
  subject: Subject,
  claim: Claim,
  hints: Hints,
  { most, twoValued, ordered, monotone }: Profile,
): [FormatName, Packing[]][] {
  const { size, pictured } = subject;
  const { width, height } = claim;
  const all: [FormatName, Packing[]][] = [];
  const says = (name: FormatName) => hints.formats?.includes(name) || claim.hints?.formats?.includes(name) || false;
  const pixels = pictured || claim.panel !== undefined || claim.pictured === true;
  const mono: Packing[] = [
    { habit: 0, pack: "rows", bits: "msb" },
    // X bitmaps end in `_bits`, and so do some that have lost their defines.
    { habit: /_bits$/.test(subject.array.name) ? 0.01 : -0.05, pack: "rows", bits: "lsb" },
  ];
  if (width % size !== 0) {
    mono.push({ habit: -0.04, pack: "rows", bits: "msb", spare: "first" });
    mono.push({ habit: -0.15, pack: "rows", bits: "lsb", spare: "first" });
    if (size === 8) mono.push({ habit: -0.16, pack: "rows", bits: "msb", pad: "frame" });
    if (size === 8) mono.push({ habit: -0.22, pack: "rows", bits: "lsb", pad: "frame" });
    if (size > 8 && width > size) mono.push({ habit: -0.1, pack: "rows", bits: "msb", pad: "byte" });
  }
  if (height <= size) {
    mono.push({ habit: -0.03, pack: "columns", bits: "lsb" }, { habit: -0.11, pack: "columns", bits: "msb" });
    if (height % size !== 0) mono.push({ habit: -0.12, pack: "columns", bits: "msb", spare: "first" });
  } else {
    if (size === 8)
      mono.push({ habit: -0.02, pack: "pages", bits: "lsb" }, { habit: -0.14, pack: "pages", bits: "msb" });
    mono.push({ habit: -0.13, pack: "columns", bits: "lsb" }, { habit: -0.15, pack: "columns", bits: "msb" });
  }
  // Small numbers leave the high bits of every byte dark, which no picture without a name is trusted to do.
  const small = size === 8 && most < 32 && width % 8 === 0 && !claim.drawn;
  const flags = twoValued && most === 1 && subject.count >= 12;
  if (!flags && (pixels || !(monotone || small))) all.push(["mono1", mono]);
  if (twoValued)
    all.push(["mono1", [{ habit: most === 1 ? 0.2 : most === 255 ? 0 : -0.1, pack: "each", bits: "msb" }]]);
  // One number a pixel is what any table looks like: words or a wide range of values must speak for a picture.
  if (!ordered && most > 1 && most <= 255 && (pixels || says("gray8") || most >= 32)) {
    all.push(["gray8", [{ habit: most < 32 && !says("gray8") ? -0.09 : -0.04, pack: size === 8 ? "rows" : "each" }]]);
  }
  if (says("rgb332") && size === 8) all.push(["rgb332", [{ habit: 0, pack: "rows" }]]);
  if (size === 16 && !ordered && most > 255) all.push(["rgb565", [{ habit: 0, pack: "rows" }]]);
  if (size === 32 && !ordered && most > 0xffff && most <= 0xffffff)
    all.push(["rgb888", [{ habit: -0.05, pack: "rows" }]]);
  if (size !== 8 || !(pixels || says("gray2") || says("gray4") || says("rgb565") || says("rgb888"))) return all;
  if (!ordered) {
    all.push([
      "rgb565",
      [
        { habit: -0.08, pack: "rows", bytes: "be" },
        { habit: -0.09, pack: "rows", bytes: "le" },
      ],
    ]);
    all.push(["rgb888", [{ habit: -0.12, pack: "rows", bytes: "be" }]]);
  }
  for (const name of ["gray4", "gray2"] as const) {
    const less = says(name) ? 0 : -0.1;
    all.push([
      name,
      [
        { habit: less - 0.04, pack: "rows", bits: "msb" },
        { habit: less - 0.1, pack: "rows", bits: "lsb" },
      ],
    ]);
  }
  return all;
}

function arrange({ size }: Subject, claim: Claim, format: Format, packing: Partial<Arrangement>): Arrangement {
  const pack = packing.pack ?? "rows";
  const bits = packing.bits ?? (pack === "rows" || pack === "each" ? "msb" : "lsb");
  return {
    width: claim.width,
    height: claim.height,
    frames: 1,
    format,
    elementBits: size,
    pack,
    bits,
    pad: packing.pad ?? "element",
    spare: packing.spare ?? "last",
    bytes: packing.bytes ?? (bits === "lsb" ? "le" : "be"),
    scan: "rows",
    from: "top-left",
    skip: claim.skip ?? 0,
    lead: 0,
  };
}

/** Elements of one frame, as `layOut` counts them; worked out here because nearly all readings fall by this. */
function elementsOfFrame({ width, height, format, elementBits: size, pack, pad }: Arrangement): number {
  const { depth } = format;
  if (pack === "each") return width * height;
  if (depth >= size) return (width * height * depth) / size;
  if (depth >= 8 && size % depth !== 0) return width * height;
  if (pack === "columns") return width * Math.ceil((height * depth) / size);
  if (pack === "pages") return Math.ceil(height / 8) * Math.ceil((width * 8) / size);
  if (pad === "frame") return Math.ceil((width * height * depth) / size);
  if (pad === "byte") return Math.ceil((height * Math.ceil((width * depth) / 8) * 8) / size);
  return height * Math.ceil((width * depth) / size);
}

function hinted({ pack, bits, spare, format, height }: Arrangement, hints: Hints): number {
  let sum = 0;
  const whole = pack === "each" && hints.formats?.includes("gray8");
  if (hints.formats) sum += whole || hints.formats.includes(format.name) ? 0.12 : -0.12;
  // A descriptor may give the bits of a pixel beside the size.
  if (format.depth > 1 && hints.numbers?.includes(format.depth)) sum += 0.1;
  if (format.depth >= 8) return sum;
  const shape = pack === "pages" ? "columns" : pack;
  if (hints.pack) {
    sum += (hints.pack === "pages" ? "columns" : hints.pack) === shape ? 0.12 : -0.12;
    if (hints.pack === "pages" && pack === "columns" && height > 8) sum -= 0.1;
  }
  if (hints.bits) sum += hints.bits === bits ? 0.13 : -0.13;
  if (hints.spare) sum += hints.spare === spare ? 0.08 : -0.04;
  return sum;
}

/** The words of an annotation that say this reading. */
export function wordsOf(a: Arrangement): string {
  const usual = a.pack === "rows" || a.pack === "each" ? "msb" : "lsb";
  const whole = a.pack === "each" || a.format.depth >= 8;
  const pack = a.pack === "pages" && a.height <= 8 ? "columns" : a.pack;
  return [
    `${a.width}x${a.height}`,
    a.format.name,
    pack === "rows" ? "" : `pack=${pack}`,
    whole || a.bits === usual ? "" : `bits=${a.bits}`,
    a.pad === "element" ? "" : `pad=${a.pad}`,
    whole || a.spare === "last" ? "" : `spare=${a.spare}`,
    a.format.depth > 8 && a.bytes === "le" ? "bytes=le" : "",
    a.skip > 0 ? `skip=${a.skip}` : "",
    a.frames > 1 ? `frames=${a.frames}` : "",
  ]
    .filter((word) => word !== "")
    .join(" ");
}
