/** Keys of frames, and what they and the words do; pure. */
import * as l10n from "@vscode/l10n";
import { added, movedTo, removed } from "../frameEditing.ts";
import { nextSpeed, speedOf } from "../motion.ts";
import { playPressed, tried } from "../playing.ts";
import type { Action, State } from "../state.ts";
import { toolOf } from "../tools/tools.ts";

interface Key {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly shiftKey?: boolean;
  readonly repeat?: boolean;
}

/** What is shown behind the question mark. */
export const FRAME_KEYS: readonly (readonly [string, string])[] = [
  ["N", l10n.t("new dark frame behind this one; with Shift a copy of it")],
  [l10n.t("Shift+Delete"), l10n.t("delete the frame")],
  [l10n.t("< and >"), l10n.t("move the frame to before the one before, or behind the next")],
  ["K", l10n.t("play or pause")],
  [l10n.t(", and ."), l10n.t("slower and faster, without a change of the source")],
  ["H", l10n.t("the frame before, or after, as a ghost")],
  ["C", l10n.t("mark what differs from the frame before")],
  [l10n.t("a character"), l10n.t("on the strip of a glyph set: its glyph")],
];

export type FrameDeed =
  | "new"
  | "copy"
  | "delete"
  | "earlier"
  | "later"
  | "play"
  | "slower"
  | "faster"
  | "ghost"
  | "changes";

const SHIFTED: Readonly<Record<string, FrameDeed>> = { n: "copy", delete: "delete" };
const PLAIN: Readonly<Record<string, FrameDeed>> = {
  n: "new",
  k: "play",
  h: "ghost",
  c: "changes",
  ",": "slower",
  ".": "faster",
};

/** What a key asks of the frames; nothing for other keys. */
export function frameKeyActions(key: Key, state: State): Action[] {
  if (!state.shown || key.ctrlKey || key.metaKey || key.altKey) return [];
  const name = key.key.toLowerCase();
  // Who types words where there are no glyphs for them does not ask for frames.
  if (toolOf(state.tool).typed && state.sets?.length === 0 && [...key.key].length === 1) return [];
  const deed = name === "<" ? "earlier" : name === ">" ? "later" : (key.shiftKey ? SHIFTED : PLAIN)[name];
  // Held down, a key would fill the array.
  if (!deed || (key.repeat && ["new", "copy", "delete", "play"].includes(deed))) return [];
  return deedActions(deed, state);
}

/** What there is to do; a stroke under way is ended first. */
export function deedActions(deed: FrameDeed, state: State): Action[] {
  const { shown, frame, motion, stroke } = state;
  if (!shown) return [];
  const several = shown.bitmap.frames > 1;
  const edit = (action: Action | undefined): Action[] =>
    action ? [...(stroke ? [{ type: "end" } as const] : []), action] : [];
  switch (deed) {
    case "new":
      return edit(added(state, "dark"));
    case "copy":
      return edit(added(state, "copy"));
    case "delete":
      return edit(removed(state));
    case "earlier":
      return edit(movedTo(state, frame, frame - 1));
    case "later":
      return edit(movedTo(state, frame, frame + 1));
    case "play":
      return playPressed(state);
    case "slower":
    case "faster":
      return several ? tried(state, { fps: nextSpeed(speedOf(motion, shown), deed === "faster" ? 1 : -1) }) : [];
    case "ghost": {
      const off = motion.before || motion.after;
      return several ? [{ type: "motion", motion: { before: !off, after: false } }] : [];
    }
    case "changes":
      return several ? [{ type: "motion", motion: { changes: !motion.changes } }] : [];
  }
}
