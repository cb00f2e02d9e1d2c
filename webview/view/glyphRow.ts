/** The glyph at hand: its character, a field to go to another one, and its width where the set has widths. */
import * as l10n from "@vscode/l10n";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { characterOfFrame, codePoint, frameOfTyped, glyphWords, isGlyphSet } from "../glyphs.ts";
import type { Action, State } from "../state.ts";
import { el, fill, setText } from "./dom.ts";
import { keyed } from "./keyed.ts";

export interface GlyphRowView {
  readonly element: HTMLElement;
  draw(bitmap: BitmapInfo, frame: number, readOnly: boolean): void;
  /** Puts the keyboard into the field that goes to a character. */
  jump(): void;
}

export function makeGlyphRow(
  dispatch: (action: Action) => void,
  state: () => State,
  setWidth: (frame: number, width: number) => void,
): GlyphRowView {
  const character = el("b", { class: "glyph" });
  const code = el("span", { class: "dim" });
  const go = el("input", { type: "text", size: "6", spellcheck: "false", autocomplete: "off" });
  const jump = el("label", {}, keyed("span", l10n.t("jump to"), "j", { class: "dim" }), go);
  const width = el("input", { type: "number", min: "0", "aria-label": l10n.t("Width of the glyph in columns") });
  const columns = el("span", { class: "dim" });
  const wide = el("label", {}, el("span", { class: "dim", text: l10n.t("width") }), width, columns);
  const element = el(
    "div",
    { class: "glyphRow", role: "group", "aria-label": l10n.t("Glyph") },
    el("span", {}, character, code),
    jump,
    wide,
  );

  const take = (typed: string) => {
    const { shown, frame } = state();
    if (!shown || typed === "") return;
    const { bitmap } = shown;
    const found = frameOfTyped(bitmap, typed, frame);
    if (typeof found === "number") dispatch({ type: "frame", frame: found });
    const words = typeof found === "number" ? glyphWords(bitmap, found) : found.refused;
    dispatch({ type: "say", note: words });
  };
  // A character by itself; a code or a number is done with Enter.
  go.addEventListener("input", () => {
    if (!state().shown?.bitmap.characters || /^U\+[\da-f]{0,6}$/i.test(go.value)) return;
    go.value = [...go.value].at(-1) ?? "";
    take(go.value);
  });
  go.addEventListener("keydown", (event) => {
    if (event.key === "Enter") {
      take(/^U\+$/i.test(go.value) ? "+" : go.value);
      go.select();
    } else if (event.key === "Escape") document.querySelector<HTMLElement>("[role=gridcell]")?.focus();
  });
  width.addEventListener("change", () => {
    const { shown, frame } = state();
    const typed = width.valueAsNumber;
    if (!shown?.bitmap.widths) return;
    if (Number.isInteger(typed) && typed >= 0 && typed <= shown.bitmap.width) setWidth(frame, typed);
    else dispatch({ type: "say", note: l10n.t("A width is a whole number from 0 to {0}.", shown.bitmap.width) });
  });

  return {
    element,
    draw: (bitmap, frame, readOnly) => {
      element.hidden = !isGlyphSet(bitmap);
      if (element.hidden) return;
      setText(character, characterOfFrame(bitmap, frame));
      const words = codePoint(bitmap, frame);
      setText(code, words === "" || words === character.textContent ? "" : ` ${words}`);
      jump.hidden = bitmap.frames < 2;
      const name = bitmap.characters
        ? l10n.t("Jump to a character: type it, or its code as U+0041")
        : l10n.t("Jump to a frame: type its number");
      go.title = name;
      go.setAttribute("aria-label", name);
      const now = bitmap.widths?.[frame];
      wide.hidden = now === undefined;
      width.max = String(bitmap.width);
      width.disabled = readOnly;
      setText(columns, l10n.t("of {0}", bitmap.width));
      fill(width, String(now ?? ""), `${frame} ${now}`);
    },
    jump: () => {
      if (element.hidden || jump.hidden) return;
      go.focus();
      go.select();
    },
  };
}
