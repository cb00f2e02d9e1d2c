/** Draws the buttons of a list anew; the one that had the focus, by its `data-key`, has it after. */
export function keepFocus(list: HTMLElement, draw: () => void): void {
  const focused = document.activeElement;
  const key = focused instanceof HTMLElement && list.contains(focused) ? focused.dataset.key : undefined;
  draw();
  if (key !== undefined) list.querySelector<HTMLElement>(`[data-key="${CSS.escape(key)}"]`)?.focus();
}
