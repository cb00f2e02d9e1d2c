/**
 * Offers for arrays without an annotation: what `@bitmap …` could stand above them, and why. Start here.
 *
 * `evidence/` collects what speaks for a size (claims), `readings.ts` the formats and packings that fit each exactly;
 * here they are weighed. Without real evidence there is no offer, and the length fits exactly for every one.
 */

import type { Layout } from "../pixels/layout.ts";
import { layOut } from "../pixels/layout.ts";
import type { SourceArray } from "../source/arrays.ts";
import type { Claim, Hints } from "./evidence/claim.ts";
import { coherence, hasStrayBits, showsDrawing, uprightness } from "./evidence/coherence.ts";
import { commentClaims, headComment, hintsIn } from "./evidence/comments.ts";
import { constantClaims } from "./evidence/constants.ts";
import { descriptorClaims } from "./evidence/descriptors.ts";
import { dimensionClaims } from "./evidence/dimensions.ts";
import { firstCharacter, fontClaims } from "./evidence/fonts.ts";
import { headerClaims } from "./evidence/headers.ts";
import { nameClaims } from "./evidence/names.ts";
import { isPackedOrFile, isTable } from "./evidence/notPixels.ts";
import { panelClaims } from "./evidence/panels.ts";
import { rowClaims } from "./evidence/rowShape.ts";
import type { Subject } from "./evidence/subject.ts";
import { groupComments, subjectOf } from "./evidence/subject.ts";
import type { Reading } from "./readings.ts";
import { profileOf, readingsOf, wordsOf } from "./readings.ts";
import type { Bitmap, BitmapFile } from "./resolve.ts";
import { bitmapWith } from "./resolve.ts";

export interface Offer {
  /** What would follow `@bitmap`: `16x16 mono1`. */
  readonly words: string;
  /** What was seen and where, in words that follow "because". */
  readonly evidence: string;
  /** 0 to 1; from `CLEAR` on the evidence is clear. */
  readonly confidence: number;
  /** The bitmap that the array would be. */
  readonly bitmap: Bitmap;
}

/** The confidence from which on an offer may be taken up without a look at each. */
export const CLEAR = 0.75;

const MOST_OFFERS = 4;
const LEAST = 0.5;
/** Offers that are so much worse than the best are not plausible beside it. */
const SPREAD = 0.22;

const SOURCES: readonly ((subject: Subject) => Claim[])[] = [
  nameClaims,
  constantClaims,
  commentClaims,
  descriptorClaims,
  rowClaims,
  dimensionClaims,
  fontClaims,
  headerClaims,
  panelClaims,
];

/** The arrays of a file that no annotation speaks of, and that need none. */
export function unannotated({ source, bitmaps }: BitmapFile): SourceArray[] {
  const taken = new Set<SourceArray>(bitmaps.map((b) => b.array));
  for (const annotation of source.annotations)
    for (const at of annotation.arrays) taken.add(source.arrays[at] as SourceArray);
  return source.arrays.filter((array) => !taken.has(array));
}

const known = new WeakMap<SourceArray, { file: BitmapFile; offers: readonly Offer[] }>();

/**
 * Offers for one array without an annotation, best first, at most four; none without real evidence. Reads the array's
 * surroundings, so an offer holds for this version of the file only.
 */
export function suggest(file: BitmapFile, array: SourceArray): readonly Offer[] {
  const before = known.get(array);
  if (before?.file === file) return before.offers;
  const offers = work(file, array);
  known.set(array, { file, offers });
  return offers;
}

interface Weighed {
  readonly words: string;
  readonly rank: number;
  readonly confidence: number;
  readonly claims: readonly Claim[];
  readonly reading: Reading | undefined;
}

