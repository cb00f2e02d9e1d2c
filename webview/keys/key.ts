/** A press of a key, its name, and what one does; pure. */
import type { Action, State } from "../state.ts";
import type { Point } from "../tools/shapes.ts";

export interface Key {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly shiftKey?: boolean;
  readonly repeat?: boolean;
}

/** What only the parts of the page can do: go to a field, or zoom. */
export type PageDeed = "jump" | "type" | "closer" | "farther" | "fit";

/** Nothing where there are no actions. */
export type Deed = readonly Action[] | PageDeed;

/** A line of the list of keys. */
export interface KeyRow {
  /** The keys as people read them. */
  readonly shown: string;
  readonly does: string;
  /** What they do wherever nothing is typed, by their names (see `namesOf`). */
  readonly page?: Readonly<Record<string, (state: State) => Deed>>;
  /** Held down, a key would do it again and again. */
  readonly once?: true;
  /** Keys that a part of the page takes itself: on the grid, the clipboard everywhere, on the strip, on marks of a motion, in the field for text. */
  readonly own?: { readonly on: "grid" | "clipboard" | "strip" | "motion" | "text"; readonly keys: readonly string[] };
}

export const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};

/**
 * The names of a press, the most exact first: `Shift+n` and `n`, `Ctrl+a`, `Escape`. Letters are small, and Cmd is Ctrl.
 * A sign is what it is, whichever keys type it: on some keyboards Alt is one of them.
 */
export function namesOf({ key, ctrlKey, metaKey, altKey, shiftKey }: Key): string[] {
  const name = key.length === 1 ? key.toLowerCase() : key;
  const sign = key.length === 1 && !/[\p{L}\p{N}]/u.test(key);
  if (altKey && !sign) return [];
  if (ctrlKey || metaKey) return shiftKey ? [] : [`Ctrl+${name}`];
  return shiftKey ? [`Shift+${name}`, name] : [name];
}
