/**
 * The grid: one canvas with the pixels and rulers in view, and over it an ARIA grid whose one cell that can have the
 * focus is the pixel cursor. Pixels are far too many for an element each, so rows and columns are told by their counts;
 * they are those seen on the screen, while the words name row and column of the bitmap.
 */
import * as l10n from "@vscode/l10n";
import { isDiamond, type Vector } from "../../shared/light/lattice.ts";
import { keyAction } from "../keys/grid.ts";
import { displayed } from "../look.ts";
import { makeOutline } from "../selection/outline.ts";
import type { SelectionState } from "../selection/reduce.ts";
import type { Action, State } from "../state.ts";
import type { Symmetry } from "../tools/mirror.ts";
import { axes } from "./axis.ts";
import { type Canvas, type Cells, cellPainter } from "./cells.ts";
import { el, sizeCanvas } from "./dom.ts";
import { drawEdges } from "./edges.ts";
import { type Geometry, under } from "./geometry.ts";
import { type Marks, makeOverlay } from "./overlay.ts";
import { listenToPointer } from "./pointer.ts";
import { drawRulers, type Rulers } from "./rulers.ts";
import { keepInPlace, placeCursor, placeGrid } from "./sheet.ts";
import type { Theme } from "./theme.ts";
import { placeWidthEdge } from "./widthEdge.ts";

interface GridModel {
  readonly geometry: Geometry;
  readonly theme: Theme;
  readonly cells: Cells;
  readonly rulers: Rulers;
  /** In columns, where the glyph has a width of its own. */
  readonly glyphWidth: number | undefined;
  readonly name: string;
  readonly words: string;
  /** Marks of other frames, over the pixels. */
  readonly marks: Marks | undefined;
  readonly readOnly: boolean;
  readonly symmetry: Symmetry;
  readonly selected: SelectionState;
}

/** What the pointer is over: a pixel, or a row or column on a ruler. */
export interface Hovered {
  readonly x?: number;
  readonly y?: number;
}

export interface GridView {
  readonly element: HTMLElement;
  draw(model: GridModel): void;
  /** Brings the pixel cursor into view where the grid is larger than what is seen of it. */
  follow(): void;
  /** The pixel cursor takes the focus. */
  focus(): void;
  /** Words for what the pointer is over, as a tooltip. */
  tip(words: string): void;
}

