/** One value by another: which is replaced, by which, and in which frames. Closed, it is one word. */
import * as l10n from "@vscode/l10n";
import { mostUsed } from "../light.ts";
import { replaceableIn, replacedFirst } from "../replace.ts";
import { inSelection, type Selection } from "../selection/selection.ts";
import type { Action, State } from "../state.ts";
import { inOrder, valueText } from "../values.ts";
import { pixelCount } from "../words.ts";
import { el, setText } from "./dom.ts";
import { word } from "./keyed.ts";
import type { Lamps } from "./lamps.ts";
import type { Model } from "./model.ts";

export interface ReplaceView {
  readonly element: HTMLElement;
  draw(model: Model, lamps: Lamps, readOnly: boolean): void;
}

/** More values than this are no list to choose from: then those that most pixels have. */
const MOST = 64;

export function makeReplace(dispatch: (action: Action) => void, state: () => State): ReplaceView {
  const open = word(l10n.t("Exchange"), "x", () =>
    dispatch({ type: "replacing", value: shown ? undefined : replacedFirst(state()) }),
  );
  open.setAttribute("aria-expanded", "false");
  const from = el("select", { class: "name", "aria-label": l10n.t("Value to replace") });
  const [before, after] = [el("span", { class: "chip" }), el("span", { class: "chip" })];
  const by = el("span", {});
  const where = el("div", { class: "dim", text: l10n.t("in the selection:") });
  const one = el("button", { type: "button", class: "word" });
  const all = el("button", { type: "button", class: "word" });
  const row = el(
    "div",
    { class: "replacing", role: "group", "aria-label": l10n.t("Replace") },
    el("div", {}, before, from),
    el("div", {}, after, by),
    where,
    one,
    all,
  );
  const element = el("div", { class: "replace" }, open, row);
  let shown = false;
  let back: HTMLElement | undefined;
  let options = "";

  from.addEventListener("change", () => dispatch({ type: "replacing", value: Number(from.value) }));
  one.addEventListener("click", () => dispatch({ type: "replace", frames: "one" }));
  all.addEventListener("click", () => dispatch({ type: "replace", frames: "all" }));
  // The list takes the page's keys for its own letters.
  row.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    event.preventDefault();
    dispatch({ type: "replacing", value: undefined });
  });

  const show = (wanted: boolean) => {
    if (wanted === shown) return;
    shown = wanted;
    row.hidden = !wanted;
    open.setAttribute("aria-expanded", String(wanted));
    if (wanted) {
      back = document.activeElement instanceof HTMLElement ? document.activeElement : undefined;
      from.focus();
    } else if (row.contains(document.activeElement) || document.activeElement === document.body)
      (back?.isConnected ? back : open).focus();
  };
  row.hidden = true;

  return {
    element,
    draw: ({ now, shown: { bitmap }, pictures, pixels, light }, lamps, readOnly) => {
      const { replacing, level, selection } = now;
      open.disabled = readOnly;
      open.title = selection
        ? l10n.t("one value for the chosen one, in the selected pixels")
        : l10n.t("one value for the chosen one, everywhere");
      where.hidden = selection === undefined;
      if (replacing === undefined) {
        show(false);
        return;
      }
      const counts = selection ? replaceableIn(pixels, selection) : light.counts;
      const values = listed(counts, replacing);
      const order = inOrder(bitmap, values);
      const key = order.map((value) => `${value}×${counts.get(value) ?? 0}`).join();
      if (key !== options)
        from.replaceChildren(
          ...order.map((value) => {
            const count = counts.get(value) ?? 0;
            return el("option", { value: String(value), text: `${valueText(bitmap, value)} ×${count}` });
          }),
        );
      options = key;
      from.value = String(replacing);
      before.style.backgroundColor = lamps.lit(replacing) ?? lamps.face;
      after.style.backgroundColor = lamps.lit(level) ?? lamps.face;
      setText(by, l10n.t("for {0}", valueText(bitmap, level)));
      const here = counts.get(replacing) ?? 0;
      const everywhere =
        pictures.length > 1 ? pictures.reduce((sum, p) => sum + occurrences(p, selection, replacing), 0) : here;
      setText(one, pictures.length > 1 ? l10n.t("this frame ×{0}", here) : pixelCount(here));
      setText(all, l10n.t("all frames ×{0}", everywhere));
      one.title = selection
        ? l10n.t("replace {0} of the selection in this frame", pixelCount(here))
        : l10n.t("replace {0} in this frame", pixelCount(here));
      all.title = selection
        ? l10n.t("replace {0} of the selection in all frames", pixelCount(everywhere))
        : l10n.t("replace {0} in all frames", pixelCount(everywhere));
      one.disabled = readOnly || here === 0 || replacing === level;
      all.disabled = readOnly || everywhere === 0 || replacing === level;
      all.hidden = pictures.length < 2;
      show(true);
    },
  };
}

function occurrences(pixels: Uint32Array, selection: Selection | undefined, value: number): number {
  let count = 0;
  for (let i = 0; i < pixels.length; i++) if (pixels[i] === value && inSelection({ selection }, i)) count++;
  return count;
}

/** The values that most pixels have, and the one that is to be replaced. */
function listed(counts: ReadonlyMap<number, number>, replacing: number): number[] {
  return [...new Set([...mostUsed(counts, MOST), replacing])];
}
