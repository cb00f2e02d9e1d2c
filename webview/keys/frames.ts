/** Keys of frames, and what they and the words on the page do; pure. */
import * as l10n from "@vscode/l10n";
import { added, movedTo, removed } from "../frameEditing.ts";
import { nextSpeed, speedOf } from "../motion.ts";
import { playPressed, tried } from "../playing.ts";
import type { Action, State } from "../state.ts";
import type { KeyRow } from "./key.ts";

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

const does = (deed: FrameDeed) => (state: State) => deedActions(deed, state);

export const FRAME_ROWS: readonly KeyRow[] = [
  {
    shown: l10n.t("PageUp, PageDown"),
    does: l10n.t("frame before and after"),
    own: { on: "grid", keys: ["PageUp", "PageDown"] },
  },
  { shown: "J", does: l10n.t("jump to a character of a glyph set, which is then typed"), page: { j: () => "jump" } },
  {
    shown: l10n.t("N, Shift+N"),
    does: l10n.t("new dark frame behind this one, a copy of it"),
    page: { n: does("new"), "Shift+n": does("copy") },
    once: true,
  },
  {
    shown: l10n.t("Shift+Delete"),
    does: l10n.t("delete the frame"),
    page: { "Shift+Delete": does("delete"), "Shift+Backspace": does("delete") },
    once: true,
  },
  {
    shown: l10n.t("< and >"),
    does: l10n.t("move the frame to before the one before, or behind the next"),
    page: { "<": does("earlier"), ">": does("later") },
  },
  {
    shown: l10n.t("on the strip"),
    does: l10n.t("arrows go to a frame, with Ctrl they move it, Delete deletes it; a character goes to its glyph"),
    own: {
      on: "strip",
      keys: ["ArrowLeft", "ArrowRight", "Home", "End", "Ctrl+ArrowLeft", "Ctrl+ArrowRight", "Delete"],
    },
  },
  {
    shown: l10n.t("on a mark of a motion"),
    does: l10n.t("arrows step its edge, flank or end, with Shift by ten"),
    own: {
      on: "motion",
      keys: ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "PageUp", "PageDown", "Home", "End"],
    },
  },
  { shown: "K", does: l10n.t("play or pause"), page: { k: does("play") }, once: true },
  {
    shown: l10n.t(", and ."),
    does: l10n.t("slower and faster, without a change of the source"),
    page: { ",": does("slower"), ".": does("faster") },
  },
  { shown: "H", does: l10n.t("the frame before, or after, as a ghost"), page: { h: does("ghost") } },
  { shown: "C", does: l10n.t("mark what differs from the frame before"), page: { c: does("changes") } },
];

/** What there is to do. */
export function deedActions(deed: FrameDeed, state: State): Action[] {
  const { shown, frame, motion } = state;
  if (!shown) return [];
  const several = shown.bitmap.frames > 1;
  const edit = (action: Action | undefined): Action[] => (action ? [action] : []);
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
