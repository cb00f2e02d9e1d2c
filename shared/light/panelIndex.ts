/**
 * Panels by name, over all files. Of several definitions of a name one holds, and which one depends on the file that
 * asks: its own, else that of the first file that it includes, else that in the nearest folder, else the first by path.
 */
import type { Panel } from "./panel.ts";
import { wiringKey, wordsOfPanel } from "./panel.ts";

export interface PanelIndex {
  /** All definitions of a name, the one that holds first; none where the name is not known. */
  get(name: string): readonly Panel[];
  readonly names: PanelNames;
}

/** The names of all panels, to ask for one or to go through. */
export interface PanelNames extends Iterable<string> {
  has(name: string): boolean;
}

/** The rule in words, for findings about a name that is defined twice. */
export const WHICH_HOLDS =
  "A bitmap takes the one in its own file, else in the first file that it includes, else in the nearest folder, else the first by path.";

/** Groups panels by name, as they come. */
export function indexPanels(panels: Iterable<Panel>): PanelIndex {
  const byName = new Map<string, Panel[]>();
  for (const panel of panels) {
    const known = byName.get(panel.name);
    if (known) known.push(panel);
    else byName.set(panel.name, [panel]);
  }
  return {
    get: (name) => byName.get(name) ?? [],
    names: { has: (name) => byName.has(name), [Symbol.iterator]: () => byName.keys() },
  };
}

/** Of each name the definition that holds. */
export function panelsOf(index: PanelIndex): Panel[] {
  return [...index.names].flatMap((name) => index.get(name)[0] ?? []);
}

/** Only the definitions that hold, for a text that stands for a part of the file that knows them. */
export function holding(index: PanelIndex): PanelIndex {
  return indexPanels(panelsOf(index));
}

/** A file that asks: its id, its own panels, and those of what it includes, by id, in the order of inclusion. */
interface Asking {
  readonly id: string;
  readonly own: readonly Panel[];
  readonly included: ReadonlyMap<string, readonly Panel[]>;
}

/** The panels that a file knows, each name's own order. `around` may hold those of the file itself, also old ones. */
export function seenFrom({ id, own, included }: Asking, around: PanelIndex): PanelIndex {
  const near = indexPanels([...own, ...[...included.values()].flat()]);
  const seen = new Map<string, readonly Panel[]>();
  const get = (name: string): readonly Panel[] => {
    const known = seen.get(name);
    if (known) return known;
    const others = around.get(name).filter((panel) => panel.id !== id && !included.has(panel.id));
    const all = [...near.get(name), ...byDistance(others, id)];
    seen.set(name, all);
    return all;
  };
  const has = (name: string) => near.names.has(name) || get(name).length > 0;
  return {
    get,
    names: {
      has,
      *[Symbol.iterator]() {
        yield* near.names;
        for (const name of around.names) if (!near.names.has(name) && has(name)) yield name;
      },
    },
  };
}

/** Whether two definitions are equally near to a file, so that only their paths decide between them. */
export function areEquallyNear(a: Panel, b: Panel, id: string): boolean {
  const from = foldersOf(id);
  const [one, other] = [foldersOf(a.id), foldersOf(b.id)];
  return one.length === other.length && common(from, one) === common(from, other);
}

/** Whether the folder of one holds that of the other: then files below have both at hand. */
export function areNested(a: Panel, b: Panel): boolean {
  const [one, other] = [foldersOf(a.id), foldersOf(b.id)];
  return common(one, other) === Math.min(one.length, other.length);
}

function byDistance(panels: readonly Panel[], id: string): readonly Panel[] {
  if (panels.length < 2) return panels;
  const from = foldersOf(id);
  const shared = new Map(panels.map((panel) => [panel, common(from, foldersOf(panel.id))]));
  const of = (panel: Panel) => shared.get(panel) as number;
  return [...panels].sort(
    (a, b) =>
      of(b) - of(a) || foldersOf(a.id).length - foldersOf(b.id).length || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0),
  );
}

function foldersOf(id: string): string[] {
  return id.split(/[\\/]/).slice(0, -1);
}

function common(a: readonly string[], b: readonly string[]): number {
  let count = 0;
  while (count < a.length && count < b.length && a[count] === b[count]) count++;
  return count;
}

/**
 * All that the meaning of a file takes from the index, as one text: it changes where a definition does that one of these
 * words names. `all`: the file also depends on which names there are, as a word of it is none of them.
 */
export function panelKey(words: Iterable<string>, index: PanelIndex, all: boolean): string {
  const parts: string[] = [];
  for (const word of new Set(words)) {
    const defined = index.get(word);
    if (defined.length === 0) continue;
    // Of several definitions the lines are told; of one only the file that uses it knows.
    const told = defined.length > 1;
    parts.push(
      JSON.stringify([word, ...defined.map((p) => [p.id, wordsOfPanel(p), wiringKey(p), told ? p.place?.line : 0])]),
    );
  }
  return all ? [...parts, ...index.names].join("\n") : parts.join("\n");
}
