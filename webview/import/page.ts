/** The page of an import: the line that would be written, source and result, and the questions in between. */
import * as l10n from "@vscode/l10n";
import { el, setText } from "../view/dom.ts";
import { onThemeChange, readTheme, tellStyle } from "../view/theme.ts";
import { makeAsked } from "./asked.ts";
import { channelName } from "./lightQuestions.ts";
import { makePair } from "./pair.ts";
import { questionsOf } from "./questions.ts";
import type { Change, State } from "./state.ts";

interface Deeds {
  tell(changes: readonly Change[]): void;
  write(): Promise<void>;
  leave(): void;
}

export interface ImportPage {
  draw(state: State): void;
  /** Says why there is nothing to choose. */
  fail(why: string): void;
}

export function makeImportPage(root: HTMLElement, { tell, write, leave }: Deeds): ImportPage {
  let theme = readTheme();
  let last: State | undefined;
  const number = el("span", { class: "number", "aria-hidden": "true" });
  const code = el("code");
  const facts = el("p", { class: "facts dim" });
  const pair = makePair();
  const count = el("span", { class: "dim" });
  const [earlier, later] = [word(l10n.t("Earlier")), word(l10n.t("Later"))];
  const frames = el("div", { class: "steps", role: "group", "aria-label": l10n.t("pictures") }, count, earlier, later);
  const note = el("ul", { class: "notes small", role: "status", "aria-live": "polite" });
  const why = el("p", { class: "why", role: "alert" });
  const doIt = el("button", { class: "do", type: "button", text: l10n.t("Write it"), title: "Ctrl+Enter" });
  const leaveIt = word(l10n.t("Leave it"));
  const asked = makeAsked(tell, () => doIt.focus());
  const foot = el("div", { class: "do-row" }, doIt, leaveIt);
  const head = el("h1", { class: "line" }, number, code);
  root.replaceChildren(
    el("section", { class: "page import" }, head, facts, pair.element, frames, why, note, asked.element, foot),
  );
  tellStyle(root, theme);

  const step = (by: number) => last && tell([{ type: "frame", frame: last.frame + by }]);
  earlier.addEventListener("click", () => step(-1));
  later.addEventListener("click", () => step(1));
  doIt.addEventListener("click", () => void write());
  leaveIt.addEventListener("click", leave);
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || !(event.ctrlKey || event.metaKey)) return;
    event.preventDefault();
    void write();
  });
  const again = () => last && draw(last);
  onThemeChange(() => {
    theme = readTheme();
    tellStyle(root, theme);
    again();
  });
  new ResizeObserver(again).observe(root);

  const draw = (state: State) => {
    last = state;
    const { begin, preview, refused, waiting, place } = state;
    setText(number, place.kind === "new" ? String(begin.line) : "");
    const shown = refused === undefined ? preview : undefined;
    setText(code, shown?.annotation ?? preview?.annotation ?? "");
    setText(facts, factsOf(state));
    root.classList.toggle("stale", refused !== undefined);
    root.setAttribute("aria-busy", String(waiting));
    pair.draw(preview, state.frame, captions(state), theme);
    const pictures = preview?.frames.length ?? 1;
    frames.hidden = pictures < 2;
    setText(count, l10n.t("picture {0} of {1}", state.frame + 1, pictures));
    earlier.disabled = state.frame === 0;
    later.disabled = state.frame >= pictures - 1;
    why.hidden = refused === undefined;
    setText(why, refused ?? "");
    drawNotes(state);
    asked.draw(questionsOf(state), state.open);
    doIt.disabled = refused !== undefined || !preview;
  };

  let told = "";
  const drawNotes = ({ preview, refused }: State) => {
    const notes = refused === undefined ? (preview?.notes ?? []) : [];
    const instead = refused === undefined ? preview?.instead : undefined;
    const key = JSON.stringify([notes, instead]);
    note.hidden = notes.length === 0;
    if (key === told) return;
    told = key;
    note.replaceChildren(...notes.map((text) => el("li", { text })));
    if (!instead) return;
    const take = word(l10n.t("Take {0}", channelName(instead)));
    take.addEventListener("click", () => tell([{ type: "choose", choices: { channel: instead } }]));
    note.append(el("li", {}, take));
  };

  return {
    draw,
    fail: (reason) => root.replaceChildren(el("p", { class: "why", text: reason })),
  };
}

function word(text: string): HTMLButtonElement {
  return el("button", { class: "word", type: "button", text });
}

function factsOf({ preview }: State): string {
  if (!preview) return "";
  const { name, width, height, format, bytes, frames } = preview.bitmap;
  const many = frames > 1 ? [l10n.t("{0} frames", frames)] : [];
  return [name, `${width}×${height}`, format, ...many, l10n.t("{0} bytes", bytes)].join(" · ");
}

function captions({ begin, preview, frame }: State): [string, string] {
  const { names, opened } = begin;
  const name = names[frame] ?? names[0] ?? "";
  const bitmap = preview?.bitmap;
  const of = preview && bitmap && bitmap.frames > 1 ? ` ${l10n.t("frame {0}", preview.frame + frame)}` : "";
  return [`${name} ${opened.width}×${opened.height}`, `${bitmap?.name ?? ""}${of}`];
}
