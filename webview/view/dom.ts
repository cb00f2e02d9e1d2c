/** Elements in few words. */

interface Given {
  readonly class?: string;
  readonly text?: string;
  readonly [attribute: string]: string | undefined;
}

export function el<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  given: Given = {},
  ...children: readonly Node[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(given)) {
    if (value === undefined) continue;
    if (name === "text") element.textContent = value;
    else element.setAttribute(name, value);
  }
  element.append(...children);
  return element;
}

/** Sets text only if it differs, so that a live region speaks once. */
export function setText(element: Element, text: string): void {
  if (element.textContent !== text) element.textContent = text;
}

/** Whether the keys of an event belong to the field that has the focus. */
export function isTyping({ target }: Event): boolean {
  return target instanceof Element && target.closest("input, select") !== null;
}

/** Shows a value in a field once, so that what is being typed is left alone; `key` tells values apart that read alike. */
export function fill(field: HTMLInputElement, value: string, key = value): boolean {
  if (field.dataset.value === key) return false;
  field.dataset.value = key;
  field.value = value;
  return true;
}

/** What was typed is not how the page writes it: the next value is shown even if it is the one before. */
export function forget(field: HTMLInputElement): void {
  delete field.dataset.value;
}

/** A canvas of this size in CSS pixels, sharp on the screen at hand; what it held is gone. */
export function sizeCanvas(canvas: HTMLCanvasElement, width: number, height: number): CanvasRenderingContext2D {
  const ratio = window.devicePixelRatio || 1;
  canvas.width = Math.round(width * ratio);
  canvas.height = Math.round(height * ratio);
  canvas.style.width = `${width}px`;
  canvas.style.height = `${height}px`;
  return scaled(canvas, ratio);
}

function scaled(canvas: HTMLCanvasElement, ratio: number): CanvasRenderingContext2D {
  const context = canvas.getContext("2d");
  if (!context) throw new Error("this browser gives no canvas");
  context.setTransform(ratio, 0, 0, ratio, 0, 0);
  return context;
}
