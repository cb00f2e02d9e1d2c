/** A conversion prepared: what it is called, and how its edits are made once it is chosen. */
import type { Layout } from "../../pixels/layout.ts";
import type { Pixels } from "../../pixels/picture.ts";
import type { TextEdit } from "../../source/text.ts";
import { perLineOf } from "../make.ts";
import type { Bitmap } from "../resolve.ts";
import type { Width } from "./declared.ts";
import { innerSize, inWidth, sizeEdits, typeEdit } from "./declared.ts";
import { anew, anewRefused, elementsFor, inPlace, isOneLine, keepsPlaces } from "./list.ts";
import { lossOf, lossWords } from "./loss.ts";
import type { Refused, Subject } from "./subject.ts";
import { framesOf, meant, recodeRefused } from "./subject.ts";
import type { Built } from "./verify.ts";
import { expectedAs } from "./verify.ts";
import type { WordChanges } from "./words.ts";
import { changeWords } from "./words.ts";

export type Kind = "format" | "packing" | "literals" | "orientation" | "frames";

export interface Plan {
  readonly id: string;
  readonly kind: Kind;
  readonly title: string;
  readonly build: () => Built | Refused;
}

/** What a bitmap is to become. */
export interface Target {
  readonly words: WordChanges;
  /** Width of the elements, where that changes. */
  readonly bits?: Width | undefined;
  /** The pixels that are wanted of those before. */
  readonly pixels?: ((frames: Pixels[], now: Bitmap) => Pixels[]) | undefined;
  /** Edits beside those of the array and its annotation. */
  readonly more?: readonly TextEdit[];
}

/** The bitmap that the words of a target mean; undefined where it can't be had, and so is not offered. */
export function aim(s: Subject, { words, bits }: Target): Bitmap | undefined {
  const now = meant(s, changeWords(s.text, s.bitmap, words).words, bits ?? s.type.bits);
  const layout = now?.layout;
  if (!now || !layout || recodeRefused(s) !== undefined) return undefined;
  if (bits !== undefined && bits !== s.type.bits && (s.layout.skip + s.layout.lead > 0 || !typeEdit(s, bits)))
    return undefined;
  if (keepsPlaces(s.layout, layout)) return now;
  if (anewRefused(s) !== undefined || "refused" in sizeEdits(s, layout)) return undefined;
  return now;
}

/** The plan of a target that `aim` gave a bitmap for. */
export function planOf(s: Subject, kind: Kind, id: string, title: string, target: Target, now: Bitmap): Plan {
  const layout = now.layout as Layout;
  const lost = keepsPlaces(s.layout, layout) ? "" : lossWords(lossOf(s));
  return {
    id,
    kind,
    title: lost === "" ? title : `${title}${title.includes(":") ? "; " : ": "}${lost}`,
    build: () => recoded(s, target, now, layout),
  };
}

/** Elements of the inner lists, where the list is written with such. */
export function bracesOf(s: Subject, layout: Layout): number | undefined {
  return s.array.list?.nodes[0]?.lists ? innerSize(s, layout) : undefined;
}

function recoded(s: Subject, target: Target, now: Bitmap, layout: Layout): Built | Refused {
  const { array, bitmap, type } = s;
  const before = framesOf(s);
  const frames = target.pixels ? target.pixels(before, now) : before;
  const values = elementsFor(layout, now.invert, frames, s.elements);
  const bits = target.bits ?? type.bits;
  const retyped = bits !== type.bits && bits !== 64 ? typeEdit(s, bits as Width) : undefined;
  const same =
    bits === type.bits &&
    values.length === s.layout.elements &&
    values.every((value, i) => value === BigInt(s.elements[i] as number | bigint));
  const stays = keepsPlaces(s.layout, layout);
  // The same numbers need no new lines where those are as before, or all is one line.
  const asIs = same && (stays || perLineOf(s.layout) === perLineOf(layout) || isOneLine(s));
  const list = asIs
    ? []
    : stays
      ? inPlace(s, values)
      : anew(s, { layout, options: now.options, type: inWidth(type, bits), values, inner: bracesOf(s, layout) });
  if ("refused" in list) return list;
  const size = asIs || stays ? [] : sizeEdits(s, layout);
  if ("refused" in size) return size;
  const edits = [
    ...(target.more ?? []),
    ...changeWords(s.text, bitmap, target.words).edits,
    ...(retyped ? [retyped] : []),
    ...size,
    ...list,
  ];
  return {
    edits: edits.sort((a, b) => a.start - b.start || a.end - b.end),
    expected: [expectedAs(array, now, bits, frames)],
  };
}
