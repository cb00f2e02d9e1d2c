/** What each panel draws at most, and all of them together. */
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { SUPPLIES } from "../../shared/checks/cautions.ts";
import { panelCurrent } from "../../shared/checks/panelCurrent.ts";
import { counted } from "../../shared/checks/rules.ts";
import { milliamperes } from "../../shared/light/current.ts";
import type { Command } from "./command.ts";
import { needPaths } from "./command.ts";
import { forEachFile, shownPath } from "./files.ts";

interface Supplied {
  /** undefined for bitmaps that name no panel. */
  readonly panel?: string;
  /** Milliamperes, an estimate. */
  readonly worst: number;
  readonly mean: number;
  readonly budget?: number;
  /** Where most is drawn. */
  readonly file: string;
  readonly name: string;
  readonly frame: number;
  readonly bitmaps: number;
}

export const currentCommand: Command = {
  name: "current",
  usage: "[--json] PATH…",
  doc: "estimated milliamperes of each panel with full=: its worst frame, the mean, and all panels at once",
  options: { json: "flag" },
  async run(paths, { json }, target, print) {
    needPaths(paths);
    /** By the panel's name and the file that defines it. */
    const groups = new Map<string, { readonly file: string; readonly bitmap: Bitmap }[]>();
    await forEachFile(paths, target, ({ file, bitmaps }) => {
      for (const bitmap of bitmaps) {
        if (bitmap.options.full === undefined) continue;
        const key = bitmap.panel ? `${bitmap.panel.file} ${bitmap.panel.name}` : "";
        const group = groups.get(key);
        if (group) group.push({ file, bitmap });
        else groups.set(key, [{ file, bitmap }]);
      }
    });
    const supplied = [...groups.values()].flatMap((group) => suppliedBy(group));
    const all = supplied.reduce((sum, { worst }) => sum + worst, 0);
    if (json) print(`${JSON.stringify({ panels: supplied, worst: all })}\n`);
    else {
      for (const one of supplied) print(`${inWords(one)}\n`);
      if (supplied.length > 1) print(`All of them at once: about ${milliamperes(all)} at most.\n`);
      print(supplied.length > 0 ? `${SUPPLIES}\n` : "No bitmap says what its pixels draw (full=).\n");
    }
    return 0;
  },
};

function suppliedBy(group: readonly { readonly file: string; readonly bitmap: Bitmap }[]): Supplied[] {
  const found = panelCurrent(group.map(({ bitmap }) => bitmap));
  if (!found) return [];
  const { worst, mean, bitmap, frame, bitmaps } = found;
  const { budget } = bitmap.options;
  const file = group.find((one) => one.bitmap === bitmap)?.file ?? "";
  return [
    {
      ...(bitmap.panel ? { panel: bitmap.panel.name } : {}),
      worst: rounded(worst),
      mean: rounded(mean),
      ...(budget === undefined ? {} : { budget }),
      file: shownPath(file),
      name: bitmap.array.name,
      frame,
      bitmaps,
    },
  ];
}

/** Two decimals are more than an estimate has. */
function rounded(value: number): number {
  return Math.round(value * 100) / 100;
}

function inWords({ panel = "without a panel", worst, mean, budget, file, name, frame, bitmaps }: Supplied): string {
  const limit =
    budget === undefined ? "" : ` of a budget of ${milliamperes(budget)}${worst > budget ? ", over it" : ""}`;
  return `${panel}: about ${milliamperes(worst)}${limit} (${name}, frame ${frame}, ${file}), ${milliamperes(mean)} in the mean of ${counted(bitmaps, "bitmap")}`;
}
