/** Neighbouring arrays of one structure joined into one array of frames. */
import type { Layout } from "../../pixels/layout.ts";
import { freeName } from "../../source/identifiers.ts";
import type { Declaration } from "../declaration.ts";
import type { Bitmap, BitmapFile } from "../resolve.ts";
import { sizeEdits } from "./declared.ts";
import { isPlain } from "./frames.ts";
import { anew, elementsFor } from "./list.ts";
import { lossOf, lossWords } from "./loss.ts";
import type { Plan } from "./plan.ts";
import type { Refused, Subject } from "./subject.ts";
import { framesOf, meant, recodeRefused, subjectOf } from "./subject.ts";
import type { Built } from "./verify.ts";
import { expectedAs } from "./verify.ts";
import { changeWords } from "./words.ts";

/** More arrays than that are not looked through. */
const MOST_ARRAYS = 256;

export function joinPlans(file: BitmapFile, bitmap: Bitmap): Plan[] {
  const run = runAround(file, bitmap);
  const [s, ...others] = run;
  if (!s || others.length === 0) return [];
  const frames = run.reduce((sum, { bitmap: b }) => sum + b.frames, 0);
  const words = changeWords(s.text, s.bitmap, new Map([["frames", `frames=${frames}`]]));
  const now = meant(s, words.words, s.type.bits);
  if (!now || "refused" in sizeEdits(s, now.layout as Layout)) return [];
  const comments = run.reduce((sum, one, i) => sum + lossOf(one).comments + (i === 0 ? 0 : notesOf(one)), 0);
  const lost = lossWords({ comments, names: run.some((one) => lossOf(one).names) }, "");
  const last = others[others.length - 1] as Subject;
  const title = `Join ${run.length} arrays, ${s.array.name} to ${last.array.name}, into one of ${frames} frames`;
  const build = () => joined(run, s, now, words.edits);
  return [{ id: "frames:join", kind: "frames", title: lost === "" ? title : `${title}: ${lost}`, build }];
}

/** Free text of an annotation, which goes with it. */
function notesOf({ text, bitmap }: Subject): number {
  const { comment, end } = bitmap.annotation ?? { comment: { end: 0 }, end: 0 };
  return /\w/.test(text.slice(end, comment.end)) ? 1 : 0;
}

/** The bitmaps about this one that follow each other with nothing but white space and their annotations between. */
function runAround(file: BitmapFile, bitmap: Bitmap): Subject[] {
  const at = file.bitmaps.indexOf(bitmap);
  const own = joinable(file, bitmap);
  if (at < 0 || !own) return [];
  const run = [own];
  for (let i = at - 1; i >= 0 && run.length < MOST_ARRAYS; i--) {
    const before = joinable(file, file.bitmaps[i] as Bitmap);
    if (!before || !follows(before, run[0] as Subject)) break;
    run.unshift(before);
  }
  for (let i = at + 1; i < file.bitmaps.length && run.length < MOST_ARRAYS; i++) {
    const after = joinable(file, file.bitmaps[i] as Bitmap);
    if (!after || !follows(run[run.length - 1] as Subject, after)) break;
    run.push(after);
  }
  return run;
}

function joinable(file: BitmapFile, bitmap: Bitmap): Subject | undefined {
  const s = subjectOf(file, bitmap);
  if (!s || !isPlain(s) || s.array.dimensions.length !== 1 || bitmap.widths) return undefined;
  const { skip, frameElements } = s.layout;
  if (skip > 0 || frameElements === 0 || recodeRefused(s) !== undefined) return undefined;
  // Characters are listed for one array.
  return bitmap.options.first !== undefined || bitmap.options.chars ? undefined : s;
}

/** Whether `b` comes right after `a` and is annotated and declared alike. */
function follows(a: Subject, b: Subject): boolean {
  const [from, to] = [a.declaration, b.declaration];
  const start = b.bitmap.annotation?.comment.start;
  if (!from || !to || start === undefined || !/^\s*$/.test(a.text.slice(from.end, start))) return false;
  const words = ({ bitmap }: Subject) =>
    (bitmap.annotation?.words ?? [])
      .filter((w) => w !== bitmap.words.get("frames"))
      .map((w) => w.text)
      .sort()
      .join(" ");
  const spaced = (text: string) => text.replace(/\s+/g, " ");
  return words(a) === words(b) && spaced(from.head) === spaced(to.head) && spaced(from.tail) === spaced(to.tail);
}

function joined(run: readonly Subject[], s: Subject, now: Bitmap, words: Built["edits"]): Built | Refused {
  const layout = now.layout as Layout;
  const frames = run.flatMap((one) => framesOf(one));
  const before = run.flatMap((one) => Array.from({ length: one.layout.elements }, (_, i) => one.elements[i] ?? 0));
  const values = elementsFor(layout, now.invert, frames, before);
  const list = anew(s, { layout, options: now.options, type: s.type, values }, true);
  if ("refused" in list) return list;
  const size = sizeEdits(s, layout);
  if ("refused" in size) return size;
  const { array, text } = s;
  const name = nameFor(text, run);
  const last = run[run.length - 1] as Subject;
  const rest = { start: (s.declaration as Declaration).end, end: (last.declaration as Declaration).end, text: "" };
  const renamed = name === array.name ? [] : [{ ...array.nameSpan, text: name }];
  const ordinal = name === array.name ? array.ordinal : 0;
  return {
    edits: [...words, ...renamed, ...size, ...list, rest].sort((a, b) => a.start - b.start || a.end - b.end),
    expected: [expectedAs({ name, ordinal }, now, s.type.bits, frames)],
  };
}

/** `icon` for `icon_0`, `icon_1` … where that name is free; else the name of the first. */
function nameFor(text: string, run: readonly Subject[]): string {
  const first = (run[0] as Subject).array.name;
  const stem = first.replace(/_0$/, "");
  const counted = stem !== first && run.every(({ array }, i) => array.name === `${stem}_${i}`);
  return counted && freeName(text, stem) === stem ? stem : first;
}
