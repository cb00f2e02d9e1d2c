/** Packing, bit order, inversion and element width: the same picture in other elements. */
import { isWhole } from "../../pixels/layout.ts";
import type { Options } from "../../pixels/options.ts";
import type { Width } from "./declared.ts";
import type { Plan, Target } from "./plan.ts";
import { aim, planOf } from "./plan.ts";
import type { Subject } from "./subject.ts";
import type { Wanted } from "./words.ts";
import { wordsToMean } from "./words.ts";

const PACKS: readonly (readonly [NonNullable<Options["pack"]>, string])[] = [
  ["rows", "Pack by rows"],
  ["columns", "Pack by columns"],
  ["pages", "Pack in pages of 8 rows"],
  ["each", "Give each pixel an element of its own"],
];

const SCANS: readonly (readonly [NonNullable<Options["scan"]>, string])[] = [
  ["rows", "Order pixels by rows"],
  ["columns", "Order pixels by columns"],
  ["serpentine", "Order pixels by rows, every second one backwards (serpentine)"],
  ["serpentine-columns", "Order pixels by columns, every second one backwards (serpentine)"],
];

export function packingPlans(s: Subject): Plan[] {
  const { bitmap, layout } = s;
  const { format } = bitmap;
  const plans: Plan[] = [];
  const add = (id: string, title: string, target: Target) => {
    const now = aim(s, target);
    if (now) plans.push(planOf(s, "packing", id, title, target, now));
  };
  const meaning = (wanted: Wanted): Target => ({ words: wordsToMean(bitmap, wanted, format) });
  if (format.depth < 8)
    for (const [pack, title] of PACKS) if (pack !== layout.pack) add(`pack:${pack}`, title, meaning(packed(pack)));
  if (isWhole(format, layout.pack))
    for (const [scan, title] of SCANS) if (scan !== layout.scan) add(`scan:${scan}`, title, meaning({ scan }));
  if (!isWhole(format, layout.pack)) {
    const bits = layout.bits === "msb" ? "lsb" : "msb";
    add(`bits:${bits}`, `Put the ${bits === "msb" ? "most" : "least"} significant bit first`, meaning({ bits }));
  }
  const inverted = bitmap.invert;
  const flips = format.kind === "mono" || format.kind === "gray" || bitmap.words.has("invert");
  // What a panel inverts can't be turned back by a word.
  if (flips && !(inverted && bitmap.panel?.options.invert)) {
    const words = new Map([["invert", inverted ? undefined : "invert"]]);
    add("invert", inverted ? "Invert the numbers: 0 becomes dark" : "Invert the numbers: 0 becomes lit", { words });
  }
  for (const bits of [8, 16, 32] as const) {
    if (bits === s.type.bits) continue;
    const words = wordsToMean(bitmap, widened(s, bits), format);
    add(`width:${bits}`, `Use elements of ${bits} bits`, { words, bits });
  }
  return plans;
}

/** `pack=each` leaves nothing for the options of packed pixels to say, the others nothing for the order of whole ones. */
function packed(pack: NonNullable<Options["pack"]>): Wanted {
  if (pack !== "each") return { pack, scan: "default" };
  return { pack, bits: "default", pad: "default", spare: "default", bytes: "default" };
}

/** A pixel that has elements of its own keeps them. */
function widened({ layout }: Subject, bits: Width): Wanted {
  const { alone, format } = layout;
  if (!alone) return {};
  if (format.depth < bits && (format.depth < 8 || bits % format.depth === 0)) return { pack: "each" };
  return { pack: "rows" };
}
