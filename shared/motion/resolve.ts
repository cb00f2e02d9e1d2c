/** What the `@motion` annotations of a file mean: image, mask, edge and timeline. Start here. */
import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import { highest } from "../light/limit.ts";
import type { MotionOptions } from "../pixels/motionOptions.ts";
import { parseOptions } from "../pixels/options.ts";
import type { Word } from "../source/annotationSyntax.ts";
import type { BoundAnnotation } from "../source/read.ts";
import type { MotionFunction } from "./functionAfter.ts";
import { functionAfter } from "./functionAfter.ts";
import { type Ingredient, imageFor, maskFor } from "./ingredients.ts";
import { coveredFrom, edgeOf, uncoveredTo } from "./kernel/edge.ts";
import type { Moving } from "./kernel/frame.ts";
import type { Timeline } from "./kernel/timeline.ts";
import { byCount, byStep, MOST_FRAMES } from "./kernel/timeline.ts";
import type { MotionProblem } from "./problem.ts";
import { at, USUAL } from "./problem.ts";

export interface Motion {
  readonly annotation: BoundAnnotation;
  /** The word that gave each option. */
  readonly words: ReadonlyMap<string, Word>;
  readonly options: MotionOptions;
  /** The array that holds the frames, or else the function that computes them. */
  readonly target: Bitmap | undefined;
  readonly code: MotionFunction | undefined;
  /** That of the array or the function, else one for the function that could be written. */
  readonly name: string;
  readonly image: Ingredient | undefined;
  /** undefined for a field. */
  readonly mask: Ingredient | undefined;
  /** A function changes one glyph of the image's set into another; `moving` is then the first change. */
  readonly glyphs: boolean;
  /** Frames a second, where they are known. */
  readonly fps: number | undefined;
  /** undefined where something is wrong with it. */
  readonly moving: Moving | undefined;
  readonly problems: readonly MotionProblem[];
}

/** Most pixels of all frames together: 4,194,304. */
const MOST_PIXELS = 1 << 22;

const known = new WeakMap<BitmapFile, readonly Motion[]>();

/** The motions of a file in the order of its text, but those that are played from code; made once for each reading. */
export function motionsOf(file: BitmapFile): readonly Motion[] {
  const before = known.get(file);
  if (before) return before;
  const made: Motion[] = [];
  for (const annotation of file.source.annotations) {
    if (annotation.marker !== "motion") continue;
    const { motion, words, problems } = parseOptions(annotation, file.known.names);
    // A word that can't be read is a finding of its own.
    if (!motion.code) made.push(motionOf(file, annotation, motion, words, problems.length > 0));
  }
  known.set(file, made);
  return made;
}

function motionOf(
  file: BitmapFile,
  annotation: BoundAnnotation,
  options: MotionOptions,
  words: ReadonlyMap<string, Word>,
  misspelt: boolean,
): Motion {
  const problems: MotionProblem[] = [];
  const { target, code, wrong } = boundTo(file, annotation);
  if (wrong) problems.push(wrong);
  const image = imageFor(file, options, words, annotation, target);
  const mask = maskFor(file, options, words, image.size);
  problems.push(...image.problems, ...mask.problems);
  const fps = options.fps ?? target?.options.fps ?? image.found?.bitmap.options.fps;
  const shown = target ?? image.found?.bitmap;
  const limit = shown ? (highest(shown) ?? shown.format.full) : 255;
  problems.push(...optionProblems(options, words, limit));
  const clean = problems.length === 0 && !misspelt;
  const { soft = USUAL.soft, rim = USUAL.rim, level = limit } = options;
  const timeline = clean ? timelineOf(options, words, fps, problems) : undefined;
  const size = image.size;
  let moving: Moving | undefined;
  if (timeline && image.levels && mask.values && size) {
    const { width, height } = size;
    const edge = edgeOf(soft, Math.min(rim, soft), Math.min(level, limit));
    if (width * height * timeline.positions.length > MOST_PIXELS)
      problems.push(at(words.get("step") ?? words.get("seconds") ?? annotation.markerSpan, tooMany(timeline, size)));
    else {
      const { under, levels } = image;
      moving = { width, height, image: levels, mask: mask.values, under, edge, cap: limit, timeline };
    }
  }
  return {
    annotation,
    words,
    options,
    target,
    code,
    name: target?.array.name ?? code?.name ?? `play_${image.found?.bitmap.array.name.replace(/\W+/g, "_") ?? "motion"}`,
    image: image.found,
    mask: mask.found,
    glyphs: image.under !== undefined,
    fps,
    moving: problems.length === 0 ? moving : undefined,
    problems,
  };
}

