/**
 * Restructuring: frames added, doubled, taken away and moved, and pictures cropped and extended, with the array's
 * elements, its declared size and its annotation changed together. Start here.
 */
import type { SourceArray } from "../../source/arrays.ts";
import { storedBits } from "../../source/arrays.ts";
import type { TextEdit } from "../../source/text.ts";
import { applyEdits } from "../../source/text.ts";
import type { Refused } from "../convert/subject.ts";
import { subjectOrWhy } from "../convert/subject.ts";
import type { World } from "../convert/verify.ts";
import { wrongIn } from "../convert/verify.ts";
import type { Bitmap, BitmapFile } from "../resolve.ts";
import type { Restructured, Restructuring } from "./change.ts";
import { MOST_PIXELS } from "./change.ts";
import { framesBuilt } from "./frames.ts";
import { sizeBuilt } from "./size.ts";
import { speedBuilt } from "./speed.ts";
import { tableBuilt } from "./table.ts";

/**
 * The edits of a change, and the bitmap as it is read after them. They have been tried: what they make is read back as
 * the wanted frames, with no finding that was not there before and every other array as it was; else they are refused,
 * with the reason.
 */
export function restructure(
  file: BitmapFile,
  bitmap: Bitmap,
  change: Restructuring,
  world: World,
): { readonly edits: readonly TextEdit[]; readonly bitmap: Bitmap } | Refused {
  const built = builtOf(file, bitmap, change);
  if ("refused" in built) return built;
  const after = world.reopen(applyEdits(file.source.text, built.edits));
  const wrong = wrongIn(after, file, built, judging(file, world)) ?? othersMoved(file, after, bitmap, built);
  if (wrong !== undefined) return { refused: wrong };
  const { name, ordinal } = bitmap.array;
  const now = after.bitmaps.find((b) => b.array.name === name && b.array.ordinal === ordinal) as Bitmap;
  if (built.widths && String(now.widths) !== String(built.widths))
    return { refused: `the widths of ${name} would not follow` };
  return { edits: built.edits, bitmap: now };
}

/** A copy of a frame is as wrong as the frame: of what pixels and spare bits hold, only a first finding is a new one. */
function judging(file: BitmapFile, { reopen, findings }: World): World {
  const known = new Set(findings(file).map(({ code }) => code));
  const counted = ({ code }: { readonly code: string }) => !known.has(code) || !OF_VALUES.has(code);
  return { reopen, findings: (of) => findings(of).filter(counted) };
}

const OF_VALUES = new Set(["padding-bits", "over-cap"]);

function builtOf(file: BitmapFile, bitmap: Bitmap, change: Restructuring): Restructured | Refused {
  if (change.kind === "speed") return speedBuilt(file, bitmap, change);
  if (bitmap.array.parts && change.kind === "frames") return tableBuilt(file, bitmap, change.order);
  const s = subjectOrWhy(file, bitmap, MOST_PIXELS);
  if ("refused" in s) return s;
  return change.kind === "frames" ? framesBuilt(s, change.order) : sizeBuilt(s, change);
}

/** Why another array would not be what it was, such as one that shares a size with this one; undefined if none. */
function othersMoved(
  file: BitmapFile,
  after: BitmapFile,
  { array }: Bitmap,
  { others = [] }: Restructured,
): string | undefined {
  const [before, now] = [file.source.arrays, after.source.arrays];
  if (before.length !== now.length) return `arrays beside ${array.name} would be read otherwise`;
  const part = before.find((one, i) => {
    const other = now[i];
    if (one.nameSpan.start === array.nameSpan.start || others.includes(one.name)) return false;
    return !other || !sameElements(one, file.source.text, other, after.source.text);
  });
  return part && `${part.name} would change with it`;
}

function sameElements(a: SourceArray, before: string, b: SourceArray, now: string): boolean {
  if (a.count !== b.count || a.excess !== b.excess || a.list?.length !== b.list?.length) return false;
  const length = a.list?.length ?? 0;
  const same = before.slice(a.base, a.base + length) === now.slice(b.base, b.base + length);
  return same && (a.list?.pure === true || String(storedBits(a)) === String(storedBits(b)));
}
