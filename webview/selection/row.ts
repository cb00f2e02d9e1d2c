/** What can be done to the selection, as words; to be seen only where there is one, or its tool is in hand. */
import * as l10n from "@vscode/l10n";
import { isActive } from "../keys/selection.ts";
import { stepOf, turnOf } from "../look.ts";
import { whyNot } from "../refusal.ts";
import type { Action, State } from "../state.ts";
import type { Point } from "../tools/shapes.ts";
import { valueText } from "../values.ts";
import { el, setText } from "../view/dom.ts";
import { word } from "../view/keyed.ts";
import type { Change } from "./change.ts";
import { makeGroups } from "./groups.ts";
import { selectionPlace, selectionWords } from "./selection.ts";
import { cropped, extended } from "./sizing.ts";

/** Copying and pasting, which need more than the state. */
export interface Clipboard {
  copy(cut: boolean): void;
  paste(): void;
}

export interface SelectionRowView {
  readonly element: HTMLElement;
  draw(now: State): void;
}

export function makeSelectionRow(
  dispatch: (action: Action) => void,
  state: () => State,
  clipboard: Clipboard,
): SelectionRowView {
  const element = el("section", { class: "selecting", "aria-label": l10n.t("Selection") });
  let draw: ((now: State) => void) | undefined;
  let floated = false;
  return {
    element,
    draw: (now) => {
      const focused = element.contains(document.activeElement) ? (document.activeElement as HTMLElement) : undefined;
      element.hidden = !isActive(now);
      if (!element.hidden) {
        // Built when it is first needed.
        draw ??= build(element, dispatch, state, clipboard);
        draw(now);
      }
      // The keys that go on from here are those of the grid: what floats is moved there, and a word that is gone has none.
      const gone = element.hidden || focused?.hidden === true;
      if (focused && (gone || floated !== (now.float !== undefined)))
        document.querySelector<HTMLElement>(".grid .cursor")?.focus();
      floated = now.float !== undefined;
    },
  };
}

