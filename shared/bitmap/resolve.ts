/**
 * Array, meaning and picture in one: turns a read source file into its bitmaps. Start here.
 */
import type { Panel } from "../light/panel.ts";
import { panelOf, withPanel } from "../light/panel.ts";
import type { PanelIndex, PanelNames } from "../light/panelIndex.ts";
import { indexPanels, seenFrom } from "../light/panelIndex.ts";
import { saysOrder } from "../light/wiring/wiring.ts";
import type { Format } from "../pixels/formats.ts";
import { FORMATS, isColour } from "../pixels/formats.ts";
import type { Layout } from "../pixels/layout.ts";
import { isWhole, layOut } from "../pixels/layout.ts";
import { misspeltMarker } from "../pixels/markers.ts";
import type { Options, ParsedAnnotation, WordProblem } from "../pixels/options.ts";
import { parseOptions } from "../pixels/options.ts";
import type { ElementBits, Pixels } from "../pixels/picture.ts";
import { unpack } from "../pixels/picture.ts";
import type { Word } from "../source/annotationSyntax.ts";
import { annotationsIn } from "../source/annotationSyntax.ts";
import type { SourceArray } from "../source/arrays.ts";
import type { BoundAnnotation, SourceFile } from "../source/read.ts";
import { elementsOfArray } from "./elements.ts";
import { holdsInstead, mayHoldFile } from "./embedded.ts";
import { glyphProblems, widthsOf } from "./glyphs.ts";
import type { Palette, Palettes } from "./palettes.ts";
import { palettesOf } from "./palettes.ts";
import { chosenByPath, definedAgain, includedPanels } from "./panels.ts";
import { problem } from "./problem.ts";
import { framesOf } from "./table.ts";
import type { WiringProblem, Wirings, WiringTable } from "./wirings.ts";
import { tablesOf, wiredPanel } from "./wirings.ts";
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
  /** Highest level allowed: of the raw value, or for colours of each channel in eight bits (`Format.full`). */
  readonly cap: number | undefined;
  /** The same by night. */
  readonly night: number | undefined;
  /** It is used as a mask only: its values are no light of their own, so that they have neither caps nor a current. */
  readonly mask: boolean;
  /** Share of full scale that the firmware drives. */
  readonly drive: number;
  readonly invert: boolean;
  /** What a level means: a share of time lit, or a code value for a screen. */
  readonly light: "linear" | "srgb";
  /** The colours of a palette format, where they are known. */
  readonly palette: Palette | undefined;
  /** Widths of the glyphs, one a frame. */
  readonly widths: readonly number[] | undefined;
  /** undefined where the element width is not known or does not fit the pixels. */
  readonly layout: Layout | undefined;
  /** Why there is no picture; undefined for a bitmap that can be shown. */
  readonly why: string | undefined;
  /** What the array holds instead of plain pixels, such as a whole PNG file. */
  readonly instead?: string;
}

export interface BitmapFile {
  readonly source: SourceFile;
  /** Its name, as it is told to people. */
  readonly file: string;
  /** The name that no other file has. */
  readonly id: string;
  /** Those that it defines. */
  readonly panels: readonly Panel[];
  /** Those that its annotations may name: its own, of what it includes, and of the files around. */
  readonly known: PanelIndex;
  readonly bitmaps: readonly Bitmap[];
  readonly palettes: readonly Palette[];
  /** Tables of driver addresses, and what is wrong with the wirings of panels. */
  readonly wirings: Wirings;
  /** What is wrong with annotations, in order of the text. */
  readonly problems: readonly WordProblem[];
}

/** Most pixels that all frames of one bitmap may have together. */
const MOST_PIXELS = 1 << 24;

