/** The foot: the list of keys, and the one live region of the page. */
import * as l10n from "@vscode/l10n";
import { KEY_GROUPS } from "../keys/page.ts";
import { el, setText } from "./dom.ts";

export interface FootView {
  readonly keys: HTMLElement;
  readonly status: HTMLElement;
  /** A note for all, unless it is `seen` elsewhere; and the words for the pixel cursor, which only screen readers need. */
  say(note: string, seen: boolean, pixel: string): void;
}

/** Screen readers should not have to talk through every pixel that the cursor runs over. */
const PAUSE_MS = 200;

export function makeFoot(): FootView {
  const groups = KEY_GROUPS.flatMap(({ heading, rows }) => [
    el("h3", { text: heading }),
    el("dl", {}, ...rows.flatMap(({ shown, does }) => [el("dt", { text: shown }), el("dd", { text: does })])),
  ]);
  const keys = el("details", { class: "keys" }, el("summary", { text: l10n.t("? keys") }), ...groups);
  const note = el("span", { class: "note" });
  const spoken = el("span", { class: "spoken" });
  const status = el(
    "p",
    { class: "status", role: "status", "aria-live": "polite", "aria-atomic": "false" },
    note,
    spoken,
  );
  let timer: number | undefined;
  return {
    keys,
    status,
    say: (words, seen, pixel) => {
      setText(note, words);
      note.classList.toggle("spoken", seen);
      if (timer !== undefined) window.clearTimeout(timer);
      timer = window.setTimeout(() => setText(spoken, pixel), PAUSE_MS);
    },
  };
}
