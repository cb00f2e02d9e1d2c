/** Text: the glyph set and the field that is typed in. What is typed is on the picture at once. */
import * as l10n from "@vscode/l10n";
import { ARROWS } from "../keys/key.ts";
import { stepOf, turnOf } from "../look.ts";
import type { Action, State } from "../state.ts";
import { setOf } from "../stroke.ts";
import type { Point } from "../tools/shapes.ts";
import type { GlyphSet } from "../tools/text.ts";
import { el, setText } from "./dom.ts";
import type { Part } from "./optionRow.ts";

export function makeTyping(dispatch: (action: Action) => void, state: () => State, leave: () => void): Part {
  const title = l10n.t("Arrows move the text on the picture, Enter writes it, Escape drops it");
  const field = el("input", { type: "text", class: "typed", title, spellcheck: "false", autocomplete: "off" });
  const label = el("label", { class: "typed" }, el("span", { class: "dim", text: l10n.t("text") }), field);
  const list = el("select", { class: "set", "aria-label": l10n.t("Glyph set") });
  const only = el("span", { class: "set" });
  const where = el("div", { class: "sets" }, el("span", { class: "dim", text: l10n.t("glyphs") }), list, only);
  const none = el("p", {
    text: l10n.t(
      "Text needs a glyph set in this file, in a header that it includes or in a file that is open: an array with a frame for each character, annotated for instance “@bitmap 5x7 mono1 frames=94 first='!'” or with chars=\"0123456789:\".",
    ),
  });
  const element = el("div", { class: "typing" }, label, where, none);
  let sets: readonly GlyphSet[] | undefined;
  let from: Point | undefined;
  let wanted = false;

  field.addEventListener("input", () => dispatch({ type: "typed", text: field.value }));
  field.addEventListener("keydown", (event) => {
    const actions = event.isComposing ? undefined : typingKey(event, state());
    if (actions === undefined) return;
    event.preventDefault();
    if (actions === "leave") leave();
    else for (const action of actions) dispatch(action);
    // What is written or dropped is gone at once: the next key may come before the page is drawn.
    field.value = state().stroke?.text ?? "";
  });
  list.addEventListener("change", () => dispatch({ type: "options", options: { set: list.value } }));

  return {
    element,
    draw: (now) => {
      if (sets !== now.sets) {
        list.replaceChildren(...(now.sets ?? []).map((set) => el("option", { value: set.key, text: nameOf(set) })));
        sets = now.sets;
      }
      const chosen = setOf(now);
      const many = (sets?.length ?? 0) > 1;
      label.hidden = chosen === undefined;
      where.hidden = chosen === undefined;
      list.hidden = !many;
      only.hidden = many;
      none.hidden = sets === undefined || chosen !== undefined;
      if (chosen) {
        setText(only, nameOf(chosen));
        list.value = chosen.key;
      }
      const text = now.stroke?.text ?? "";
      if (field.value !== text) field.value = text;
      // Who chose the tool or pressed on the picture goes on by typing.
      const begun = now.stroke?.from;
      if (chosen && (wanted || (begun !== undefined && begun !== from))) field.focus({ preventScroll: true });
      if (sets !== undefined) wanted = false;
      from = begun;
    },
    appeared: () => {
      wanted = true;
    },
  };
}

function nameOf({ name, file, width, height }: GlyphSet): string {
  const size = `${name} ${width}×${height}`;
  return file ? `${size} · ${file}` : size;
}

/** What a key does while text is typed; undefined where it is the field's own. */
function typingKey(event: KeyboardEvent, { stroke, cursor, shown, view }: State): Action[] | "leave" | undefined {
  if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return undefined;
  if (event.key === "Enter") return stroke ? [{ type: "end" }] : "leave";
  if (event.key === "Escape") return stroke ? [{ type: "drop" }] : "leave";
  const arrow = ARROWS[event.key];
  if (!arrow || !shown) return undefined;
  const step = stepOf(arrow, turnOf(shown.bitmap, view));
  const at = stroke?.to ?? cursor;
  const to = { x: at.x + step.x, y: at.y + step.y };
  return [stroke ? { type: "drag", to } : { type: "move", to }];
}