/** Resolves the annotations of a file. `around` are the panels of other files, which call this one by its `id`. */
export function resolveFile(
  source: SourceFile,
  file: string,
  around: PanelIndex = indexPanels([]),
  id: string = file,
): BitmapFile {
  const problems: WordProblem[] = [];
  const panels: Panel[] = [];
  const panelWords: ParsedAnnotation[] = [];
  const wiredPanels = new Map<string, ReturnType<typeof wiredPanel>>();
  for (const annotation of source.annotations) {
    if (annotation.marker !== "panel") continue;
    const parsed = parseOptions(annotation, new Set());
    problems.push(...parsed.problems, ...panelProblems(annotation, parsed, panels));
    const panel = panelOf(parsed, { file, id, text: source.text.slice(annotation.start, annotation.end) });
    const wired = panel && wiredPanel(panel, parsed.words.get("wire"));
    if (wired) panels.push(wired.panel);
    if (wired) wiredPanels.set(wired.panel.name, wired);
    panelWords.push(parsed);
  }
  const included = includedPanels(source, id, around);
  const unwired = seenFrom({ id, own: panels, included }, around);
  const { names } = unwired;
  problems.push(...definedAgain(panels, unwired));
  for (const line of source.unmarked) {
    const wrong = misspeltMarker(source.text, line, names);
    if (wrong) problems.push(wrong);
  }
  const meanings = new Map<BoundAnnotation, ParsedAnnotation>();
  for (const annotation of source.annotations)
    if (annotation.marker !== "panel") meanings.set(annotation, parseOptions(annotation, names));
  for (const { name } of meanings.values()) if (name) problems.push(...chosenByPath(name, unwired, id, included));
  const tables = tablesOf(source, meanings, (name) => unwired.get(name)[0]);
  const index = wiredBy(tables.tables, unwired);
  const palettes = palettesOf(source, meanings);
  problems.push(...palettes.problems);
  for (const { options, words } of panelWords) {
    // A panel has no head of its own; its bitmaps do.
    const wrong = options.palette === "head" ? undefined : palettes.find(options, words, -1).problem;
    if (wrong) problems.push(wrong);
  }
  const masks = masksIn(source.annotations, source.arrays);
  const bitmaps: Bitmap[] = [];
  const taken = new Set<SourceArray>();
  for (const [annotation, parsed] of meanings) {
    problems.push(...parsed.problems);
    if (annotation.arrays.length === 0 && annotation.marker !== "motion") {
      const message = `This @${annotation.marker} stands before no list of numbers: it must come before the array, with no \`;\` or function between.`;
      problems.push(problem(annotation.markerSpan, message));
    }
    if (annotation.marker !== "bitmap") {
      problems.push(...needs(annotation, parsed, names));
      continue;
    }
    const meaning = understand(annotation, parsed, index, source);
    problems.push(...meaning.problems);
    for (const [i, at] of annotation.arrays.entries()) {
      const array = source.arrays[at] as SourceArray;
      if (taken.has(array)) {
        const message = `${array.name} already has a @bitmap; this second one is not used.`;
        problems.push(problem(annotation.markerSpan, message));
        break;
      }
      taken.add(array);
      if (!meaning.complete) continue;
      const { palette, wrong } = paletteOf(palettes, meaning.options, parsed.words, at);
      if (wrong && i === 0) problems.push(wrong);
      const frames = array.pointers ? framesOf(source, array) : array;
      // A table of pointers has a frame to an entry.
      const own = frames.parts && !parsed.words.has("frames") ? { frames: frames.parts.length } : {};
      const options = { ...meaning.options, ...own };
      bitmaps.push(bitmapOf(frames, annotation, parsed.words, { ...meaning, options }, palette, masks));
    }
  }
  const annotated = new Set(bitmaps.map((b) => b.array));
  const marked = new Set(source.annotations.flatMap((a) => (a.marker === "bitmap" ? a.arrays : [])));
  source.arrays.forEach((array, i) => {
    if (annotated.has(array) || marked.has(i) || !array.name.endsWith("bits")) return;
    const options = xbmOptions(source, array);
    if (options) bitmaps.push(bitmapOf(array, undefined, new Map(), { options, panel: undefined }, undefined));
  });
  const placeOf = ({ array }: Bitmap) => (array.parts ? array.nameSpan.start : array.base);
  bitmaps.sort((a, b) => placeOf(a) - placeOf(b) || a.array.node - b.array.node || a.array.first - b.array.first);
  problems.sort((a, b) => a.start - b.start);
  const wirings: Wirings = {
    tables: tables.tables,
    problems: [...panelWirings(wiredPanels.values(), tables.tables), ...tables.problems, ...unwiredOrders(bitmaps)],
  };
  const wired = panels.map((panel) => index.get(panel.name).find((p) => p.nameSpan === panel.nameSpan) ?? panel);
  return { source, file, id, panels: wired, known: index, bitmaps, palettes: palettes.all, wirings, problems };
}

