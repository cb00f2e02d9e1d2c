/** The questions as numbered lines, of which one is open with all that can be answered. */
import * as l10n from "@vscode/l10n";
import { el, setText } from "../view/dom.ts";
import type { Field, Question } from "./question.ts";
import type { Change } from "./state.ts";

export interface Asked {
  readonly element: HTMLElement;
  draw(questions: readonly Question[], open: string): void;
}

/** `tell` hears of every answer; `done` is called behind the last question. */
export function makeAsked(tell: (changes: readonly Change[]) => void, done: () => void): Asked {
  const element = el("ol", { class: "questions" });
  let shown: readonly Question[] = [];
  let opened = "";
  let built = "";
  /** The page takes the focus from nobody before something is answered. */
  let first = true;

  const openOne = (key: string) => tell([{ type: "open", question: key }]);
  const next = () => {
    const after = shown[shown.findIndex(({ key }) => key === opened) + 1];
    if (after) openOne(after.key);
    else done();
  };
  element.addEventListener("keydown", (event) => {
    const field = event.target as HTMLElement;
    if (event.key !== "Enter" || event.ctrlKey || event.metaKey || !field.matches("input, select")) return;
    event.preventDefault();
    next();
  });

  const build = (questions: readonly Question[]) => {
    const held = element.contains(document.activeElement) ? (document.activeElement as HTMLElement) : undefined;
    const name = held?.getAttribute("name") ?? undefined;
    element.replaceChildren(
      ...questions.map((question, i) => {
        const open = question.key === opened;
        const word = el("button", {
          class: "word",
          type: "button",
          "aria-expanded": String(open),
          "data-key": question.key,
          text: question.word,
        });
        word.addEventListener("click", () => openOne(question.key));
        const line = el(
          "div",
          { class: "line" },
          el("span", { class: "number", "aria-hidden": "true", text: String(i + 1) }),
          el("div", { class: "said" }, word, el("span", { class: "answer", text: question.answer })),
        );
        const item = el("li", {}, line);
        if (open) item.append(panelOf(question, i === questions.length - 1));
        return item;
      }),
    );
    if (!held) return;
    const same = name && element.querySelector<HTMLElement>(`[name="${name}"]:is([type=text], select, :checked)`);
    (same || firstIn(element))?.focus();
  };

  const panelOf = (question: Question, last: boolean) => {
    const on = el("button", { class: "word", type: "button", text: last ? l10n.t("That is all") : l10n.t("Next") });
    on.addEventListener("click", next);
    return el(
      "fieldset",
      { class: "asked" },
      el("legend", { text: question.ask }),
      ...question.fields.map((field) => fieldOf(field, (value) => tell(current(field.name)?.set(value) ?? []))),
      on,
    );
  };
  /** The field as it is now: what it sets builds on what was chosen since it was drawn. */
  const current = (name: string) =>
    shown.find(({ key }) => key === opened)?.fields.find((field) => field.name === name);

  return {
    element,
    draw: (questions, open) => {
      const moved = open !== opened;
      shown = questions;
      opened = questions.some(({ key }) => key === open) ? open : (questions[0]?.key ?? "");
      const shape = JSON.stringify([
        opened,
        questions.map(({ key, fields }) => [key, key === opened && fields.map(shapeOf)]),
      ]);
      if (shape !== built) {
        built = shape;
        build(questions);
      }
      for (const { key, answer, fields } of questions) {
        const line = element.querySelector(`[data-key="${key}"] + .answer`);
        if (line) setText(line, answer);
        if (key === opened) for (const field of fields) update(element, field);
      }
      if (moved && !first) firstIn(element)?.focus();
      first = false;
    },
  };
}

/** What a field must be built anew for. */
function shapeOf(field: Field) {
  return field.kind === "text"
    ? [field.name]
    : [field.name, field.options.map(({ value, label, hint }) => [value, label, hint])];
}

function firstIn(element: HTMLElement): HTMLElement | null {
  return element.querySelector<HTMLElement>(".asked :is(input:checked, input[type=text], select)");
}

function fieldOf(field: Field, set: (value: string) => void): HTMLElement {
  if (field.kind === "pick") {
    const choices = field.options.map(({ value, label, hint }) => {
      const input = el("input", { type: "radio", name: field.name, value });
      input.addEventListener("change", () => set(value));
      const words = el("span", { class: "choice", text: label });
      return el(
        "label",
        { class: "pick" },
        input,
        words,
        ...(hint ? [el("span", { class: "hint small dim", text: hint })] : []),
      );
    });
    return el(
      "div",
      { class: "field", role: "radiogroup", "aria-label": field.label },
      labelOf(field),
      el("div", { class: "picks" }, ...choices),
    );
  }
  if (field.kind === "list") {
    const list = el("select", { name: field.name, class: "name" });
    for (const { value, label } of field.options) list.append(el("option", { value, text: label }));
    list.addEventListener("change", () => set(list.value));
    return el("label", { class: "field" }, labelOf(field), list);
  }
  const input = el("input", {
    type: "text",
    name: field.name,
    ...(field.hint ? { placeholder: field.hint } : {}),
    ...(field.narrow ? { class: "narrow" } : {}),
    spellcheck: "false",
  });
  input.addEventListener("input", () => set(input.value));
  return el("label", { class: "field" }, labelOf(field), input);
}

function labelOf({ label }: Field): HTMLElement {
  return el("span", { class: "of dim", text: label });
}

/** Values as they are now; what is being typed is left alone. */
function update(element: HTMLElement, field: Field): void {
  if (field.kind === "pick") {
    const inputs = element.querySelectorAll<HTMLInputElement>(`input[type=radio][name="${field.name}"]`);
    for (const input of inputs) input.checked = input.value === field.value;
    return;
  }
  const input = element.querySelector<HTMLInputElement | HTMLSelectElement>(`[name="${field.name}"]`);
  if (input && input !== document.activeElement && input.value !== field.value) input.value = field.value;
}