function build(
  element: HTMLElement,
  dispatch: (action: Action) => void,
  state: () => State,
  clipboard: Clipboard,
): (now: State) => void {
  const act = (text: string, key: string | undefined, action: () => Action, title?: string) => {
    const button = word(text, key, () => dispatch(action()));
    if (title !== undefined) button.title = title;
    return button;
  };
  const change = (text: string, key: string | undefined, wanted: Change, title?: string) =>
    act(text, key, () => ({ type: "change", change: wanted }), title);
  /** As it is seen on the screen. */
  const shift = (text: string, step: Point, arrow: string) => {
    const by = () => {
      const now = state();
      return now.shown ? stepOf(step, turnOf(now.shown.bitmap, now.view)) : step;
    };
    const title = l10n.t("by one; what goes out comes in again: Ctrl and the arrow");
    const shifted = act(
      text,
      `Control+${arrow}`,
      () => ({ type: "change", change: { kind: "shift", by: by() } }),
      title,
    );
    shifted.setAttribute("aria-label", l10n.t("Shift {0}", text));
    return shifted;
  };

  const extend = (text: string, step: Point) => {
    const button = word(text, undefined, () => {
      const now = state();
      const action = now.shown && extended(now, stepOf(step, turnOf(now.shown.bitmap, now.view)));
      if (action) dispatch(action);
    });
    button.title = l10n.t("by one dark column or row, in all frames; size, annotation and declared length follow");
    button.setAttribute("aria-label", l10n.t("Extend {0}", text));
    return button;
  };

  const what = el("span", { class: "what" });
  const all = act(l10n.t("All"), "Control+a", () => ({ type: "selectAll" }), l10n.t("select all pixels: Ctrl+A"));
  const level = act(l10n.t("Same level"), "v", () => ({ type: "selectLevel" }));
  level.title = l10n.t("select every pixel of the level under the pixel cursor");
  const none = act(l10n.t("Let go"), "Escape", () => ({ type: "letGo" }), l10n.t("key Escape"));
  const named = (button: HTMLButtonElement, name: string) => {
    button.setAttribute("aria-label", name);
    return button;
  };
  const right = named(change(l10n.t("right"), "r", { kind: "turn", turn: "right" }), l10n.t("Turn right"));
  const left = named(change(l10n.t("left"), "Shift+r", { kind: "turn", turn: "left" }), l10n.t("Turn left"));
  left.title = l10n.t("key Shift+R");
  const columns = named(change(l10n.t("columns"), "u", { kind: "mirror", what: "columns" }), l10n.t("Mirror columns"));
  columns.title = l10n.t("left for right");
  const rows = named(change(l10n.t("rows"), "Shift+u", { kind: "mirror", what: "rows" }), l10n.t("Mirror rows"));
  rows.title = l10n.t("top for bottom: key Shift+U");
  const group = (name: string, ...words: HTMLElement[]) => el("div", { role: "group", "aria-label": name }, ...words);
  const shifts = group(
    l10n.t("Shift"),
    shift(l10n.t("left"), { x: -1, y: 0 }, "ArrowLeft"),
    shift(l10n.t("right"), { x: 1, y: 0 }, "ArrowRight"),
    shift(l10n.t("up"), { x: 0, y: -1 }, "ArrowUp"),
    shift(l10n.t("down"), { x: 0, y: 1 }, "ArrowDown"),
  );
  const sides = group(
    l10n.t("Extend"),
    el("span", { class: "dim", text: l10n.t("Extend") }),
    extend(l10n.t("left"), { x: -1, y: 0 }),
    extend(l10n.t("right"), { x: 1, y: 0 }),
    extend(l10n.t("up"), { x: 0, y: -1 }),
    extend(l10n.t("down"), { x: 0, y: 1 }),
  );
  const crop = word(l10n.t("Crop to selection"), undefined, () => {
    const action = cropped(state());
    if (action) dispatch(action);
  });
  crop.title = l10n.t("cut off what is around it, in all frames; size, annotation and declared length follow");
  const invert = change(l10n.t("Invert"), "i", { kind: "invert" });
  const erase = change(l10n.t("Erase it"), "Delete", { kind: "erase" }, l10n.t("key Delete"));
  const fill = change("", undefined, { kind: "fill" });
  const move = act(l10n.t("Move"), "Enter", () => ({ type: "lift", copy: false }));
  move.title = l10n.t("by dragging, or with the arrows; Enter puts down, Escape drops");
  const down = act(l10n.t("Put down"), "Enter", () => ({ type: "putDown" }), l10n.t("key Enter"));
  const copy = word(l10n.t("Copy"), "Control+c", () => clipboard.copy(false));
  const cut = word(l10n.t("Cut"), "Control+x", () => clipboard.copy(true));
  const paste = word(l10n.t("Paste"), "Control+v", () => clipboard.paste());
  copy.title = l10n.t("as an array in C and as a picture: Ctrl+C");
  cut.title = l10n.t("copy, then erase: Ctrl+X");
  paste.title = l10n.t("an array in C, or a picture: Ctrl+V");
  const frames = act(l10n.t("in all frames"), undefined, () => ({ type: "allFrames", on: !state().allFrames }));
  frames.title = l10n.t("turn, mirror, shift, invert, erase and fill the same pixels of every frame");
  const groups = makeGroups([
    { name: l10n.t("Clipboard"), element: group(l10n.t("Clipboard"), copy, cut, paste) },
    { name: l10n.t("Turn"), element: group(l10n.t("Turn"), left, right) },
    { name: l10n.t("Mirror"), element: group(l10n.t("Mirror"), columns, rows) },
    { name: l10n.t("Shift"), element: shifts },
    { name: l10n.t("Size"), element: group(l10n.t("Size"), crop, sides), useful: () => !crop.hidden || !sides.hidden },
  ]);
  element.append(
    group(l10n.t("Select"), what, all, level, none),
    group(l10n.t("Change"), move, down, invert, erase, fill, frames),
    groups.names,
    groups.open,
  );

  return (now) => {
    const { selection, float, shown } = now;
    const fixed = whyNot(now) !== undefined;
    setText(what, selection ? selectionPlace(selection) : float ? l10n.t("moving") : l10n.t("the whole frame"));
    what.title = selection ? selectionWords(selection) : "";
    setText(fill, l10n.t("Fill with {0}", shown ? valueText(shown.bitmap, now.level) : now.level));
    none.hidden = !selection && !float;
    setText(none, float ? l10n.t("Drop") : l10n.t("Let go"));
    down.hidden = !float;
    for (const one of [all, level, move, cut]) one.hidden = float !== undefined;
    frames.hidden = float !== undefined || (shown?.bitmap.frames ?? 1) < 2;
    frames.setAttribute("aria-pressed", String(now.allFrames === true));
    for (const one of [right, left, columns, rows, invert, erase, fill, move, down, cut, paste]) one.disabled = fixed;
    sides.hidden = now.tool !== "select" || float !== undefined;
    crop.hidden = cropped(now) === undefined;
    for (const one of [crop, ...element.querySelectorAll<HTMLButtonElement>("button[aria-label]")])
      one.disabled = fixed;
    groups.draw();
  };
}