function tooMany({ positions }: Timeline, { width, height }: { width: number; height: number }): string {
  return `${positions.length} frames of ${width}×${height} are more than ${MOST_PIXELS} pixels.`;
}

interface Bound {
  readonly target?: Bitmap | undefined;
  readonly code?: MotionFunction | undefined;
  readonly wrong?: MotionProblem | undefined;
}

/** What the annotation stands before. Nothing is a place for a function that is still to be written. */
function boundTo(file: BitmapFile, { arrays, markerSpan, comment }: BoundAnnotation): Bound {
  const [only, ...others] = arrays;
  if (only === undefined) return { code: functionAfter(file.source.text, comment.end) };
  if (others.length > 0)
    return { wrong: at(markerSpan, "An @motion speaks of one array; `entries` makes it several.") };
  const array = file.source.arrays[only];
  const target = file.bitmaps.find((b) => b.array === array);
  if (target) return { target };
  const said = `${array?.name ?? "The array"} holds the frames of this motion, and needs a @bitmap as well, such as \`// @bitmap 9x9\`.`;
  return { wrong: at(markerSpan, said) };
}

/** Options that do not go together, on the word at fault. */
function optionProblems(o: MotionOptions, words: ReadonlyMap<string, Word>, limit: number): MotionProblem[] {
  const problems: MotionProblem[] = [];
  const word = (key: string) => words.get(key);
  const { soft = USUAL.soft, rim = USUAL.rim, mask = USUAL.mask } = o;
  const rimWord = word("rim");
  const softWord = word("soft");
  if (soft < rim && rimWord)
    problems.push(at(rimWord, `The rim of ${rim} is wider than the edge, whose \`soft\` is ${soft}.`, `rim=${soft}`));
  else if (soft < rim && softWord) problems.push(at(softWord, `\`soft\` is less than the rim of ${rim}.`));
  const levelWord = word("level");
  if (levelWord && (o.level ?? 0) > limit)
    problems.push(
      at(levelWord, `The level ${o.level} is above ${limit}, the highest that is shown.`, `level=${limit}`),
    );
  const secondsWord = word("seconds");
  if (secondsWord && word("step"))
    problems.push(at(secondsWord, "`step` and `seconds` both say how fast the edge goes: leave one out."));
  const angleWord = word("angle");
  if (angleWord && mask !== "linear" && mask !== "angular")
    problems.push(at(angleWord, "`angle` is for `mask=linear` and `mask=angular`."));
  const seedWord = word("seed");
  if (seedWord && mask !== "noise") problems.push(at(seedWord, "`seed` is for `mask=noise`."));
  return problems;
}

/** The ends that are dark and wholly shown for any mask. */
export function usualEnds({ soft = USUAL.soft, rim = USUAL.rim }: MotionOptions): { from: number; to: number } {
  return { from: coveredFrom({ soft, rim }, 255), to: uncoveredTo({ soft }, 0) };
}

function timelineOf(
  o: MotionOptions,
  words: ReadonlyMap<string, Word>,
  fps: number | undefined,
  problems: MotionProblem[],
): Timeline | undefined {
  const ends = usualEnds(o);
  const way = { from: o.from ?? ends.from, to: o.to ?? ends.to, ease: o.ease ?? USUAL.ease };
  const loop = o.loop ?? USUAL.loop;
  const seconds = words.get("seconds");
  if (o.seconds === undefined || !seconds) return { positions: byStep(way, o.step ?? USUAL.step), loop };
  if (fps === undefined) {
    problems.push(at(seconds, "`seconds` needs a speed: give `fps=` here or on the bitmap."));
    return undefined;
  }
  const count = Math.max(2, Math.round(o.seconds * fps));
  if (count <= MOST_FRAMES) return { positions: byCount(way, count), loop };
  problems.push(at(seconds, `${o.seconds} s at ${fps} fps are ${count} frames; at most ${MOST_FRAMES}.`));
  return undefined;
}
