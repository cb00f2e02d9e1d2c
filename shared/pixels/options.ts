/**
 * The options of annotations: their spelling, their values and on which markers they may stand. One table; a new
 * option is a row in it. Meaning is given by `bitmap/resolve` and `light/panel`.
 */
import type { Annotation, Marker, Word } from "../source/annotationSyntax.ts";
import { unquote } from "../source/literals.ts";
import type { Span } from "../source/text.ts";
import type { Format } from "./formats.ts";
import { FORMATS } from "./formats.ts";
import type { MotionOptions } from "./motionOptions.ts";
import { MOTION_OPTIONS } from "./motionOptions.ts";
import type { OptionRow } from "./optionRows.ts";
import { BITMAP, BOTH, CURRENT, choice, LENGTH, name, STORED, unit, whole } from "./optionRows.ts";
import { readWire } from "./wireWords.ts";
import { nearest } from "./words.ts";

type Cap = { readonly value: number } | { readonly percent: number };

/** Every option that has been given, with its value in the unit its name says. */
export interface Options {
  width?: number;
  height?: number;
  format?: Format;
  pack?: "rows" | "columns" | "pages" | "each";
  bits?: "msb" | "lsb";
  pad?: "element" | "byte" | "16" | "32" | "frame" | "none";
  spare?: "last" | "first";
  bytes?: "be" | "le";
  scan?: "rows" | "columns" | "serpentine" | "serpentine-columns";
  from?: "top-left" | "top-right" | "bottom-left" | "bottom-right";
  skip?: number;
  lead?: number;
  frames?: number;
  /** Frames a second. */
  fps?: number;
  /** Code point of the first character of a glyph set. */
  first?: number;
  /** Code points of the characters of a glyph set. */
  chars?: readonly number[];
  widths?: string;
  invert?: boolean;
  cap?: Cap;
  /** The cap by night, when the firmware scales all values by night/cap. */
  night?: Cap;
  /** Share of full scale that the firmware scales to, above 0 and up to 1. */
  drive?: number;
  /** Milliamperes of one channel at full value, of a dark pixel, and of the supply. */
  full?: number;
  idle?: number;
  budget?: number;
  /** Share of time that a row is driven. */
  duty?: number;
  /** Bits a second. */
  bus?: number;
  /** Bits on the wire for each bit of data, 1 or more. */
  overhead?: number;
  light?: "linear" | "srgb";
  tint?: string;
  lattice?: "square" | "diamond";
  dot?: "round" | "square";
  /** Degrees clockwise. */
  mount?: 0 | 90 | 180 | 270;
  /** Millimetres. */
  pitch?: number;
  distance?: number;
  palette?: string;
  order?: "driver";
  wire?: string;
  entries?: boolean;
  /** It is a mask, and not shown itself. */
  mask?: true;
}

export type OptionKey = keyof Options;

/** Something wrong with an annotation, on the word at fault; `suggestion` replaces that span. */
export interface WordProblem extends Span {
  readonly code: "annotation" | "unknown-panel" | "wiring";
  readonly message: string;
  readonly suggestion?: string | undefined;
  /** An error where missing. */
  readonly severity?: "warning" | "information";
  readonly related?: readonly Related[];
}

/** Another place that a problem is about: lines and columns from 0, in UTF-16 units. */
export interface Related {
  /** The file by the name that no other file has. */
  readonly id: string;
  readonly file: string;
  readonly line: number;
  readonly start: number;
  readonly end: number;
  readonly message: string;
}

