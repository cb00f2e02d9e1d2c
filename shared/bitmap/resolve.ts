/**
 * Array, meaning and picture in one: turns a read source file into its bitmaps. Start here.
 */
import type { Panel, PanelIndex } from "../light/panel.ts";
import { indexPanels, panelOf, withPanel } from "../light/panel.ts";
import type { Format } from "../pixels/formats.ts";
import { FORMATS, READY } from "../pixels/formats.ts";
import type { Layout } from "../pixels/layout.ts";
import { isWhole, layOut } from "../pixels/layout.ts";
import type { Options, ParsedAnnotation, WordProblem } from "../pixels/options.ts";
import { parseOptions } from "../pixels/options.ts";
import type { ElementBits, Pixels } from "../pixels/picture.ts";
import { unpack } from "../pixels/picture.ts";
import type { Word } from "../source/annotationSyntax.ts";
import type { SourceArray } from "../source/arrays.ts";
import { storedBits } from "../source/arrays.ts";
import type { BoundAnnotation, SourceFile } from "../source/read.ts";
import type { Span } from "../source/text.ts";
import { holdsInstead } from "./embedded.ts";
import { framesOf } from "./table.ts";
import { xbmOptions } from "./xbm.ts";

export interface Bitmap {
  readonly array: SourceArray;
  /** undefined for XBM, which needs none. */
  readonly annotation: BoundAnnotation | undefined;
  /** The words that gave this bitmap's own options. */
  readonly words: ReadonlyMap<string, Word>;
  /** Own options over those of the panel. */
  readonly options: Options;
  readonly panel: Panel | undefined;
  readonly width: number;
  readonly height: number;
  readonly frames: number;
  readonly format: Format;
  /** Highest raw value allowed. */
  readonly cap: number | undefined;
  /** Share of full scale that the firmware drives. */
  readonly drive: number;
  readonly invert: boolean;
  /** undefined where the element width is not known or does not fit the pixels. */
  readonly layout: Layout | undefined;
  /** Why there is no picture; undefined for a bitmap that can be shown. */
  readonly why: string | undefined;
  /** What the array holds instead of plain pixels, such as a whole PNG file. */
  readonly instead?: string;
}

export interface BitmapFile {
  readonly source: SourceFile;
  readonly file: string;
  readonly panels: readonly Panel[];
  readonly bitmaps: readonly Bitmap[];
  /** What is wrong with annotations, in order of the text. */
  readonly problems: readonly WordProblem[];
}

/** Most pixels that all frames of one bitmap may have together. */
const MOST_PIXELS = 1 << 24;

/** Resolves the annotations of a file. `known` are panels of other files. */
export function resolveFile(source: SourceFile, file: string, known: PanelIndex = new Map()): BitmapFile {
  const problems: WordProblem[] = [];
  const panels: Panel[] = [];
  for (const annotation of source.annotations) {
    if (annotation.marker !== "panel") continue;
    const parsed = parseOptions(annotation, new Set());
    problems.push(...parsed.problems, ...panelProblems(annotation, parsed, panels));
    const panel = panelOf(parsed, file);
    if (panel) panels.push(panel);
  }
  const index = merge(known, panels);
  const names = new Set(index.keys());
  const bitmaps: Bitmap[] = [];
  const taken = new Set<SourceArray>();
  for (const annotation of source.annotations) {
    if (annotation.marker === "panel") continue;
    const parsed = parseOptions(annotation, names);
    problems.push(...parsed.problems);
    if (annotation.arrays.length === 0 && annotation.marker !== "motion") {
      const message = `This @${annotation.marker} stands before no list of numbers: it must come before the array, with no \`;\` or function between.`;
      problems.push({ ...annotation.markerSpan, code: "annotation", message });
    }
    if (annotation.marker !== "bitmap") {
      problems.push(...needs(annotation, parsed, names));
      continue;
    }
    const meaning = understand(annotation, parsed, index);
    problems.push(...meaning.problems);
    for (const at of annotation.arrays) {
      const array = source.arrays[at] as SourceArray;
      if (taken.has(array)) {
        const message = `${array.name} already has a @bitmap; this second one is not used.`;
        problems.push({ ...annotation.markerSpan, code: "annotation", message });
        break;
      }
      taken.add(array);
      if (!meaning.complete) continue;
      const frames = array.pointers ? framesOf(source, array) : array;
      // A table of pointers has a frame to an entry.
      const options = frames.parts && !parsed.words.has("frames") ? { frames: frames.parts.length } : {};
      bitmaps.push(bitmapOf(frames, annotation, parsed.words, { ...meaning.options, ...options }, meaning.panel));
    }
  }
  const annotated = new Set(bitmaps.map((b) => b.array));
  const marked = new Set(source.annotations.flatMap((a) => (a.marker === "bitmap" ? a.arrays : [])));
  source.arrays.forEach((array, i) => {
    if (annotated.has(array) || marked.has(i) || !array.name.endsWith("bits")) return;
    const options = xbmOptions(source, array);
    if (options) bitmaps.push(bitmapOf(array, undefined, new Map(), options, undefined));
  });
  const placeOf = ({ array }: Bitmap) => (array.parts ? array.nameSpan.start : array.base);
  bitmaps.sort((a, b) => placeOf(a) - placeOf(b) || a.array.node - b.array.node || a.array.first - b.array.first);
  problems.sort((a, b) => a.start - b.start);
  return { source, file, panels, bitmaps, problems };
}