/** Panels whose addresses a table of this file holds have the wiring of the table, or none where that is wrong. */
function wiredBy(tables: readonly WiringTable[], index: PanelIndex): PanelIndex {
  if (tables.length === 0) return index;
  const wired = new Map(
    tables.map(({ panel, wiring }) => [
      panel.name,
      index.get(panel.name).map((p) => ({ ...p, wiring, miswired: !wiring })),
    ]),
  );
  return { names: index.names, get: (name) => wired.get(name) ?? index.get(name) };
}

/** What is wrong with the `wire=` of panels. A canvas alone, for a table, may well be of another shape than the panel. */
function panelWirings(
  panels: Iterable<ReturnType<typeof wiredPanel>>,
  tables: readonly WiringTable[],
): WiringProblem[] {
  return [...panels].flatMap(({ panel, problems }) =>
    saysOrder(panel.options.wire) || !tables.some((t) => t.panel.name === panel.name) ? problems : [],
  );
}

/** Bitmaps in the order of a driver of which nothing is said. */
function unwiredOrders(bitmaps: readonly Bitmap[]): WiringProblem[] {
  return bitmaps.flatMap(({ panel, words, options }) => {
    const span = words.get("order");
    if (!span || options.order !== "driver" || !panel || panel.wiring || panel.miswired) return [];
    const message = `Nothing is said of the wiring of ${panel.name}, so its driver's order is taken for the panel's own: \`wire=\` or a @wiring table says it.`;
    return [{ span, message, severity: "warning", data: {} }];
  });
}

/** The bitmap that an array would be under `@bitmap` with these words; undefined where the words are wrong. */
export function bitmapWith(words: string, array: SourceArray, file: BitmapFile): Bitmap | undefined {
  const comment = `// @bitmap ${words}`;
  const [annotation] = annotationsIn(comment, { start: 0, end: comment.length });
  if (!annotation) return undefined;
  const index = file.known;
  const parsed = parseOptions(annotation, index.names);
  const bound: BoundAnnotation = { ...annotation, arrays: [] };
  const meaning = understand(bound, parsed, index, file.source);
  if (parsed.problems.length > 0 || meaning.problems.length > 0 || !meaning.complete) return undefined;
  return bitmapOf(array, bound, parsed.words, meaning, undefined);
}

function panelProblems(annotation: BoundAnnotation, parsed: ParsedAnnotation, before: readonly Panel[]): WordProblem[] {
  const { name, options, words } = parsed;
  const at = annotation.markerSpan;
  if (!name)
    return parsed.problems.length > 0
      ? []
      : [problem(at, "A panel needs a name and a size, such as `@panel lantern 9x9`.")];
  if (before.some((p) => p.name === name.text))
    return [problem(name, `A panel \`${name.text}\` is already defined in this file; the first one holds.`)];
  const format = options.format ?? (FORMATS.get("gray8") as Format);
  if (!words.has("size")) return [problem(name, `The panel \`${name.text}\` needs a size, such as 9x9.`)];
  return [...conflictsIn(options, words, format), ...capProblems(options, words, format)];
}