const OPTIONS: Readonly<Record<string, OptionRow>> = {
  pack: choice(
    STORED,
    ["rows", "columns", "pages", "each"],
    "Which pixels share an element: along a row, down a column, down a column within bands of 8 rows, or none.",
  ),
  bits: choice(
    BOTH,
    ["msb", "lsb"],
    "Which end of an element holds the first pixel. Default: `msb` for rows, `lsb` for columns and pages.",
  ),
  pad: choice(
    BOTH,
    ["element", "byte", "16", "32", "frame", "none"],
    "Where each row (column) starts afresh. Default: on a new element.",
  ),
  spare: choice(BOTH, ["last", "first"], "Whether the unused bits of a row lie after its pixels or before them."),
  bytes: choice(
    STORED,
    ["be", "le"],
    "Order of bytes in a pixel or a wide element. Default: `be`; `le` with `bits=lsb`.",
  ),
  scan: choice(
    BOTH,
    ["rows", "columns", "serpentine", "serpentine-columns"],
    "Order of whole pixels, one or more elements each.",
  ),
  from: choice(BOTH, ["top-left", "top-right", "bottom-left", "bottom-right"], "The corner where reading begins."),
  skip: whole(["bitmap", "palette"], 0, "Leading elements of the array that are not pixels."),
  lead: whole(BITMAP, 0, "Leading elements of every frame that are not pixels."),
  frames: whole(BITMAP, 1, "Frames in the array."),
  fps: { ...unit(BITMAP, { "": 1 }, "frames a second, such as 20", "Frames a second.") },
  first: {
    on: BITMAP,
    form: "a character such as 'A', or U+0041",
    doc: "The first character of a glyph set, one glyph a frame.",
    parse: character,
  },
  chars: {
    on: BITMAP,
    form: 'the characters in quotes, such as "0123456789:"',
    doc: "The characters of a glyph set, one a frame.",
    parse: characters,
  },
  widths: name(BITMAP, "the name of an array", "Array of glyph widths."),
  invert: { on: BOTH, flag: true, form: "a bare word", doc: "0 is lit.", parse: () => true },
  entries: {
    on: BITMAP,
    flag: true,
    form: "a bare word",
    doc: "The annotation holds for each entry of the table of structs after it.",
    parse: () => true,
  },
  cap: { on: BOTH, form: "a value such as 64, or a percentage such as 25%", doc: "Highest value allowed.", parse: cap },
  night: {
    on: BOTH,
    form: "a value such as 16, or a percentage such as 5%",
    doc: "Highest value by night, when the firmware scales all values by `night`/`cap`, rounded down.",
    parse: cap,
  },
  mask: {
    on: BITMAP,
    flag: true,
    form: "a bare word",
    doc: "A mask, which is not shown itself: `cap`, `budget` and flashes are not judged.",
    parse: () => true,
  },
  drive: {
    on: BOTH,
    form: "a percentage above 0%, up to 100%",
    doc: "The firmware scales values by this before output.",
    parse: percentage,
  },
  full: unit(BOTH, CURRENT, "a current such as 5mA", "Current of one channel at full value."),
  idle: unit(BOTH, CURRENT, "a current such as 0.5mA", "Current of a dark pixel."),
  budget: unit(BOTH, CURRENT, "a current such as 250mA", "Supply limit for a frame."),
  duty: {
    on: BOTH,
    form: "a share such as 1/9",
    doc: "Share of time a row is driven, where `full` is a peak.",
    parse: share,
  },
  bus: unit(
    BOTH,
    { "": 1, k: 1e3, M: 1e6 },
    "bits a second, such as 400k",
    "Bits a second to the display, for the time that a frame takes to send.",
  ),
  overhead: {
    on: BOTH,
    form: "a ratio of 1 or more such as 9/8, which is that of I²C",
    doc: "Bits on the bus for each bit of data.",
    parse: ratio,
  },
  light: choice(BOTH, ["linear", "srgb"], "What a value means: duty, which is linear light; or a display code value."),
  tint: {
    on: BOTH,
    form: "a colour such as #ffb84d",
    doc: "Colour of a lit pixel.",
    parse: (v) => (/^#[0-9a-fA-F]{6}$/.test(v) ? v : undefined),
  },
  lattice: choice(BOTH, ["square", "diamond"], "How the pixels stand: in rows, or turned by 45°."),
  dot: choice(BOTH, ["round", "square"], "Shape of a pixel."),
  mount: choice(BOTH, ["0", "90", "180", "270"], "How the panel hangs, in degrees clockwise.", Number),
  pitch: unit(BOTH, LENGTH, "a length such as 3mm", "Distance from pixel to pixel."),
  distance: unit(BOTH, LENGTH, "a length such as 500mm", "Distance from which the panel is looked at."),
  palette: { ...name(BOTH, "the name of a palette array, or `head`", "The colours of a palette format.") },
  order: choice(BITMAP, ["driver"], "This array is stored in driver order."),
  wire: {
    on: ["panel"],
    form: "parts joined by `;`, such as serpentine;bottom-right",
    doc: "Where each pixel sits at the driver: its canvas `WxH`, blocks `wxh@X,Y>x,y` with `/90`, `/180`, `/270` or `/mirror`, the order of addresses in each block and the corner where they begin.",
    parse: (v) => (v === "" ? undefined : v),
    judge: (v) => readWire(v).problems,
  },
};

function character(value: string): number | undefined {
  const unicode = /^U\+([0-9a-fA-F]{1,6})$/.exec(value);
  if (unicode) {
    const point = Number.parseInt(unicode[1] as string, 16);
    return point <= 0x10ffff ? point : undefined;
  }
  if (value === "'''") return 39;
  if (!/^'.+'$/su.test(value)) return undefined;
  const points = codePoints(value.slice(1, -1));
  return points?.length === 1 ? points[0] : undefined;
}

function characters(value: string): number[] | undefined {
  if (value.length < 3 || !value.startsWith('"') || !value.endsWith('"')) return undefined;
  return codePoints(value.slice(1, -1));
}

function codePoints(inside: string): number[] | undefined {
  const points: number[] = [];
  for (const part of inside.match(/\\(?:x[0-9a-fA-F]+|[0-7]{1,3}|u[0-9a-fA-F]{4}|U[0-9a-fA-F]{8}|[\s\S])|[\s\S]/gu) ??
    []) {
    const universal = /^\\[uU]([0-9a-fA-F]+)$/.exec(part);
    if (universal) points.push(Number.parseInt(universal[1] as string, 16));
    else if (!part.startsWith("\\")) points.push(part.codePointAt(0) as number);
    else {
      const units = unquote(part);
      if (units?.length !== 1) return undefined;
      points.push(units[0] as number);
    }
  }
  return points;
}

function cap(value: string): Cap | undefined {
  if (/^\d{1,9}$/.test(value)) return { value: Number(value) };
  const percent = /^(\d+(?:\.\d+)?)%$/.exec(value);
  return percent && Number(percent[1]) <= 100 ? { percent: Number(percent[1]) } : undefined;
}

function percentage(value: string): number | undefined {
  const m = /^(\d+(?:\.\d+)?)%$/.exec(value);
  return m && Number(m[1]) > 0 && Number(m[1]) <= 100 ? Number(m[1]) / 100 : undefined;
}

function share(value: string): number | undefined {
  const m = /^(\d{1,5})\/(\d{1,5})$/.exec(value);
  if (!m || Number(m[1]) < 1 || Number(m[1]) > Number(m[2])) return undefined;
  return Number(m[1]) / Number(m[2]);
}

function ratio(value: string): number | undefined {
  const m = /^(\d{1,5})\/(\d{1,5})$/.exec(value);
  if (!m || Number(m[2]) < 1 || Number(m[1]) < Number(m[2])) return undefined;
  return Number(m[1]) / Number(m[2]);
}

const MOST_PROBLEMS = 20;

/** Widest and tallest picture that an annotation may ask for. */
const MOST_SIDE = 65535;

/** Reads a size such as `9x9`; a problem for one that no picture can have; undefined for a word that is no size. */
export function readSize(text: string): { width: number; height: number } | { problem: string } | undefined {
  const m = /^(\d+)x(\d+)$/.exec(text);
  if (!m) return undefined;
  const [width, height] = [Number(m[1]), Number(m[2])];
  if (width < 1 || height < 1) return { problem: `A size is at least 1x1, not ${text}.` };
  if (width > MOST_SIDE || height > MOST_SIDE)
    return { problem: `${text} is larger than any display; a side is at most ${MOST_SIDE}.` };
  return { width, height };
}

/** The row of an option on a marker; undefined where it may not stand there. */
export function rowOf(marker: Marker, key: string): OptionRow | undefined {
  const row = marker === "motion" ? MOTION_OPTIONS[key] : OPTIONS[key];
  return row?.on.includes(marker) ? row : undefined;
}

export interface ParsedAnnotation {
  readonly options: Options;
  /** Those of an `@motion`, whose words mean something else. */
  readonly motion: MotionOptions;
  /** The word that gave each option. */
  readonly words: ReadonlyMap<string, Word>;
  /** Bare words that are no option: the name of a panel. */
  readonly name: Word | undefined;
  readonly problems: readonly WordProblem[];
}

interface Vocabulary {
  readonly keys: readonly string[];
  readonly flags: readonly string[];
}

const vocabularies = new Map<Marker, Vocabulary>();

/** Keys and bare words that an annotation of this marker may hold (panel names aside). */
export function wordsFor(marker: Marker): Vocabulary {
  const known = vocabularies.get(marker) ?? vocabularyOf(marker);
  vocabularies.set(marker, known);
  return known;
}

function vocabularyOf(marker: Marker): Vocabulary {
  const rows = Object.entries(marker === "motion" ? MOTION_OPTIONS : OPTIONS).filter(([, o]) => o.on.includes(marker));
  const flags = rows.filter(([, o]) => o.flag).map(([key]) => key);
  const keys = rows.filter(([, o]) => !o.flag).map(([key]) => key);
  const formats = [...FORMATS.values()].filter((f) => marker !== "palette" || f.kind !== "palette").map((f) => f.name);
  const named = marker === "wiring" || marker === "motion" ? [] : formats;
  return { keys, flags: [...flags, ...named] };
}

/** Reads the words of one annotation. `panels` are the names that a bare word may mean. */
export function parseOptions(
  annotation: Annotation,
  panels: Pick<ReadonlySet<string>, "has"> & Iterable<string>,
): ParsedAnnotation {
  const { marker } = annotation;
  const options: Record<string, unknown> = {};
  const words = new Map<string, Word>();
  const problems: WordProblem[] = [];
  let panel: Word | undefined;
  const { keys, flags } = wordsFor(marker);
  const say = (span: Span, message: string, suggestion?: string, code: WordProblem["code"] = "annotation") =>
    problems.push({ start: span.start, end: span.end, code, message, suggestion });
  const keep = (key: string, value: unknown, word: Word) => {
    const before = words.get(key);
    if (before) {
      const what = key === "size" || key === "format" ? `a ${key}` : `\`${key}\``;
      say(word, `${cap1(what)} is already given here (${before.text}).`);
      return;
    }
    words.set(key, word);
    if (key !== "size") options[key] = value;
  };
  for (const word of annotation.words) {
    // Text that is no annotation at all is not worth a finding on every word.
    if (problems.length >= MOST_PROBLEMS) break;
    if (word.key === undefined) bare(word);
    else valued(word, word.key, word.value ?? "");
  }
  const isMotion = marker === "motion";
  return {
    options: isMotion ? {} : (options as Options),
    motion: isMotion ? (options as MotionOptions) : {},
    words,
    name: panel,
    problems,
  };

  function bare(word: Word): void {
    const size = marker === "motion" || marker === "palette" ? undefined : readSize(word.text);
    if (size && "problem" in size) {
      // The size counts as given, so that it is not reported missing as well.
      words.set("size", word);
      say(word, size.problem);
    } else if (size) {
      keep("size", undefined, word);
      if (words.get("size") === word) Object.assign(options, size);
    } else if (marker === "panel" && panel === undefined && annotation.words[0] === word) nameOfPanel(word);
    else if (marker === "palette" && FORMATS.get(word.text)?.kind === "palette") {
      // It counts as given, so that no format is asked for as well.
      words.set("format", word);
      say(word, `The colours of a palette can't be indices themselves: not \`${word.text}\`, but such as rgb565.`);
    } else if (FORMATS.has(word.text) && marker !== "wiring" && marker !== "motion")
      keep("format", FORMATS.get(word.text), word);
    else if (flags.includes(word.text)) keep(word.text, true, word);
    else if (keys.includes(word.text)) say(word, `\`${word.text}\` needs a value: ${rowOf(marker, word.text)?.form}.`);
    else if (marker === "palette") {
      const near = nearest(word.text, flags);
      say(word, `\`${word.text}\` is not a word of @palette: expected the format of its colours.${meant(near)}`, near);
    } else if (panels.has(word.text) && marker !== "panel") setPanel(word);
    else unknown(word);
  }

  function nameOfPanel(word: Word): void {
    const wrong = panelNameProblem(word.text);
    if (wrong !== undefined) say(word, wrong);
    else panel = word;
  }

  function setPanel(word: Word): void {
    if (panel) say(word, `A panel is already named here (${panel.text}).`);
    else panel = word;
  }

  function unknown(word: Word): void {
    const vocabulary = [...flags, ...keys.map((key) => `${key}=`)];
    const near = nearest(word.text, [...panels, ...vocabulary]);
    const mayName = marker !== "panel" && /^[A-Za-z_][\w-]*$/.test(word.text) && panel === undefined;
    const couldBe = near === undefined ? marker !== "motion" : panels.has(near);
    if (mayName && couldBe) {
      panel = word;
      say(word, `No panel \`${word.text}\` is known here.${meant(near)}`, near, "unknown-panel");
    } else if (near !== undefined && !panels.has(near)) {
      say(word, `\`${word.text}\` is not a word of @${marker}.${meant(near)}`, near);
    } else say(word, `\`${word.text}\` is not a word of @${marker}: expected a size, a panel, a format or an option.`);
  }

  function valued(word: Word, key: string, value: string): void {
    if (!keys.includes(key)) {
      if (flags.includes(key)) say(word, `\`${key}\` takes no value.`, key);
      else {
        const elsewhere = OPTIONS[key] ?? MOTION_OPTIONS[key];
        const near = nearest(key, keys);
        const where = elsewhere
          ? `\`${key}\` belongs on @${elsewhere.on.join(" or @")}, not on @${marker}.`
          : `\`${key}\` is not an option of @${marker}.${meant(near)}`;
        say(
          elsewhere ? word : { start: word.start, end: word.start + key.length },
          where,
          elsewhere ? undefined : near,
        );
      }
      return;
    }
    const row = rowOf(marker, key) as OptionRow;
    const parsed = row.parse(value);
    if (parsed !== undefined) {
      keep(key, parsed, word);
      for (const { start, end, message, suggestion } of row.judge?.(value) ?? [])
        say({ start: word.valueStart + start, end: word.valueStart + end }, message, suggestion, "wiring");
      return;
    }
    const span = { start: value === "" ? word.start : word.valueStart, end: word.end };
    const near = row.values && value !== "" ? nearest(value, row.values) : undefined;
    const what = value === "" ? `\`${key}\` needs a value` : `\`${value}\` is not a value of \`${key}\``;
    // A bad value still counts as given, so that a second one is reported as repeated.
    if (!words.has(key)) words.set(key, word);
    say(span, `${what}: ${row.form}.${meant(near)}`, near);
  }
}

/** Why a word can't name a panel; undefined for one that can. */
export function panelNameProblem(name: string): string | undefined {
  if (FORMATS.has(name) || (["bitmap", "panel"] as const).some((marker) => wordsFor(marker).flags.includes(name)))
    return `A panel needs a name before its options, and it may not be a format or a flag such as \`${name}\`.`;
  if (readSize(name)) return `A panel needs a name before its size, such as \`lantern ${name}\`.`;
  if (!/^[A-Za-z_][\w-]*$/.test(name))
    return `\`${name}\` can't be a panel's name: letters, digits, \`_\` and \`-\`, a letter first.`;
  return undefined;
}

function meant(near: string | undefined): string {
  return near === undefined ? "" : ` Did you mean \`${near}\`?`;
}

function cap1(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