function work(file: BitmapFile, array: SourceArray): readonly Offer[] {
  const subject = subjectOf(file, array);
  if (!subject || isPackedOrFile(subject)) return [];
  const claims = isTable(subject)
    ? [...descriptorClaims(subject).filter((c) => c.drawnBy), ...commentClaims(subject).filter((c) => c.inPixels)]
    : SOURCES.flatMap((source) => source(subject)).filter((c) => subject.pictured || !c.needsWord);
  if (claims.length === 0) return [];
  const weighed = new Map<string, Weighed>();
  const near = hintsIn([...subject.comments, ...groupComments(subject)].map((c) => c.text).join("\n"));
  // What a comment near the array says comes before what holds for all of the file.
  const hints = { ...hintsIn(headComment(subject)?.text ?? ""), ...near };
  for (const candidate of weigh(subject, claims, hints)) {
    const other = weighed.get(candidate.words);
    weighed.set(candidate.words, other ? joined(other, candidate) : candidate);
  }
  const ranked = [...weighed.values()].sort((a, b) => b.rank - a.rank);
  const withPanels = panelsFirst(file, array, ranked, claims);
  const best = withPanels[0];
  if (!best) return [];
  const offers: Offer[] = [];
  for (const { words, rank, confidence, claims: why } of withPanels) {
    if (offers.length >= MOST_OFFERS || rank < best.rank - SPREAD || confidence < LEAST) continue;
    const bitmap = bitmapWith(words, array, file);
    if (bitmap?.layout?.elements !== array.count) continue;
    offers.push({ words, evidence: evidenceOf(why), confidence: Math.round(confidence * 100) / 100, bitmap });
  }
  return offers;
}

/** The readings of all claims with what speaks for each; identical ones are not joined yet. */
function weigh(subject: Subject, claims: readonly Claim[], hints: Hints): Weighed[] {
  const profile = profileOf(subject);
  const readings = claims
    .filter((c) => c.panel === undefined)
    .flatMap((c) => readingsOf(subject, c, hints, profile))
    .filter((r) => subject.pictured || !r.counted || severalLikely(subject, r));
  const looks = new Map<string, { look: number; stray: boolean }>();
  const looked = readings.map((reading) => {
    const key = wordsOf(reading.arrangement);
    const found = looks.get(key) ?? lookAt(subject, reading);
    looks.set(key, found);
    return { reading, key, ...found };
  });
  const stated = looked.map((l) => l.reading.claim).filter(isStated);
  return looked.map(({ reading, key, look, stray }) => {
    const { claim, arrangement, habit, counted } = reading;
    const alike = looked.filter(
      (o) =>
        o.reading.arrangement.width === arrangement.width &&
        o.reading.arrangement.height === arrangement.height &&
        o.reading.arrangement.format === arrangement.format,
    );
    const someClean = alike.some((o) => !o.stray);
    const bestLook = Math.max(...alike.filter((o) => !(someClean && o.stray)).map((o) => o.look));
    let rank = claim.weight + habit + 0.8 * Math.min(0, look - bestLook);
    // A size that was written down outweighs one that follows from how the numbers stand.
    if (!isStated(claim) && stated.some((s) => s.width !== arrangement.width || s.height !== arrangement.height))
      rank -= 0.16;
    let confidence = claim.weight;
    if (stray) {
      rank -= someClean ? 0.3 : 0.12;
      confidence -= 0.12;
    }
    if (counted && !severalLikely(subject, reading)) {
      rank -= 0.12;
      confidence -= 0.14;
    }
    // The outermost dimension counts the frames, if anything does.
    const outer = subject.array.dimensions.length > 1 ? subject.array.dimensions[0]?.size : undefined;
    if (outer === arrangement.frames && outer > 1) rank += 0.08;
    else if (outer !== undefined && arrangement.frames > 1 && outer % arrangement.frames !== 0) {
      rank -= 0.15;
      confidence -= 0.1;
    }
    if (claim.drawn) {
      const layout = layoutOf(reading);
      const shown = layout ? showsDrawing(subject.bits, layout, claim.drawn) : 0;
      if (shown < 1) {
        rank -= 0.4;
        confidence -= shown > 0.95 ? 0.2 : 0.5;
      }
    }
    const first =
      arrangement.frames > 1 && arrangement.format.depth === 1
        ? firstCharacter(subject, arrangement.frames)
        : undefined;
    if (first) {
      const layout = layoutOf(reading);
      const code = /'(.)'/.exec(first)?.[1]?.charCodeAt(0) ?? Number.parseInt(first.slice(8), 16);
      if (layout) rank += 0.15 * uprightness(subject.bits, layout, code);
    }
    return { words: first ? `${key} ${first}` : key, rank, confidence, claims: [claim], reading };
  });
}