function merge(known: PanelIndex, own: readonly Panel[]): PanelIndex {
  return indexPanels([...own, ...[...known.values()].flat()]);
}

const problem = (span: Span, message: string, suggestion?: string): WordProblem => ({
  start: span.start,
  end: span.end,
  code: "annotation",
  message,
  suggestion,
});

function panelProblems(annotation: BoundAnnotation, parsed: ParsedAnnotation, before: readonly Panel[]): WordProblem[] {
  const { name, options, words } = parsed;
  const at = annotation.markerSpan;
  if (!name)
    return parsed.problems.length > 0
      ? []
      : [problem(at, "A panel needs a name and a size, such as `@panel lantern 9x9`.")];
  if (before.some((p) => p.name === name.text))
    return [problem(name, `A panel \`${name.text}\` is already defined in this file.`)];
  const format = options.format ?? (FORMATS.get("gray8") as Format);
  if (!words.has("size")) return [problem(name, `The panel \`${name.text}\` needs a size, such as 9x9.`)];
  return [...conflictsIn(options, words, format), ...capProblems(options, words, format)];
}

/** What the markers beside `@bitmap` and `@panel` must name. */
function needs(annotation: BoundAnnotation, parsed: ParsedAnnotation, names: ReadonlySet<string>): WordProblem[] {
  if (annotation.marker === "wiring" && !parsed.name && parsed.problems.length === 0) {
    const near = names.size > 0 ? `, such as \`${[...names][0]}\`` : "";
    return [problem(annotation.markerSpan, `An @wiring names the panel whose addresses it holds${near}.`)];
  }
  if (annotation.marker === "palette" && !parsed.options.format && parsed.problems.length === 0) {
    return [problem(annotation.markerSpan, "An @palette names the format of its colours, such as rgb565.")];
  }
  return [];
}

interface Meaning {
  readonly options: Options & { width: number; height: number };
  readonly panel: Panel | undefined;
  readonly problems: readonly WordProblem[];
  readonly complete: boolean;
}

function understand(annotation: BoundAnnotation, parsed: ParsedAnnotation, index: PanelIndex): Meaning {
  const { words, name } = parsed;
  const panel = name ? index.get(name.text)?.[0] : undefined;
  const merged = withPanel(parsed.options, panel);
  const format = merged.format ?? (FORMATS.get("gray8") as Format);
  const problems: WordProblem[] = [];
  const { width = 0, height = 0, frames = 1 } = merged;
  const options = { ...merged, width, height, frames, format };
  if (width === 0) {
    if (!words.has("size") && !name) {
      problems.push(problem(annotation.markerSpan, "A bitmap needs a size, such as 9x9, or the name of a panel."));
    }
    return { options, panel, problems, complete: false };
  }
  if (width * height * frames > MOST_PIXELS) {
    const at = words.get("size") ?? words.get("frames") ?? name ?? annotation.markerSpan;
    problems.push(
      problem(at, `${width}x${height} with ${frames} frames is larger than can be laid out (${MOST_PIXELS} pixels).`),
    );
    return { options, panel, problems, complete: false };
  }
  // A misspelt format would be read as the default one: no picture until it is mended, and no findings from it.
  if (parsed.problems.some((p) => p.suggestion !== undefined && FORMATS.has(p.suggestion))) {
    return { options, panel, problems, complete: false };
  }
  const conflicts = conflictsIn(merged, words, format);
  problems.push(...conflicts, ...capProblems(merged, words, format));
  const chars = words.get("chars");
  if (chars && merged.chars && merged.chars.length !== frames) {
    problems.push(
      problem(
        chars,
        `\`chars\` lists ${merged.chars.length} characters for ${frames} ${frames === 1 ? "frame" : "frames"}.`,
      ),
    );
  }
  return { options, panel, problems, complete: conflicts.length === 0 };
}