/** What the markers beside `@bitmap` and `@panel` must name. */
function needs(annotation: BoundAnnotation, parsed: ParsedAnnotation, names: PanelNames): WordProblem[] {
  if (annotation.marker === "wiring" && !parsed.name && parsed.problems.length === 0) {
    const [first] = names;
    const near = first === undefined ? "" : `, such as \`${first}\``;
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
  readonly widths?: readonly number[] | undefined;
  readonly problems: readonly WordProblem[];
  readonly complete: boolean;
}

function understand(
  annotation: BoundAnnotation,
  parsed: ParsedAnnotation,
  index: PanelIndex,
  source: SourceFile,
): Meaning {
  const { words, name } = parsed;
  const panel = name ? index.get(name.text)[0] : undefined;
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
  const conflicts = [...conflictsIn(merged, words, format), ...orderProblems(options, words, panel)];
  problems.push(...conflicts, ...capProblems(merged, words, format));
  problems.push(...glyphProblems(options, words));
  const glyphs = widthsOf(source, options, words);
  if (glyphs.problem) problems.push(glyphs.problem);
  return { options, panel, problems, complete: conflicts.length === 0, widths: glyphs.widths };
}

/** The colours that a bitmap's indices mean. */
function paletteOf(
  palettes: Palettes,
  options: Options,
  words: ReadonlyMap<string, Word>,
  array: number,
): { readonly palette?: Palette | undefined; readonly wrong?: WordProblem | undefined } {
  const word = words.get("palette");
  const { format } = options;
  if (format?.kind === "palette") {
    const { palette, problem: wrong } = palettes.find(options, words, array);
    return { palette, wrong };
  }
  if (!word) return {};
  return { wrong: problem(word, `\`palette\` is for the palette formats; ${format?.name} holds no indices.`) };
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

/** `order=driver` needs a panel, all of it. */
function orderProblems(
  { order, width, height, frames = 1 }: Options,
  words: ReadonlyMap<string, Word>,
  panel: Panel | undefined,
): WordProblem[] {
  const word = words.get("order");
  if (!word || order !== "driver") return [];
  if (!panel)
    return [problem(word, "`order=driver` needs a panel: its `wire=` or @wiring says what the driver's order is.")];
  const { width: across, height: down } = panel.options;
  if (width !== across || height !== down)
    return [
      problem(
        words.get("size") ?? word,
        `What is stored in driver order holds the whole panel \`${panel.name}\` of ${across}x${down}, not ${width}x${height}.`,
        words.has("size") ? `${across}x${down}` : undefined,
      ),
    ];
  const canvas = (panel.wiring?.width ?? 0) * (panel.wiring?.height ?? 0);
  if (canvas * frames <= MOST_PIXELS) return [];
  return [problem(word, `The driver's canvas with ${frames} frames is larger than can be laid out.`)];
}

function capProblems(options: Options, words: ReadonlyMap<string, Word>, format: Format): WordProblem[] {
  const highest = isColour(format) ? "the highest level of a colour's channel" : `the highest value of ${format.name}`;
  const problems: WordProblem[] = [];
  for (const [key, what] of [
    ["cap", "cap"],
    ["night", "night level"],
  ] as const) {
    const word = words.get(key);
    const level = options[key];
    if (!word || !level || !("value" in level) || level.value <= format.full) continue;
    problems.push(
      problem(word, `The ${what} ${level.value} is above ${format.full}, ${highest}.`, `${key}=${format.full}`),
    );
  }
  const [cap, night] = [capOf(options.cap, format), capOf(options.night, format)];
  const word = words.get("night") ?? words.get("cap");
  if (problems.length === 0 && word && cap !== undefined && night !== undefined && night > cap)
    problems.push(problem(word, `The night level ${night} is above the cap ${cap}.`));
  return problems;
}

/** Names of arrays that motions use as masks and show no picture of. */
function masksIn(annotations: readonly BoundAnnotation[], arrays: readonly SourceArray[]): ReadonlySet<string> {
  const motions = annotations.filter(({ marker }) => marker === "motion");
  const named = (key: string) =>
    motions.flatMap(({ words }) => words.filter((w) => w.key === key).map((w) => w.value ?? ""));
  const masks = new Set(named("mask"));
  // An array with a motion of its own is the picture that moves.
  const moving = motions.flatMap((motion) => motion.arrays.map((i) => arrays[i]?.name ?? ""));
  for (const shown of [...named("image"), ...moving]) masks.delete(shown);
  return masks;
}

function bitmapOf(
  array: SourceArray,
  annotation: BoundAnnotation | undefined,
  words: ReadonlyMap<string, Word>,
  { options, panel, widths }: Pick<Meaning, "panel" | "widths"> & { readonly options: Options },
  palette: Palette | undefined,
  masks: ReadonlySet<string> = new Set(),
): Bitmap {
  const mask = options.mask === true || masks.has(array.name);
  const format = options.format ?? (FORMATS.get("gray8") as Format);
  const { width = 1, height = 1, frames = 1 } = options;
  // A panel's scan or pack that its bitmap's own format rules out is left aside.
  const pack = format.depth >= 8 && options.pack !== "each" ? "rows" : (options.pack ?? "rows");
  const bits = options.bits ?? (pack === "rows" || pack === "each" ? "msb" : "lsb");
  // The compiler makes every other value of a `bool` 1, so its bits can't hold pixels.
  const truth = array.type?.truth === true && !(format.kind === "mono" && pack === "each");
  const byDriver = options.order === "driver";
  const laid =
    byDriver && panel?.miswired
      ? { why: `it is stored in driver order, and the wiring of ${panel?.name} is not known` }
      : truth
        ? { why: "elements of type `bool` hold only 0 or 1, which `mono1 pack=each` reads" }
        : array.type
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
              ...(byDriver && panel?.wiring ? { driver: panel.wiring } : {}),
            })
          : { why: "the element type is not known" };
  const short = !("why" in laid) && array.count < laid.elements;
  // Elements are worked out for what may be no picture only: this runs for every bitmap at every keystroke.
  const elements = array.readOnly === undefined && (short || mayHoldFile(array)) ? elementsOfArray(array) : undefined;
  const instead = elements && holdsInstead(elements, "why" in laid ? undefined : laid);
  const layout = "why" in laid || instead ? undefined : laid;
  const why = array.readOnly ?? instead ?? ("why" in laid ? laid.why : undefined);
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
    cap: mask ? undefined : capOf(options.cap, format),
    night: mask ? undefined : capOf(options.night, format),
    mask,
    drive: options.drive ?? 1,
    invert: options.invert ?? false,
    light: options.light ?? (isColour(format) ? "srgb" : "linear"),
    palette,
    widths,
    layout,
    why,
    ...(instead ? { instead } : {}),
  };
}

/** The highest level that a cap allows; undefined without one that says anything in the format. */
export function capOf(cap: Options["cap"], format: Format): number | undefined {
  if (!cap) return undefined;
  // A share of full scale says nothing where a pixel has no levels.
  if ("percent" in cap && format.kind === "mono") return undefined;
  return "percent" in cap ? Math.floor((format.full * cap.percent) / 100) : Math.min(cap.value, format.full);
}

/** The array's elements as the compiler stores them; computed once for each version of an array. */
export function elementsOf(bitmap: Bitmap): ElementBits | undefined {
  return elementsOfArray(bitmap.array);
}

/** Raw pixels of one frame, row by row; undefined for a bitmap without a picture. */
export function pixelsOf(bitmap: Bitmap, frame: number): Pixels | undefined {
  const bits = bitmap.why === undefined ? elementsOf(bitmap) : undefined;
  return bits && bitmap.layout ? unpack(bits, bitmap.layout, frame, bitmap.invert) : undefined;
}
