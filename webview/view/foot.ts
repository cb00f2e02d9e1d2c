/** The foot: findings in words, the list of keys, and the one live region of the page. */
import type { Shown } from "../../shared/protocol/webview.ts";
import { el, setText } from "./dom.ts";
import { KEYS } from "./keys.ts";

export interface FootView {
  readonly findings: HTMLElement;
  readonly keys: HTMLElement;
  readonly status: HTMLElement;
  draw(shown: Shown): void;
  /** A note for all, and the words for the pixel cursor, which only screen readers need. */
  say(note: string, pixel: string): void;
}

/** Screen readers should not have to talk through every pixel that the cursor runs over. */
const PAUSE_MS = 200;

export function makeFoot(): FootView {
  const findings = el("ul", { class: "findings", "aria-label": "Findings" });
  const table = el("dl", {}, ...KEYS.flatMap(([key, does]) => [el("dt", { text: key }), el("dd", { text: does })]));
  const keys = el("details", { class: "keys" }, el("summary", { text: "? keys" }), table);
  const note = el("span", { class: "note" });
  const spoken = el("span", { class: "spoken" });
  const status = el(
    "p",
    { class: "status", role: "status", "aria-live": "polite", "aria-atomic": "false" },
    note,
    spoken,
  );
  let shownFindings: Shown["findings"] | undefined;
  let timer: number | undefined;
  return {
    findings,
    keys,
    status,
    draw: (shown) => {
      if (shownFindings === shown.findings) return;
      shownFindings = shown.findings;
      findings.hidden = shown.findings.length === 0;
      findings.replaceChildren(
        ...shown.findings.map(({ severity, message }) =>
          el("li", { class: severity }, el("b", { text: severity }), document.createTextNode(` ${message}`)),
        ),
      );
    },
    say: (words, pixel) => {
      setText(note, words);
      if (timer !== undefined) window.clearTimeout(timer);
      timer = window.setTimeout(() => setText(spoken, pixel), PAUSE_MS);
    },
  };
}
