/**
 * Conversions: an array, its annotation, and its declared size and type rewritten together, so that the picture stays
 * what it was, or becomes the turned one. Start here: `conversionsOf` says what there is, `convert` does one.
 */
import type { TextEdit } from "../../source/text.ts";
import type { Bitmap, BitmapFile } from "../resolve.ts";
import { formatPlans } from "./formats.ts";
import { splitPlans } from "./frames.ts";
import { joinPlans } from "./join.ts";
import { literalPlans } from "./literals.ts";
import { orderPlans } from "./order.ts";
import { orientationPlans } from "./orientation.ts";
import { packingPlans } from "./packing.ts";
import { palettePlans } from "./palette.ts";
import type { Kind, Plan } from "./plan.ts";
import type { Refused } from "./subject.ts";
import { subjectOf } from "./subject.ts";
import type { World } from "./verify.ts";
import { wrongAfter } from "./verify.ts";

export interface Conversion {
  readonly id: string;
  readonly kind: Kind;
  /** What it does, with what is lost by it. */
  readonly title: string;
}

/** The conversions of a bitmap, in the order of a menu. Cheap: one pass over the pixels, once for each version. */
export function conversionsOf(file: BitmapFile, bitmap: Bitmap): Conversion[] {
  return plansOf(file, bitmap).map(({ id, kind, title }) => ({ id, kind, title }));
}

/**
 * The edits of one conversion. They have been tried: the text that they make is read back as the wanted picture, with
 * no finding that was not there before; else it is refused, with the reason.
 */
export function convert(
  file: BitmapFile,
  bitmap: Bitmap,
  id: string,
  world: World,
): { readonly edits: readonly TextEdit[] } | Refused {
  const plan = plansOf(file, bitmap).find((p) => p.id === id);
  if (!plan) return { refused: `${bitmap.array.name} can't be converted so` };
  const built = plan.build();
  if ("refused" in built) return built;
  const wrong = wrongAfter(file, built, world);
  return wrong === undefined ? { edits: built.edits } : { refused: wrong };
}

const known = new WeakMap<Bitmap, { readonly file: BitmapFile; readonly plans: readonly Plan[] }>();

/** Prepared once for each version of a bitmap: an editor asks again with every move of the cursor. */
function plansOf(file: BitmapFile, bitmap: Bitmap): readonly Plan[] {
  const before = known.get(bitmap);
  if (before?.file === file) return before.plans;
  const plans = preparedFor(file, bitmap);
  known.set(bitmap, { file, plans });
  return plans;
}

function preparedFor(file: BitmapFile, bitmap: Bitmap): Plan[] {
  const s = subjectOf(file, bitmap);
  if (!s) return [];
  // An X bitmap has no words to change: only what keeps its defines true.
  if (!bitmap.annotation) return [...literalPlans(s), ...orientationPlans(s)];
  return [
    ...formatPlans(s),
    ...palettePlans(s),
    ...packingPlans(s),
    ...orderPlans(s),
    ...orientationPlans(s),
    ...literalPlans(s),
    ...splitPlans(s),
    ...joinPlans(file, bitmap),
  ];
}
