/**
 * The long list: only the rows in view are there, and the one that has the focus. One of them is in the order of the
 * Tab key; the arrows, Home, End and the Page keys go on from it.
 */
import { el } from "../view/dom.ts";
import { BITMAP, between, HEADING, type Layout, layOut } from "./layout.ts";
import type { Grouping, Item, Row } from "./model.ts";
import type { Pictures } from "./pictures.ts";
import { makeRow, showPicture, type Wishes } from "./row.ts";

export interface List {
  readonly element: HTMLElement;
  draw(rows: readonly Row[], grouping: Grouping): void;
  arrived(keys: readonly string[]): void;
  /** Gives the focus to the row at hand. */
  focus(): void;
}

/** Rows beyond those in view that are there already, so that a quick turn of the wheel meets no gap. */
const MORE = 5;

export function makeList(label: string, wishes: Wishes, pictures: Pictures): List {
  const list = el("ul", { role: "list", "aria-label": label });
  const pane = el("div", { class: "pane scroll" }, list);
  const there = new Map<string, { element: HTMLElement; index: number; readonly said: string }>();
  let rows: readonly Row[] = [];
  let layout: Layout = layOut([]);
  let grouping: Grouping = "file";
  /** The key of the row at hand. */
  let at: string | undefined;
  let queued = false;

  const draw = () => {
    queued = false;
    const { tops } = layout;
    const [first, end] = between(layout, pane.scrollTop, pane.scrollTop + pane.clientHeight, MORE);
    const wanted = new Set<string>();
    for (let i = first; i < end; i++) place(i, wanted);
    const kept = rows.findIndex((row) => row.key === at);
    if (kept >= 0 && (kept < first || kept >= end)) place(kept, wanted);
    for (const [key, { element }] of there) {
      if (wanted.has(key)) continue;
      element.remove();
      there.delete(key);
    }
    const [from, to] = between(layout, pane.scrollTop, pane.scrollTop + pane.clientHeight, 0);
    const items = rows.slice(from, to).filter((row): row is Item => row.kind === "bitmap" && !row.entry.pictureless);
    pictures.want(
      items.map(({ key, uri, entry: { identity } }) => ({ key, uri, name: identity.name, ordinal: identity.ordinal })),
    );
    list.style.height = `${tops[rows.length]}px`;
  };
  /** Puts a row where it belongs; rows stand in the order of the list for who reads them one by one. */
  const place = (index: number, wanted: Set<string>) => {
    const row = rows[index] as Row;
    wanted.add(row.key);
    let entry = there.get(row.key);
    if (!entry) {
      const element = makeRow(row, grouping, wishes);
      element.dataset.key = row.key;
      if (row.kind === "bitmap") showPicture(element, pictures.of(row.key));
      entry = { element, index, said: saidOf(row) };
      there.set(row.key, entry);
      const before = [...there.values()].filter((other) => other.index < index).sort((a, b) => b.index - a.index)[0];
      if (before?.element.parentElement) before.element.after(element);
      else list.prepend(element);
    }
    entry.index = index;
    entry.element.style.top = `${layout.tops[index]}px`;
    entry.element.setAttribute("aria-posinset", String(index + 1));
    entry.element.setAttribute("aria-setsize", String(rows.length));
    const button = entry.element.querySelector<HTMLElement>(".name");
    if (button) button.tabIndex = row.key === at ? 0 : -1;
  };
  /** All that a row says; one that says the same is kept as it is, with its picture. */
  const saidOf = (row: Row) => JSON.stringify([row, grouping]);
  const soon = () => {
    if (queued) return;
    queued = true;
    requestAnimationFrame(draw);
  };
  const buttonAt = () => (at === undefined ? undefined : there.get(at)?.element.querySelector<HTMLElement>(".name"));

  /** Makes a bitmap the one at hand and brings it into view. */
  const go = (index: number) => {
    const row = rows[index];
    if (!row) return;
    at = row.key;
    const [top = 0, bottom = 0] = [layout.tops[index], layout.tops[index + 1]];
    if (top < pane.scrollTop) pane.scrollTop = Math.max(0, top - (rows[index - 1]?.kind === "heading" ? HEADING : 0));
    else if (bottom > pane.scrollTop + pane.clientHeight) pane.scrollTop = bottom - pane.clientHeight;
    draw();
    buttonAt()?.focus({ preventScroll: true });
  };
  /** The nearest bitmap from a row on, in a direction. */
  const bitmapFrom = (index: number, by: 1 | -1): number => {
    for (let i = index; i >= 0 && i < rows.length; i += by) if (rows[i]?.kind === "bitmap") return i;
    return -1;
  };
  const step = (by: number) => {
    const now = rows.findIndex((row) => row.key === at);
    const goal = Math.max(0, Math.min(rows.length - 1, now + by));
    const way = by > 0 ? 1 : -1;
    const found = bitmapFrom(goal, way);
    go(found >= 0 ? found : bitmapFrom(goal, way === 1 ? -1 : 1));
  };
  const pageful = () => Math.max(1, Math.floor(pane.clientHeight / BITMAP) - 1);

  list.addEventListener("keydown", (event) => {
    const now = rows.find((row): row is Item => row.kind === "bitmap" && row.key === at);
    const moves: Readonly<Record<string, () => void>> = {
      ArrowDown: () => step(1),
      ArrowUp: () => step(-1),
      PageDown: () => step(pageful()),
      PageUp: () => step(-pageful()),
      Home: () => go(bitmapFrom(0, 1)),
      End: () => go(bitmapFrom(rows.length - 1, -1)),
      ArrowRight: () =>
        there
          .get(at ?? "")
          ?.element.querySelector<HTMLElement>(".word")
          ?.focus(),
      ArrowLeft: () => buttonAt()?.focus(),
      p: () => now && !now.entry.pictureless && wishes.paint(now),
    };
    const plain = !event.ctrlKey && !event.metaKey && !event.altKey;
    const move = plain ? moves[event.key.length === 1 ? event.key.toLowerCase() : event.key] : undefined;
    if (!move) return;
    event.preventDefault();
    move();
  });
  // A click makes a row the one at hand too.
  list.addEventListener("focusin", ({ target }) => {
    const key = target instanceof Element ? target.closest("li")?.dataset.key : undefined;
    if (key === undefined || key === at) return;
    at = key;
    draw();
  });
  pane.addEventListener("scroll", soon, { passive: true });
  new ResizeObserver(soon).observe(pane);

  return {
    element: pane,
    draw(next, by) {
      const focused = list.contains(document.activeElement);
      const before = rows.findIndex((row) => row.key === at);
      rows = next;
      grouping = by;
      layout = layOut(rows);
      const now = new Map(rows.map((row) => [row.key, row]));
      for (const [key, { element, said }] of there) {
        const row = now.get(key);
        if (row && said === saidOf(row)) continue;
        element.remove();
        there.delete(key);
      }
      if (!rows.some((row) => row.key === at)) {
        const near = bitmapFrom(Math.min(Math.max(before, 0), rows.length - 1), 1);
        at = rows[near >= 0 ? near : bitmapFrom(rows.length - 1, -1)]?.key;
      }
      draw();
      if (focused) buttonAt()?.focus({ preventScroll: true });
    },
    arrived(keys) {
      for (const key of keys) {
        const element = there.get(key)?.element;
        if (element) showPicture(element, pictures.of(key));
      }
    },
    focus: () => buttonAt()?.focus(),
  };
}