/** Options that do not go together, on the word at fault. */
function conflictsIn(options: Options, words: ReadonlyMap<string, Word>, format: Format): WordProblem[] {
  const problems: WordProblem[] = [];
  const pack = options.pack ?? "rows";
  const packWord = words.get("pack");
  const scanWord = words.get("scan");
  if (packWord && format.depth >= 8 && (pack === "columns" || pack === "pages")) {
    const instead = pack === "columns" ? "scan=columns" : undefined;
    const hint = instead ? ` Use \`${instead}\`.` : "";
    problems.push(
      problem(
        packWord,
        `\`pack=${pack}\` can't be combined with ${format.name}, whose pixels fill whole bytes.${hint}`,
        instead,
      ),
    );
  }
  if (scanWord && !isWhole(format, pack) && options.scan) {
    const instead = options.scan === "columns" ? "pack=columns" : undefined;
    problems.push(
      problem(
        scanWord,
        `\`scan=\` can't be combined with ${format.name} and \`pack=${pack}\`, whose pixels share elements.`,
        instead,
      ),
    );
  }
  return problems;
}

function capProblems(options: Options, words: ReadonlyMap<string, Word>, format: Format): WordProblem[] {
  const capWord = words.get("cap");
  if (capWord && options.cap && "value" in options.cap && options.cap.value > format.most) {
    return [
      problem(
        capWord,
        `The cap ${options.cap.value} is above ${format.most}, the highest value of ${format.name}.`,
        `cap=${format.most}`,
      ),
    ];
  }
  return [];
}

function bitmapOf(
  array: SourceArray,
  annotation: BoundAnnotation | undefined,
  words: ReadonlyMap<string, Word>,
  options: Options & { width?: number; height?: number },
  panel: Panel | undefined,
): Bitmap {
  const format = options.format ?? (FORMATS.get("gray8") as Format);
  const { width = 1, height = 1, frames = 1 } = options;
  // A panel's scan or pack that its bitmap's own format rules out is left aside.
  const pack = format.depth >= 8 && options.pack !== "each" ? "rows" : (options.pack ?? "rows");
  const bits = options.bits ?? (pack === "rows" || pack === "each" ? "msb" : "lsb");
  const laid = array.type
    ? layOut({
        width,
        height,
        frames,
        format,
        pack,
        bits,
        elementBits: array.type.bits,
        pad: options.pad ?? "element",
        spare: options.spare ?? "last",
        bytes: options.bytes ?? (bits === "lsb" ? "le" : "be"),
        scan: options.scan ?? "rows",
        from: options.from ?? "top-left",
        skip: options.skip ?? 0,
        lead: options.lead ?? 0,
      })
    : { why: "the element type is not known" };
  const elements = array.readOnly === undefined ? elementsIn(array) : undefined;
  const instead = elements && holdsInstead(elements, "why" in laid ? undefined : laid);
  const layout = "why" in laid || instead ? undefined : laid;
  const unready = READY.has(format.name) ? undefined : `pictures in ${format.name} are not read yet`;
  const why = array.readOnly ?? instead ?? ("why" in laid ? laid.why : undefined) ?? unready;
  return {
    array,
    annotation,
    words,
    options,
    panel,
    width,
    height,
    frames,
    format,
    cap: capOf(options, format),
    drive: options.drive ?? 1,
    invert: options.invert ?? false,
    layout,
    why,
    ...(instead ? { instead } : {}),
  };
}

function capOf(options: Options, format: Format): number | undefined {
  const { cap } = options;
  if (!cap) return undefined;
  // A share of full scale says nothing where a pixel has no levels, or has a value for each colour.
  if ("percent" in cap && format.kind !== "gray") return undefined;
  return "percent" in cap ? Math.floor((format.most * cap.percent) / 100) : Math.min(cap.value, format.most);
}

const bitsOf = new WeakMap<SourceArray, ElementBits>();

/** The array's elements as the compiler stores them; computed once for each version of an array. */
export function elementsOf(bitmap: Bitmap): ElementBits | undefined {
  return elementsIn(bitmap.array);
}

function elementsIn(array: SourceArray): ElementBits | undefined {
  const known = bitsOf.get(array);
  if (known) return known;
  const made = storedBits(array);
  if (made) bitsOf.set(array, made);
  return made;
}

/** Raw pixels of one frame, row by row; undefined for a bitmap without a picture. */
export function pixelsOf(bitmap: Bitmap, frame: number): Pixels | undefined {
  const bits = bitmap.why === undefined ? elementsOf(bitmap) : undefined;
  return bits && bitmap.layout ? unpack(bits, bitmap.layout, frame, bitmap.invert) : undefined;
}
