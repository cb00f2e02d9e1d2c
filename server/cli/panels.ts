/** Panels of all files that the command was given, and of those beside a file that was named. */
import { readdirSync, realpathSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { targetOf } from "../../shared/bitmap/open.ts";
import { panelsIn } from "../../shared/bitmap/panels.ts";
import { isWorthReading, mayDefinePanel } from "../../shared/checks/worth.ts";
import type { Panel } from "../../shared/light/panel.ts";
import type { PanelIndex } from "../../shared/light/panelIndex.ts";
import { indexPanels } from "../../shared/light/panelIndex.ts";
import { readSource } from "../../shared/source/read.ts";
import type { Target } from "../../shared/source/types.ts";
import { SOURCE } from "../sources.ts";
import { startProgress } from "./progress.ts";
import { readText, shownPath } from "./stored.ts";

export interface Surveyed {
  readonly panels: PanelIndex;
  /** Files that hold neither an annotation nor an X bitmap. */
  readonly plain: ReadonlySet<string>;
}

/** Looks through the files, and through those `beside` them, for panels. What can't be read is left for later. */
export async function survey(
  files: readonly string[],
  beside: readonly string[],
  target: Target | undefined,
): Promise<Surveyed> {
  const panels: Panel[] = [];
  const plain = new Set<string>();
  const seen = new Set<string>();
  const all = [...files, ...beside];
  const progress = startProgress(all.length, "looking through");
  for (const path of all) {
    await progress.step();
    const full = resolve(path);
    if (seen.has(full)) continue;
    seen.add(full);
    const read = readText(path);
    if (typeof read === "string" || read.unread !== undefined) continue;
    if (!isWorthReading(read.text)) plain.add(path);
    // What it includes is left aside: that would decide a condition around a panel at most.
    else if (mayDefinePanel(read.text)) {
      const source = readSource(read.text, { target: target ?? targetOf(path) });
      panels.push(...panelsIn(source, shownPath(path), idOf(path)));
    }
  }
  progress.end();
  return { panels: indexPanels(panels), plain };
}

/** The source files in the folder of a file. */
export function filesBeside(path: string): string[] {
  const folder = dirname(path);
  try {
    const entries = readdirSync(folder, { withFileTypes: true });
    return entries.filter((e) => e.isFile() && SOURCE.test(e.name)).map((e) => join(folder, e.name));
  } catch {
    return [];
  }
}

/** The path that all ways to name a file lead to. */
export function idOf(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return resolve(path);
  }
}
