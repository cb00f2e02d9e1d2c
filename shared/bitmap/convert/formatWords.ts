/** Which words a bitmap's options take in another format. */
import type { Format } from "../../pixels/formats.ts";
import { isWhole } from "../../pixels/layout.ts";
import type { Options } from "../../pixels/options.ts";
import type { Subject } from "./subject.ts";
import type { Wanted } from "./words.ts";
import { wordsToMean } from "./words.ts";

/** The words that keep the order of pixels, and drop what the format rules out. */
export function formatWords(s: Subject, format: Format, bits: number): Map<string, string | undefined> {
  const { bitmap, layout } = s;
  const { pack, scan, alone, bytes } = layout;
  const wasWhole = isWhole(layout.format, pack);
  const byColumns = wasWhole ? scan === "columns" : pack === "columns";
  const shared = format.depth < bits && bits % format.depth === 0;
  let now: NonNullable<Options["pack"]> = "rows";
  if (pack === "each") now = format.depth < 8 || format.depth < bits ? "each" : "rows";
  else if (format.depth < 8) now = wasWhole ? (byColumns ? "columns" : "rows") : pack;
  else if (wasWhole && alone && shared) now = "each";
  const whole = isWhole(format, now);
  const wanted: Wanted = {
    pack: now,
    scan: !whole ? "default" : wasWhole ? scan : byColumns ? "columns" : "rows",
    light: bitmap.light,
    ...(whole || wasWhole ? { bits: "default" } : {}),
    ...(whole && !wasWhole ? { pad: "default", spare: "default" } : {}),
    bytes: format.depth > 8 && layout.format.depth > 8 ? bytes : "default",
  };
  if (!whole && !wasWhole) return wordsToMean(bitmap, { pack: now, light: bitmap.light }, format);
  return wordsToMean(bitmap, wanted, format);
}
