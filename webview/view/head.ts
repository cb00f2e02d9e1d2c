/** The head: the bitmap as a line of the source, with the others of the file behind its name, and the meters. */
import * as l10n from "@vscode/l10n";
import type { Shown } from "../../shared/protocol/webview.ts";
import type { FrameLight } from "../light.ts";
import type { Meter } from "../meters.ts";
import { metersOf } from "../meters.ts";
import { byteCount, frameCount } from "../words.ts";
import { el, setText } from "./dom.ts";
import { type Choose, makeTogether } from "./together.ts";

export interface HeadView {
  readonly element: HTMLElement;
  draw(shown: Shown, light: FrameLight): void;
}

export function makeHead(choose: Choose): HeadView {
  const number = el("span", { class: "number" });
  const name = el("b");
  const others = el("select", { "aria-label": l10n.t("Bitmap of this file"), class: "name" });
  const facts = el("span", { class: "dim" });
  const line = el("h1", { class: "line" }, number, el("code", {}, name, others, facts));
  const meters = el("dl", { class: "meters" });
  const together = makeTogether(choose);
  const element = el("header", {}, line, together.element, meters);
  let list: Shown["others"] = [];
  let keys = "";
  others.addEventListener("change", () => {
    const chosen = list[Number(others.value)];
    if (chosen) choose(chosen.identity);
  });

  const drawOthers = (shown: Shown) => {
    list = shown.others;
    const set = shown.bitmap.frameNames ? [el("option", { value: "", text: shown.bitmap.name })] : [];
    const now = [...set.map((o) => o.text), ...list.map((o) => `${o.identity.name}#${o.identity.ordinal}`)];
    if (now.join() !== keys) {
      keys = now.join();
      others.replaceChildren(...set, ...list.map((o, i) => el("option", { value: String(i), text: o.name })));
    }
    const { name: wanted, ordinal } = shown.bitmap.identity;
    const one = list.findIndex((o) => o.identity.name === wanted && o.identity.ordinal === ordinal);
    const at = set.length > 0 ? 0 : one;
    others.hidden = list.length < 2;
    name.hidden = !others.hidden;
    if (others.selectedIndex !== at) others.selectedIndex = at;
  };

  return {
    element,
    draw: (shown, light) => {
      const { bitmap } = shown;
      setText(number, String(bitmap.declaration.start.line + 1));
      setText(name, bitmap.name);
      const parts = [`${bitmap.width}×${bitmap.height}`, bitmap.format];
      if (bitmap.frames > 1) parts.push(frameCount(bitmap.frames));
      if (bitmap.bytes > 0) parts.push(byteCount(bitmap.bytes));
      if (shown.live) parts.push(l10n.t("drawn by code"));
      else if (shown.readOnly) parts.push(l10n.t("read only"));
      // A fact is not broken over two lines.
      setText(facts, ` · ${parts.map((part) => part.replaceAll(" ", "\u00a0")).join(" · ")}`);
      drawOthers(shown);
      together.draw(shown.others);
      const rows = metersOf(shown.bitmap, light);
      const text = rows.map((r) => `${r.name} ${r.number}`).join();
      if (meters.dataset.text === text) return;
      meters.dataset.text = text;
      meters.replaceChildren(...rows.flatMap(meterRow));
    },
  };
}

/** Without a bar where there is nothing to measure it by. */
function meterRow({ name, number, share, over, title = "" }: Meter): HTMLElement[] {
  const told = el("span", { text: number, title });
  if (share === undefined) return [el("dt", { text: name }), el("dd", {}, told)];
  const fill = el("span", { class: over ? "fill over" : "fill" });
  fill.style.width = `${100 * Math.min(1, share)}%`;
  const bar = el("span", { class: "bar", "aria-hidden": "true" }, fill);
  return [el("dt", { text: name }), el("dd", {}, bar, told)];
}
