/** The wiring view: the panel with the way of the addresses, the driver's canvas beside it, and the probe's questions. */
import * as l10n from "@vscode/l10n";
import { patternsFor } from "../../shared/light/wiring/patterns.ts";
import type { WiringInfo } from "../../shared/protocol/lsp.ts";
import { ARROWS } from "../keys/key.ts";
import { whyNot } from "../refusal.ts";
import type { Action, State } from "../state.ts";
import { el, setText } from "../view/dom.ts";
import { word } from "../view/keyed.ts";
import type { Theme } from "../view/theme.ts";
import { driverCells, sidesFor, wayOf } from "./cells.ts";
import { makeMap } from "./map.ts";
import { drawBoard } from "./maps.ts";
import { foundInWords, type Probing } from "./probing.ts";

export interface WiringView {
  readonly element: HTMLElement;
  /** `width`: the room that there is, in CSS pixels. */
  draw(state: State, theme: Theme, width: number): void;
}

/** Writes what the probe found. */
export type Rewire = (index: readonly number[], wire: string | undefined) => void;

export function makeWiring(dispatch: (action: Action) => void, state: () => State, rewire: Rewire): WiringView {
  const said = el("p", { class: "said" });
  const panel = makeMap(l10n.t("Panel"));
  const driver = makeMap(l10n.t("Driver"));
  const told = el("p", { class: "way" });
  const begin = word(l10n.t("Find the wiring by probing"), undefined, () => dispatch({ type: "probe", step: "begin" }));
  const question = el("p", { class: "question" });
  const found = el("p", { class: "found" });
  const problems = el("ul", { class: "findings" });
  const step = (text: string, to: "all" | "none" | "answer" | "back" | "stop") =>
    word(text, undefined, () => dispatch({ type: "probe", step: to }));
  const all = step(l10n.t("All lit"), "all");
  const none = step(l10n.t("None lit"), "none");
  const next = step(l10n.t("Next"), "answer");
  const back = step(l10n.t("Back"), "back");
  const stop = step(l10n.t("Stop probing"), "stop");
  const write = word(l10n.t("Write it into the source"), undefined, () => {
    const { index, wire } = state().probing?.probed ?? {};
    if (index) rewire(Array.from(index), wire);
  });
  const steps = el(
    "div",
    { class: "steps", role: "group", "aria-label": l10n.t("Probe") },
    all,
    none,
    next,
    back,
    write,
    stop,
  );
  const probe = el("div", { class: "probing" }, question, steps, found, problems);
  const maps = el("div", { class: "maps" }, panel.element, driver.element);
  const element = el("section", { class: "wiring", "aria-label": l10n.t("Wiring") }, said, probe, maps, told, begin);
  element.hidden = true;

  let drawn: readonly unknown[] = [];
  /** Whether the pointer lights pixels or darkens them, while it is down. */
  let lighting: boolean | undefined;
  const press = (cell: number | undefined, first: boolean) => {
    const now = state();
    const { shown, probing } = now;
    if (cell === undefined || !shown) return;
    const { width } = shown.bitmap;
    if (!probing) return dispatch({ type: "move", to: { x: cell % width, y: Math.floor(cell / width) } });
    if (first) {
      lighting = !probing.lit.has(cell);
      dispatch({ type: "move", to: { x: cell % width, y: Math.floor(cell / width) } });
    }
    if (lighting !== undefined && probing.lit.has(cell) !== lighting)
      dispatch({ type: "probe", step: "light", pixel: cell, lit: lighting });
  };
  panel.listen(press);
  driver.listen((cell) => {
    const { shown } = state();
    const pixel = cell === undefined ? -1 : (shown?.wiring?.index?.indexOf(cell) ?? -1);
    if (shown && pixel >= 0)
      dispatch({ type: "move", to: { x: pixel % shown.bitmap.width, y: Math.floor(pixel / shown.bitmap.width) } });
  });
  panel.board.addEventListener("keydown", (event) => {
    const { cursor, probing, shown } = state();
    const by = ARROWS[event.key];
    if (by) dispatch({ type: "move", to: { x: cursor.x + by.x, y: cursor.y + by.y } });
    else if (event.key === " " && probing && shown) {
      const pixel = cursor.y * shown.bitmap.width + cursor.x;
      dispatch({ type: "probe", step: "light", pixel, lit: !probing.lit.has(pixel) });
    } else return;
    event.preventDefault();
    event.stopPropagation();
  });

  return {
    element,
    draw: (now, theme, room) => {
      const { shown, probing, wiring: open } = now;
      const info = shown?.wiring;
      element.hidden = !open || !info;
      if (!open || !shown || !info) return;
      const { bitmap } = shown;
      const { width } = bitmap;
      const pixel = now.cursor.y * width + now.cursor.x;
      const canvas = probing?.size.canvas ?? info;
      const sides = sidesFor(room, width, canvas.width);
      sayInParts(said, sayOf(info));
      const address = info.index?.[pixel];
      setText(told, probing || address === undefined ? "" : toldOf(now.cursor, address, info));
      told.hidden = told.textContent === "";
      // Strokes and frames change nothing here: what is drawn stays.
      const drawing = [info, probing, pixel, theme, sides.panel, sides.driver];
      if (drawing.some((one, k) => one !== drawn[k])) drawMaps(info, bitmap, probing, pixel, theme, sides);
      drawn = drawing;
      panel.name(
        probing?.pattern !== undefined
          ? l10n.t("{0}: click what is lit", info.panel)
          : l10n.t("{0}: the way of the addresses", info.panel),
      );
      driver.name(l10n.t("driver’s canvas {0}×{1}", canvas.width, canvas.height));
      panel.board.setAttribute("aria-label", boardWords(now, address));
      begin.hidden = probing !== undefined || shown.readOnly;
      probe.hidden = probing === undefined;
      if (probing) ask(probing, now);
    },
  };

  function drawMaps(
    info: WiringInfo,
    { width, height }: { readonly width: number; readonly height: number },
    probing: Probing | undefined,
    pixel: number,
    theme: Theme,
    sides: ReturnType<typeof sidesFor>,
  ): void {
    // What is found is shown as what is said: by its way and its numbers.
    const found = probing?.pattern === undefined ? probing?.probed.index : undefined;
    const index = found ? Array.from(found) : info.index;
    const canvas = probing?.size.canvas ?? info;
    const asking = found ? undefined : probing;
    const lit = probing?.pattern === undefined ? new Set<number>() : probing.lit;
    drawBoard(panel.canvas, {
      ...{ theme, board: { width, height, side: sides.panel }, cursor: pixel },
      wrong: new Set(probing?.probed.problems.flatMap((p) => p.pixels)),
      numbers: index ?? Array.from({ length: width * height }, () => -1),
      way: index && !asking ? wayOf(index) : [],
      lit: asking && lit,
    });
    drawBoard(driver.canvas, {
      ...{ theme, board: { width: canvas.width, height: canvas.height, side: sides.driver }, wrong: new Set<number>() },
      cursor: asking ? undefined : index?.[pixel],
      ...driverCells(canvas, index, asking),
    });
  }

  function ask(probing: Probing, now: State): void {
    const { pattern, probed, answers, lit, size } = probing;
    const last = patternsFor(size.canvas.width * size.canvas.height) - 1;
    setText(
      question,
      pattern === undefined ? l10n.t("All patterns are answered.") : questionFor(pattern, last, lit.size),
    );
    setText(found, foundInWords(probing));
    problems.replaceChildren(
      ...probed.problems
        .slice(0, 6)
        .map(({ message, kind }) => el("li", { class: kind === "gap" ? "warning" : "error", text: message })),
    );
    for (const button of [all, none, next]) button.hidden = pattern === undefined;
    back.disabled = answers.length === 0;
    write.hidden = probed.index === undefined;
    write.disabled = whyNot(now) !== undefined;
  }
}

