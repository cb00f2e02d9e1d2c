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
import { sameIn } from "../edit.ts";
import type { Bitmap, BitmapFile } from "../resolve.ts";
import type { Restructured, Restructuring } from "./change.ts";
import { MOST_PIXELS } from "./change.ts";
import { framesBuilt } from "./frames.ts";
import { sizeBuilt } from "./size.ts";
import { speedBuilt } from "./speed.ts";
import { tableBuilt } from "./table.ts";
import { type BuiltTogether, togetherBuilt } from "./together.ts";

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
  const after = tried(file, [bitmap], built, world);
  if ("refused" in after) return after;
  const now = found(after, bitmap);
  if (built.widths && String(now.widths) !== String(built.widths))
    return { refused: `the widths of ${bitmap.array.name} would not follow` };
  return { edits: built.edits, bitmap: now };
}

/**
 * The same for several arrays, alike and in the order of the text, whose frames are counted through (see `togetherBuilt`);
 * and the bitmaps of the set after it, new ones among them.
 */
export function restructureTogether(
  file: BitmapFile,
  bitmaps: readonly Bitmap[],
  change: Restructuring,
  world: World,
): { readonly edits: readonly TextEdit[]; readonly bitmaps: readonly Bitmap[] } | Refused {
  const built = togetherBuilt(file, bitmaps, change, (bitmap, own) => {
    const one = builtOf(file, bitmap, own);
    if ("refused" in one || one.widths === undefined || String(one.widths) === String(bitmap.widths)) return one;
    return { refused: `the widths of ${bitmap.array.name} are changed in one array at a time` };
  });
  if ("refused" in built) return built;
  const after = tried(file, bitmaps, built, world);
  if ("refused" in after) return after;
  const was = bitmaps.find((b) => b.widths && String(found(after, b).widths) !== String(b.widths));
  if (was) return { refused: `the widths of ${was.array.name} would not follow` };
  const { added = [] } = built;
  const fresh = after.bitmaps.filter((b) => added.includes(b.array.name));
  const all = [...bitmaps.map((b) => found(after, b)), ...fresh];
  return { edits: built.edits, bitmaps: all.sort((a, b) => a.array.nameSpan.start - b.array.nameSpan.start) };
}

/** What is read after the edits, or why it is not what was wanted. */
function tried(file: BitmapFile, bitmaps: readonly Bitmap[], built: BuiltTogether, world: World): BitmapFile | Refused {
  const after = world.reopen(applyEdits(file.source.text, built.edits));
  // Of another array that comes along its name says more than the finding that it leads to.
  const wrong = othersMoved(file, after, bitmaps, built) ?? wrongIn(after, file, built, judging(file, world));
  return wrong === undefined ? after : { refused: wrong };
}

/** A bitmap that `wrongIn` has found. */
const found = (after: BitmapFile, { array }: Bitmap) => sameIn(after, array) as Bitmap;

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
  bitmaps: readonly Bitmap[],
  { others = [], added = [] }: BuiltTogether,
): string | undefined {
  const before = file.source.arrays;
  const now = after.source.arrays.filter((one) => !added.includes(one.name));
  const own = new Set(bitmaps.map(({ array }) => array.nameSpan.start));
  if (before.length !== now.length) return `arrays beside ${bitmaps[0]?.array.name} would be read otherwise`;
  const part = before.find((one, i) => {
    const other = now[i];
    if (own.has(one.nameSpan.start) || others.includes(one.name)) return false;
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
