/** How the picture is looked at, as words: lit or as cells; closer, farther or fitted. */
import * as l10n from "@vscode/l10n";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { type Panel, turnOf } from "../look.ts";
import type { Action, State } from "../state.ts";
import { el } from "./dom.ts";
import { word } from "./keyed.ts";

export interface ViewRowView {
  readonly element: HTMLElement;
  /** `wiring`: whether that view is open; undefined where there is none. */
  draw(
    state: Pick<State, "view" | "shows" | "zoom">,
    bitmap: Panel & Pick<BitmapInfo, "kind">,
    wiring: boolean | undefined,
  ): void;
}

export function makeViewRow(dispatch: (action: Action) => void, zoom: (by: 1 | -1 | 0) => void): ViewRowView {
  const lit = word(l10n.t("As lit"), "a", () => dispatch({ type: "view", view: "lit" }));
  const cells = word(l10n.t("As cells"), "a", () => dispatch({ type: "view", view: "cells" }));
  const seen = word(l10n.t("As seen"), undefined, () => dispatch({ type: "shows", shows: "seen" }));
  const driven = word(l10n.t("As driven"), undefined, () => dispatch({ type: "shows", shows: "driven" }));
  const fit = word(l10n.t("Fit"), "0", () => zoom(0));
  const closer = word(l10n.t("Closer"), "+", () => zoom(1));
  const farther = word(l10n.t("Farther"), "-", () => zoom(-1));
  const wiring = word(l10n.t("Wiring"), "y", () =>
    dispatch({ type: "wiring", open: wiring.getAttribute("aria-pressed") !== "true" }),
  );
  wiring.title = l10n.t("where each pixel sits at the driver: key Y");
  cells.title = l10n.t("upright, a square for each pixel");
  seen.title = l10n.t("the light of the panel, its cap as full light: key Shift+A");
  driven.title = l10n.t("as bright as pixels are driven long, which is not how it looks: key Shift+A");
  const light = el("div", { role: "group", "aria-label": l10n.t("Light") }, seen, driven);
  fit.title = l10n.t("as large as there is room for: key 0");
  closer.title = l10n.t("larger pixels: key +, or Ctrl and the wheel");
  farther.title = l10n.t("smaller pixels: key −, or Ctrl and the wheel");
  const element = el(
    "div",
    { class: "views" },
    el("div", { role: "group", "aria-label": l10n.t("View") }, lit, cells, wiring),
    light,
    el("div", { role: "group", "aria-label": l10n.t("Size") }, fit, closer, farther),
  );
  return {
    element,
    draw: ({ view, shows, zoom }, bitmap, open) => {
      wiring.hidden = open === undefined;
      wiring.setAttribute("aria-pressed", String(open === true));
      lit.setAttribute("aria-pressed", String(view === "lit"));
      cells.setAttribute("aria-pressed", String(view === "cells"));
      light.hidden = bitmap.kind === "mono";
      seen.setAttribute("aria-pressed", String(shows === "seen"));
      driven.setAttribute("aria-pressed", String(shows === "driven"));
      fit.setAttribute("aria-pressed", String(zoom === undefined));
      lit.title = panelWords(bitmap);
    },
  };
}

function panelWords(panel: Panel): string {
  const parts = [panel.dot === "square" ? l10n.t("square lamps") : l10n.t("round lamps")];
  if (panel.lattice === "diamond") parts.push(l10n.t("on a diamond lattice"));
  if (turnOf(panel, "lit") > 1) parts.push(l10n.t("turned by {0}° as it is mounted", panel.mount ?? 0));
  return parts.join(", ");
}
