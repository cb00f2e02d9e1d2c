/** Texts to mutate: our own sample and test sources, generated firmware in every form, and documents of the property tests. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { decodeText } from "../../server/text.ts";
import { documents } from "../property/documents.ts";
import { render } from "../property/render.ts";
import { formsCorpus } from "../support/formsCorpus.ts";

/** Larger texts are cut: most mutants should be small, so that many of them fit into a run. */
const MOST = 6000;
/** Documents with annotated bitmaps of every format and layout. */
const ANNOTATED = 400;
const FOLDERS = ["sample-workspace", "tests/support/offersCorpus", "tests/support/shed"];
const SOURCE = /\.(?:c|cc|cpp|h|hh|hpp|ino|xbm|inc)$/;

export interface Seed {
  readonly file: string;
  readonly text: string;
}

/** `root` is the folder of the project. */
export function seeds(root: string): Seed[] {
  const found: Seed[] = [];
  for (const folder of FOLDERS) {
    for (const file of readdirSync(join(root, folder), { recursive: true }) as string[]) {
      if (SOURCE.test(file)) found.push({ file, text: decodeText(readFileSync(join(root, folder, file))).text });
    }
  }
  for (const { path, bytes } of formsCorpus(2)) found.push({ file: path, text: decodeText(bytes).text });
  const plans = fc.sample(documents(3), { numRuns: ANNOTATED, seed: 7 });
  return [...found.flatMap(pieces), ...plans.map(render).flatMap(pieces)];
}

/** Whole lines, so many that a piece stays below the limit. */
function pieces({ file, text }: Seed): Seed[] {
  const out: Seed[] = [];
  for (let from = 0; from < text.length; ) {
    const cut = from + MOST >= text.length ? text.length : text.lastIndexOf("\n", from + MOST) + 1;
    const to = cut > from ? cut : Math.min(text.length, from + MOST);
    out.push({ file, text: text.slice(from, to) });
    from = to;
  }
  return out;
}
