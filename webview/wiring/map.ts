/** One drawing of the wiring view: a canvas that is pressed and has the keyboard, with a line of words below it. */
import { el, setText } from "../view/dom.ts";

export interface MapView {
  readonly element: HTMLElement;
  readonly board: HTMLElement;
  readonly canvas: HTMLCanvasElement;
  name(words: string): void;
  listen(press: (cell: number | undefined, first: boolean) => void): void;
}

export function makeMap(label: string): MapView {
  const canvas = el("canvas", { "aria-hidden": "true" });
  const board = el("div", { class: "board scroll", role: "img", "aria-label": label, tabindex: "0" }, canvas);
  const caption = el("figcaption", { class: "dim small" });
  const element = el("figure", {}, board, caption);
  const cellAt = (event: PointerEvent): number | undefined => {
    const box = canvas.getBoundingClientRect();
    const side = (box.width - 1) / columns();
    const [x, y] = [Math.floor((event.clientX - box.left) / side), Math.floor((event.clientY - box.top) / side)];
    const inside = x >= 0 && y >= 0 && x < columns() && y < Math.round((box.height - 1) / side);
    return inside ? y * columns() + x : undefined;
  };
  const columns = () => Number(canvas.dataset.columns ?? 1);
  return {
    element,
    board,
    canvas,
    name: (words) => setText(caption, words),
    listen: (press) => {
      let down = false;
      canvas.addEventListener("pointerdown", (event) => {
        down = true;
        canvas.setPointerCapture(event.pointerId);
        press(cellAt(event), true);
      });
      canvas.addEventListener("pointermove", (event) => {
        if (down) press(cellAt(event), false);
      });
      for (const end of ["pointerup", "pointercancel"] as const)
        canvas.addEventListener(end, () => {
          down = false;
        });
    },
  };
}