function questionFor(pattern: number, last: number, lit: number): string {
  const which = l10n.t("Light pattern {0} (of 0 to {1}) and click the pixels that are lit", pattern, last);
  const hint =
    pattern === 0 ? l10n.t("here every one should be: take out those that stay dark") : l10n.t("{0} so far", lit);
  return `${which}; ${hint}.`;
}

function sayOf({ panel, wire, table, index }: WiringInfo): string {
  if (table !== undefined) return l10n.t("{0} is wired as the table {1} says.", panel, table);
  if (wire === undefined) return l10n.t("Nothing is said of the wiring of {0}: row by row.", panel);
  return index ? `${panel}: wire=${wire}` : l10n.t("{0}: wire={1}, which is wrong: its findings say why.", panel, wire);
}

/** A long `wire=` breaks between its parts first; what is copied from here has no breaks in it. */
function sayInParts(element: HTMLElement, text: string): void {
  if (element.textContent === text) return;
  element.replaceChildren(...text.split(/(?<=;)/).flatMap((part, i) => (i === 0 ? [part] : [el("wbr"), part])));
}

function toldOf({ x, y }: State["cursor"], address: number, { width }: WiringInfo): string {
  return l10n.t(
    "pixel {0},{1} → driver x {2}, y {3}, address {4}",
    x,
    y,
    address % width,
    Math.floor(address / width),
    address,
  );
}

/** What the panel's drawing is to who does not see it. */
function boardWords({ cursor, probing, shown }: State, address: number | undefined): string {
  const { x, y } = cursor;
  if (!probing)
    return address === undefined ? l10n.t("pixel {0},{1}", x, y) : toldOf(cursor, address, shown?.wiring as WiringInfo);
  const lit = probing.lit.has(y * probing.size.width + x);
  return lit
    ? l10n.t("pixel {0},{1}, lit: space darkens it", x, y)
    : l10n.t("pixel {0},{1}, dark: space lights it", x, y);
}
