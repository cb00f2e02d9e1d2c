/** The pointer on the grid: press, drag and release become a stroke. */

import { isInside, type Lattice, pixelAt } from "../../shared/light/lattice.ts";
import type { Action, State } from "../state.ts";
import { toolOf } from "../tools/tools.ts";

/** Returns whether a button is pressed. */
export function listenToPointer(
  grid: HTMLElement,
  cursor: HTMLElement,
  dispatch: (action: Action) => void,
  state: () => State,
  lattice: () => Lattice | undefined,
): () => boolean {
  let pointer: number | undefined;
  const at = (event: { clientX: number; clientY: number }) => {
    const { left, top } = grid.getBoundingClientRect();
    const on = lattice();
    if (!on) return undefined;
    const pixel = pixelAt(on, {
      x: event.clientX - left + grid.offsetLeft,
      y: event.clientY - top + grid.offsetTop,
    });
    return { pixel, inside: isInside(on, pixel) };
  };
  grid.addEventListener("pointerdown", (event) => {
    const on = at(event);
    // A diamond leaves the corners of its square free.
    if (event.button !== 0 || pointer !== undefined || !on?.inside) return;
    event.preventDefault();
    cursor.focus({ preventScroll: true });
    grid.setPointerCapture(event.pointerId);
    pointer = event.pointerId;
    const { stroke } = state();
    if (stroke && !toolOf(stroke.tool).typed) dispatch({ type: "drop" });
    dispatch({ type: "begin", at: on.pixel, copy: event.ctrlKey || event.altKey || event.metaKey });
  });
  grid.addEventListener("pointermove", (event) => {
    if (event.pointerId !== pointer) return;
    const events = event.getCoalescedEvents?.() ?? [];
    const { stroke } = state();
    // On the way to the second end only the last place counts.
    const all = stroke && toolOf(stroke.tool).twoPresses ? [] : events;
    for (const part of all.length > 0 ? all : [event]) {
      const on = at(part);
      if (on) dispatch({ type: "drag", to: on.pixel });
    }
  });
  grid.addEventListener("pointerup", (event) => {
    if (event.pointerId !== pointer) return;
    pointer = undefined;
    dispatch({ type: "end", released: true });
  });
  grid.addEventListener("pointercancel", (event) => {
    // Another finger's is no matter.
    if (event.pointerId !== pointer) return;
    pointer = undefined;
    const { stroke } = state();
    if (stroke && !toolOf(stroke.tool).typed) dispatch({ type: "drop" });
  });
  return () => pointer !== undefined;
}
