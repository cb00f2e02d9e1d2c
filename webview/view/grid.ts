/**
 * The grid: one canvas with the cells and rulers, and over it an ARIA grid whose one cell that can have the focus is
 * the pixel cursor. Pixels are far too many for an element each, so rows and columns are told by their counts.
 */
import type { Action, State } from "../state.ts";
import type { Point } from "../tools/shapes.ts";
import { type Cells, cellPainter } from "./cells.ts";
import { el, sizeCanvas } from "./dom.ts";
import type { Geometry } from "./geometry.ts";
import { keyAction } from "./keys.ts";
import { drawRulers, type Rulers } from "./rulers.ts";
import type { Theme } from "./theme.ts";

interface GridModel {
  readonly geometry: Geometry;
  readonly theme: Theme;
  readonly cells: Cells;
  readonly rulers: Rulers;
  readonly name: string;
  readonly words: string;
  readonly readOnly: boolean;
}

export interface GridView {
  readonly element: HTMLElement;
  draw(model: GridModel): void;
  /** Brings the pixel cursor into view where the grid is wider than the page. */
  follow(): void;
}

export function makeGrid(
  dispatch: (action: Action) => void,
  state: () => State,
  hover: (at: Point | undefined) => void,
): GridView {
  const canvas = el("canvas", { "aria-hidden": "true" });
  const cursor = el("div", { class: "cursor", role: "gridcell", tabindex: "0" });
  const row = el("div", { role: "row" }, cursor);
  const grid = el("div", { class: "grid", role: "grid" }, row);
  const sheet = el("div", { class: "sheet" }, canvas, grid);
  const element = el("div", { class: "scroll" }, sheet);
  const paintCells = cellPainter();
  let context: CanvasRenderingContext2D | undefined;
  let last: Geometry | undefined;
  let theme: Theme | undefined;
  let old: Rulers | undefined;
  let ratio = 0;

  const draw = (model: GridModel) => {
    const { geometry: g, cells, rulers } = model;
    const again = !context || !last || !sameSize(g, last) || ratio !== window.devicePixelRatio;
    if (again) {
      context = sizeCanvas(canvas, g.width, g.height);
      ratio = window.devicePixelRatio;
      Object.assign(grid.style, {
        left: px(g.left),
        top: px(g.top),
        width: px(g.columns * g.cell),
        height: px(g.rows * g.cell),
      });
    }
    if (!context) return;
    const drawn = paintCells(context, g, model.theme, cells, again || theme !== model.theme);
    const { x, y, light, lines } = rulers;
    const same = old?.x === x && old.y === y && old.light === light && old.lines === lines;
    if (again || theme !== model.theme || !same) drawRulers(context, g, model.theme, rulers);
    old = rulers;
    // How many cells the last picture cost, for whoever measures.
    canvas.dataset.drawn = String(drawn);
    last = g;
    theme = model.theme;
    place(model);
  };

  const place = ({ geometry: g, rulers, name, words, readOnly }: GridModel) => {
    Object.assign(cursor.style, {
      left: px(rulers.x * g.cell),
      top: px(rulers.y * g.cell),
      width: px(g.cell),
      height: px(g.cell),
    });
    const said: [Element, string, string][] = [
      [grid, "aria-label", `Pixels of ${name}`],
      [grid, "aria-rowcount", String(g.rows)],
      [grid, "aria-colcount", String(g.columns)],
      [grid, "aria-readonly", String(readOnly)],
      [row, "aria-rowindex", String(rulers.y + 1)],
      [cursor, "aria-colindex", String(rulers.x + 1)],
      [cursor, "aria-label", words],
    ];
    for (const [of, attribute, value] of said)
      if (of.getAttribute(attribute) !== value) of.setAttribute(attribute, value);
  };

  const at = (event: { clientX: number; clientY: number }): Point => {
    const { left, top } = grid.getBoundingClientRect();
    const cell = last?.cell ?? 1;
    return { x: Math.floor((event.clientX - left) / cell), y: Math.floor((event.clientY - top) / cell) };
  };
  let pointer: number | undefined;
  grid.addEventListener("pointerdown", (event) => {
    if (event.button !== 0 || pointer !== undefined) return;
    event.preventDefault();
    cursor.focus({ preventScroll: true });
    grid.setPointerCapture(event.pointerId);
    pointer = event.pointerId;
    if (state().stroke) dispatch({ type: "drop" });
    dispatch({ type: "begin", at: at(event) });
  });
  grid.addEventListener("pointermove", (event) => {
    hover(at(event));
    if (event.pointerId !== pointer) return;
    const events = event.getCoalescedEvents?.() ?? [];
    for (const part of events.length > 0 ? events : [event]) dispatch({ type: "drag", to: at(part) });
  });
  grid.addEventListener("pointerup", (event) => {
    if (event.pointerId !== pointer) return;
    pointer = undefined;
    dispatch({ type: "end" });
  });
  grid.addEventListener("pointercancel", () => {
    pointer = undefined;
    dispatch({ type: "drop" });
  });
  grid.addEventListener("pointerleave", () => hover(undefined));
  grid.addEventListener("keydown", (event) => {
    const actions = pointer === undefined ? keyAction(event, state()) : [];
    if (actions.length === 0) return;
    event.preventDefault();
    for (const action of actions) dispatch(action);
  });
  return { element, draw, follow: () => cursor.scrollIntoView({ block: "nearest", inline: "nearest" }) };
}

function sameSize(a: Geometry, b: Geometry): boolean {
  return a.width === b.width && a.height === b.height && a.cell === b.cell && a.left === b.left;
}

function px(value: number): string {
  return `${value}px`;
}
