/** The pointer on the strip: a press goes to a frame, a drag takes the frame to another place. */

interface Strip {
  readonly frames: () => number;
  /** How many frames lie before a point, in parts too. */
  readonly place: (x: number) => number;
  readonly press: (frame: number) => void;
  /** The gap that a dragged frame would go to, counted from 0 before the first; undefined where it goes nowhere. */
  readonly over: (gap: number | undefined) => void;
  readonly move: (from: number, to: number) => void;
}

/** Less than that, in CSS pixels, is a press. */
const SLACK = 5;

export function listenToStrip(canvas: HTMLElement, strip: Strip): void {
  let from: { readonly x: number; readonly frame: number; readonly pointer: number } | undefined;
  let dragged = false;
  const gapAt = (x: number) => Math.max(0, Math.min(strip.frames(), Math.round(strip.place(x))));
  const leave = () => {
    from = undefined;
    dragged = false;
    strip.over(undefined);
  };
  canvas.addEventListener("pointerdown", (event) => {
    if (event.button !== 0 || from) return;
    const frame = Math.max(0, Math.min(strip.frames() - 1, Math.floor(strip.place(event.offsetX))));
    from = { x: event.offsetX, frame, pointer: event.pointerId };
    canvas.setPointerCapture(event.pointerId);
    strip.press(frame);
  });
  canvas.addEventListener("pointermove", (event) => {
    if (event.pointerId !== from?.pointer) return;
    dragged ||= Math.abs(event.offsetX - from.x) > SLACK;
    if (dragged) strip.over(gapAt(event.offsetX));
  });
  canvas.addEventListener("pointerup", (event) => {
    if (event.pointerId !== from?.pointer) return;
    const { frame } = from;
    const gap = dragged ? gapAt(event.offsetX) : frame;
    leave();
    // Before itself and behind itself is where it is.
    const to = gap > frame ? gap - 1 : gap;
    if (to !== frame) strip.move(frame, to);
  });
  canvas.addEventListener("pointercancel", leave);
  canvas.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !from) return;
    event.stopPropagation();
    leave();
  });
}
