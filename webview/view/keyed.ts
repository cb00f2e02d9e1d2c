/** A word, the letter of its key underlined. */
import { el } from "./dom.ts";

export function keyed<K extends "span" | "button">(
  tag: K,
  word: string,
  key: string | undefined,
  className: string,
): HTMLElementTagNameMap[K] {
  const element = el(tag, { class: className });
  const at = key === undefined ? -1 : word.toLowerCase().indexOf(key);
  if (at < 0) element.append(word);
  else element.append(word.slice(0, at), el("u", { text: word.slice(at, at + 1) }), word.slice(at + 1));
  return element;
}
