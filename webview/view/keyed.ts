/** Words with the letter of their key underlined. */
import { el } from "./dom.ts";

/** A word on the page; where a translation lacks the letter of its key, that stands behind it. */
export function keyed<K extends "span" | "button">(
  tag: K,
  text: string,
  key: string | undefined,
  given: Readonly<Record<string, string | undefined>>,
): HTMLElementTagNameMap[K] {
  const element = el(tag, given);
  const letter = key !== undefined && /^\p{L}$/u.test(key);
  const at = letter ? text.toLowerCase().indexOf(key) : -1;
  if (at >= 0) element.append(text.slice(0, at), el("u", { text: text.slice(at, at + 1) }), text.slice(at + 1));
  else if (letter) element.append(`${text} (`, el("u", { text: key }), ")");
  else element.append(text);
  return element;
}

/** A word to press; `key` is told to who does not see it. */
export function word(text: string, key: string | undefined, press: () => void, name = "word"): HTMLButtonElement {
  const button = keyed("button", text, key, { type: "button", class: name, "aria-keyshortcuts": key });
  button.addEventListener("click", press);
  return button;
}