function isStated({ kind }: Claim): boolean {
  return kind === "name" || kind === "constants" || kind === "comment" || kind === "descriptor" || kind === "drawing";
}

function layoutOf({ arrangement }: Reading): Layout | undefined {
  const layout = layOut(arrangement);
  return "why" in layout ? undefined : layout;
}

function lookAt({ bits }: Subject, reading: Reading): { look: number; stray: boolean } {
  const layout = layoutOf(reading);
  return { look: coherence(bits, reading.arrangement), stray: layout ? hasStrayBits(bits, layout) : true };
}

/** Whether something beside the length speaks for several frames. */
function severalLikely(
  { words, fontish, array, comments }: Subject,
  { arrangement: { frames }, claim }: Reading,
): boolean {
  if (fontish || claim.hints?.numbers?.includes(frames)) return true;
  if (array.dimensions.length > 1 && array.dimensions[0]?.size === frames) return true;
  const sides = frames === claim.width || frames === claim.height;
  if (!sides && comments.some((c) => new RegExp(`\\b${frames}\\b`).test(c.text))) return true;
  return words.some((word) => /^(?:frames?|anim|animation|font|glyphs?|[a-z]{3,}[^s\W]s)$/.test(word));
}

function joined(a: Weighed, b: Weighed): Weighed {
  const [better, other] = a.rank >= b.rank ? [a, b] : [b, a];
  const fresh = other.claims.filter((c) => !better.claims.some((k) => k.kind === c.kind));
  const more = fresh.length > 0 ? 0.05 : 0;
  return {
    ...better,
    rank: better.rank + more,
    confidence: Math.min(1, Math.max(a.confidence, b.confidence) + more),
    claims: [...better.claims, ...fresh],
  };
}

/** A panel that the array fills is named rather than its size, since the panel says more. */
function panelsFirst(
  file: BitmapFile,
  array: SourceArray,
  ranked: readonly Weighed[],
  claims: readonly Claim[],
): Weighed[] {
  const out = [...ranked];
  for (const claim of claims) {
    if (claim.panel === undefined) continue;
    const one = bitmapWith(claim.panel, array, file)?.layout;
    const frames = one ? array.count / one.elements : 0;
    if (!Number.isInteger(frames) || frames < 1) continue;
    const words = frames > 1 ? `${claim.panel} frames=${frames}` : claim.panel;
    const same = ranked.find(({ reading }) => {
      const a = reading?.arrangement;
      return (
        a &&
        one &&
        a.width === one.width &&
        a.height === one.height &&
        a.format === one.format &&
        a.pack === one.pack &&
        a.bits === one.bits &&
        a.frames === frames
      );
    });
    const less = frames > 1 && !same && array.dimensions[0]?.size !== frames ? 0.1 : 0;
    out.push({
      words,
      rank: Math.max(claim.weight - less, same ? same.rank + 0.02 : 0),
      confidence: Math.min(1, Math.max(claim.weight - less, same ? same.confidence + 0.05 : 0)),
      claims: same ? [...same.claims, claim] : [claim],
      reading: undefined,
    });
  }
  return out.sort((a, b) => b.rank - a.rank);
}

function evidenceOf(claims: readonly Claim[]): string {
  const texts = [...new Set(claims.map((c) => c.evidence))];
  return texts.slice(0, 2).join(", and ");
}