export function makeGrid(
  dispatch: (action: Action) => void,
  state: () => State,
  hover: (at: Hovered | undefined) => void,
  zoom: (by: 1 | -1) => void,
): GridView {
  const canvas = el("canvas", { "aria-hidden": "true" });
  const cursor = el("div", { class: "cursor", role: "gridcell", tabindex: "0" });
  const row = el("div", { role: "row" }, cursor);
  const edge = el("div", { class: "widthEdge", "aria-hidden": "true" });
  const outline = makeOutline();
  const grid = el("div", { class: "grid", role: "grid" }, row, outline.element, edge);
  const sheet = el("div", { class: "sheet" }, canvas, grid);
  const element = el("div", { class: "scroll pane" }, sheet);
  const paintCells = cellPainter();
  const drawAxes = axes(grid);
  const overlay = makeOverlay(canvas);
  let model: GridModel | undefined;
  let drawn: { model: GridModel; scroll: Vector; ratio: number; context: CanvasRenderingContext2D } | undefined;
  let anchor: Vector | undefined;

  const scrolled = (): Vector => ({ x: element.scrollLeft, y: element.scrollTop });

  const draw = (next: GridModel) => {
    const { geometry: g, theme, cells, rulers } = next;
    const ratio = window.devicePixelRatio;
    const before = drawn?.model.geometry;
    const resized = !before || !sameSize(g, before) || drawn?.ratio !== ratio;
    const context = resized || !drawn ? sizeCanvas(canvas, g.viewWidth, g.viewHeight) : drawn.context;
    if (resized) {
      placeGrid(element, sheet, grid, g);
      if (before) keepInPlace(element, before, g, anchor ?? rulers);
      anchor = undefined;
    }
    // A new pane is not scrolled; to ask it would lay out the page.
    const scroll = drawn ? scrolled() : { x: 0, y: 0 };
    const on: Canvas = { context, geometry: g, theme, scroll };
    const moved = drawn?.scroll.x !== scroll.x || drawn.scroll.y !== scroll.y;
    const last = drawn?.model;
    const look = cells.dots !== last?.cells.dots || cells.lamps !== last?.cells.lamps;
    const again = resized || moved || look || theme !== last?.theme;
    // How many cells the last picture cost, for whoever measures.
    canvas.dataset.drawn = String(paintCells(on, cells, again));
    if (again || !last || !sameRulers(rulers, last.rulers)) (isDiamond(g.turn) ? drawEdges : drawRulers)(on, rulers);
    overlay(on, next.marks, cells.lamps, again);
    if (moved || resized) clipGrid(grid, g, scroll);
    drawAxes(g, next.symmetry);
    if (!drawn) performance.mark("first picture");
    model = next;
    drawn = { model: next, scroll, ratio, context };
    place(next);
  };

  const place = ({ geometry: g, rulers, glyphWidth, name, words, readOnly, selected }: GridModel) => {
    placeCursor(cursor, g, rulers);
    placeWidthEdge(edge, g, glyphWidth);
    outline.draw(g, selected);
    const seen = displayed(rulers, { width: g.columns, height: g.rows }, g.turn);
    const said: [Element, string, string][] = [
      [grid, "aria-label", l10n.t("Pixels of {0}", name)],
      [grid, "aria-rowcount", String(seen.rows)],
      [grid, "aria-colcount", String(seen.columns)],
      [grid, "aria-readonly", String(readOnly)],
      [row, "aria-rowindex", String(seen.row + 1)],
      [cursor, "aria-colindex", String(seen.column + 1)],
      [cursor, "aria-label", words],
    ];
    for (const [of, attribute, value] of said)
      if (of.getAttribute(attribute) !== value) of.setAttribute(attribute, value);
  };

  element.addEventListener("scroll", () => {
    if (model) draw(model);
  });
  const inView = (event: MouseEvent): Vector => {
    const { left, top } = element.getBoundingClientRect();
    return { x: event.clientX - left, y: event.clientY - top };
  };
  sheet.addEventListener("pointermove", (event) => {
    if (model) hover(under(model.geometry, inView(event), scrolled()));
  });
  sheet.addEventListener("pointerleave", () => hover(undefined));
  element.addEventListener(
    "wheel",
    (event) => {
      if (!(event.ctrlKey || event.metaKey) || event.deltaY === 0) return;
      event.preventDefault();
      const at = model && under(model.geometry, inView(event), scrolled());
      anchor = at?.x === undefined || at.y === undefined ? undefined : { x: at.x, y: at.y };
      zoom(event.deltaY < 0 ? 1 : -1);
    },
    { passive: false },
  );
  const pressed = listenToPointer(grid, cursor, dispatch, state, () => model?.geometry.lattice);
  grid.addEventListener("keydown", (event) => {
    const actions = pressed() ? [] : keyAction(event, state());
    if (actions.length === 0) return;
    event.preventDefault();
    for (const action of actions) dispatch(action);
  });
  return {
    element,
    draw,
    follow: () => cursor.scrollIntoView({ block: "nearest", inline: "nearest" }),
    focus: () => cursor.focus({ preventScroll: true }),
    tip: (words) => {
      if (sheet.title !== words) sheet.title = words;
    },
  };
}

/** Pixels that have run under a ruler can't be seen there, nor hit. */
function clipGrid(grid: HTMLElement, g: Geometry, scroll: Vector): void {
  if (isDiamond(g.turn)) {
    grid.style.clipPath = "";
    return;
  }
  const beyond = { x: g.width - g.viewWidth - scroll.x, y: g.height - g.viewHeight - scroll.y };
  // The frame around the cursor may stand out by a little.
  const inset = [scroll.y, beyond.x, beyond.y, scroll.x].map((hidden) => `${hidden > 0 ? hidden : -5}px`);
  grid.style.clipPath = `inset(${inset.join(" ")})`;
}

function sameRulers(a: Rulers, b: Rulers): boolean {
  return a.x === b.x && a.y === b.y && a.light === b.light && a.lines === b.lines && a.marks === b.marks;
}

function sameSize(a: Geometry, b: Geometry): boolean {
  const numbers = (g: Geometry) => [g.columns, g.rows, g.turn, g.side, g.left, g.viewWidth, g.viewHeight];
  const other = numbers(b);
  return numbers(a).every((n, i) => n === other[i]);
}
