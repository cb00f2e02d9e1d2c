/** What is dragged along a ruler or stepped by keys: a mark with the role of a slider. Let go, it is written. */
import { attributes } from "./svg.ts";

export interface Slide {
  /** The value under a place of the pointer, in CSS pixels of the drawing. */
  readonly valueAt: (x: number) => number;
  readonly value: () => number;
  readonly move: (value: number) => void;
  /** The pointer or the key is let go. */
  readonly done: () => void;
  readonly least: () => number;
  readonly most: () => number;
}

/** `grips` are where the pointer takes it; the first is in the order of the tab key. */
export function slider(drawing: SVGSVGElement, grips: readonly SVGElement[], slide: Slide): void {
  const [first] = grips;
  if (!first) return;
  attributes(first, { role: "slider", tabindex: 0, "aria-orientation": "horizontal" });
  let held = false;
  let stepped = false;
  const under = (event: PointerEvent) => slide.valueAt(event.clientX - drawing.getBoundingClientRect().x);
  for (const grip of grips) {
    grip.addEventListener("pointerdown", (event) => {
      if (event.button !== 0 || !event.isPrimary) return;
      event.preventDefault();
      event.stopPropagation();
      grip.setPointerCapture(event.pointerId);
      first.focus();
      held = true;
    });
    grip.addEventListener("pointermove", (event) => {
      if (held) slide.move(under(event));
    });
    const end = () => {
      if (held) slide.done();
      held = false;
    };
    grip.addEventListener("pointerup", end);
    grip.addEventListener("lostpointercapture", end);
  }
  first.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const by = event.shiftKey ? 10 : 1;
    const to = {
      ArrowRight: slide.value() + by,
      ArrowUp: slide.value() + by,
      ArrowLeft: slide.value() - by,
      ArrowDown: slide.value() - by,
      PageUp: slide.value() + 10,
      PageDown: slide.value() - 10,
      Home: slide.least(),
      End: slide.most(),
    }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    stepped = true;
    slide.move(to);
  });
  const written = () => {
    if (stepped) slide.done();
    stepped = false;
  };
  first.addEventListener("keyup", written);
  first.addEventListener("blur", written);
}

export function tellSlider(
  grip: SVGElement,
  label: string,
  value: number,
  least: number,
  most: number,
  text: string,
): void {
  attributes(grip, {
    "aria-label": label,
    "aria-valuenow": value,
    "aria-valuemin": least,
    "aria-valuemax": most,
    "aria-valuetext": text,
  });
}
