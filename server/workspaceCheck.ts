/**
 * The findings of all files of the workspace, also of those that are not open: each stored file is checked once, and
 * again when it, what it includes or a panel that it names has changed.
 */
import type { Diagnostic, RemoteConsole } from "vscode-languageserver/node";
import { copied, panelUse } from "../shared/bitmap/panels.ts";
import type { PanelIndex } from "../shared/light/panelIndex.ts";
import { diagnostics } from "./features/diagnostics.ts";
import type { ClientSettings } from "./features/settings.ts";
import type { Around } from "./storedReader.ts";
import { readStoredFile } from "./storedReader.ts";
import { fileName } from "./uris.ts";
import type { Work } from "./work.ts";

/** What was found in a file. */
export interface Checked {
  readonly uri: string;
  /** Differs between any two results in the life of the server. */
  readonly resultId: string;
  /** null for a stored file. */
  readonly version: number | null;
  readonly items: Diagnostic[];
}

export interface WorkspaceCheck {
  /** Checks what has changed, and gives each result as soon as it is there: of all files that are worth reading. */
  run(work: Work, give: (checked: Checked) => void): Promise<void>;
  /** One stored file; undefined for one without annotations and X bitmaps. */
  one(id: string): Promise<Checked | undefined>;
  /** A document or stored file was changed, opened or closed; true where some result may be another now. */
  changed(id: string): boolean;
  /** All files mean something else. */
  forget(): void;
}

interface Given extends Around {
  readonly settings: ClientSettings;
  readonly log: Pick<RemoteConsole, "error">;
}

interface Kept extends Checked {
  readonly asks: ReadonlySet<string>;
  /** What it takes from the panels of other files. */
  readonly use: (around: PanelIndex) => string;
  readonly used: string;
  /** The panels with which that was last seen to be the same. */
  around: PanelIndex;
}

export function createWorkspaceCheck(given: Given): WorkspaceCheck {
  const { documents, files, stored, panels, settings, log } = given;
  const kept = new Map<string, Kept>();
  /** The last result of each file: where another look finds the same, it is the same result. */
  const last = new Map<string, Checked>();
  let serial = 0;
  let asked = 0;

  const check = async (id: string): Promise<Kept | undefined> => {
    const known = kept.get(id);
    if (known && (known.around === panels.index() || known.used === known.use(panels.index()))) {
      known.around = panels.index();
      return known;
    }
    const begun = asked;
    const text = await files.worthReading(id).catch(() => undefined);
    if (text === undefined) return undefined;
    const parsed = await readStoredFile(id, text, given);
    const { file } = parsed;
    const use = panelUse(file);
    const made: Kept = {
      ...resultOf(id, diagnostics(parsed, settings)),
      asks: new Set([...file.source.asks].map(copied)),
      use,
      used: use(panels.index()),
      around: panels.index(),
    };
    // What has changed meanwhile is checked again the next time.
    if (begun === asked) kept.set(id, made);
    return made;
  };

  const resultOf = (uri: string, items: Diagnostic[]): Checked => {
    const before = last.get(uri);
    if (before && JSON.stringify(before.items) === JSON.stringify(items)) return before;
    // As it will travel: words of a file that are kept as pieces of its text would keep all of it.
    const own = JSON.parse(JSON.stringify(items)) as Diagnostic[];
    const result = { uri, resultId: `stored ${++serial}`, version: null, items: own };
    last.set(uri, result);
    return result;
  };

  return {
    async run(work, give) {
      for (const uri of documents.uris()) {
        const parsed = documents.parsed(uri);
        if (!parsed || !files.inside(parsed.file.id)) continue;
        give({ uri, resultId: parsed.serial, version: parsed.version, items: diagnostics(parsed, settings) });
      }
      const ids = [...stored.worth.keys()];
      let done = 0;
      for (const id of ids) {
        if (work.cancelled()) return;
        work.at(done++, ids.length);
        if (documents.isOpen(id)) continue;
        const checked = await check(id).catch((error: unknown) => {
          log.error(`check ${id}: ${error instanceof Error ? error.stack : error}`);
          return undefined;
        });
        if (checked && !documents.isOpen(id)) give(checked);
      }
    },
    one: async (id) => (stored.worth.has(id) ? check(id) : undefined),
    changed(id) {
      asked++;
      let some = kept.delete(id);
      for (const [other, { asks, around }] of kept) {
        const included = asks.has(fileName(id));
        if (included) kept.delete(other);
        some ||= included || around !== panels.index();
      }
      return some;
    },
    forget() {
      asked++;
      kept.clear();
    },
  };
}
