/** A list of values of which one is chosen: by click, by arrows, by Home and End, as ARIA has it of radio buttons. */

/**
 * Each choice carries its value in `data-value`; the list tells by `take` which one is wanted. `rising`: the highest
 * stands first, so the arrow to the right goes up.
 */
export function listenToRadios(list: HTMLElement, take: (value: number) => void, rising = false): void {
  const choices = () => [...list.querySelectorAll<HTMLElement>("[data-value]")];
  const choose = (element: HTMLElement) => {
    element.focus();
    take(Number(element.dataset.value));
  };
  list.addEventListener("click", (event) => {
    const chosen = (event.target as Element).closest<HTMLElement>("[data-value]");
    if (chosen) choose(chosen);
  });
  list.addEventListener("keydown", (event) => {
    const all = choices();
    const from = all.indexOf(event.target as HTMLElement);
    if (from < 0 || event.ctrlKey || event.metaKey || event.altKey) return;
    const to = {
      ArrowRight: from + (rising ? -1 : 1),
      ArrowDown: from + 1,
      ArrowLeft: from + (rising ? 1 : -1),
      ArrowUp: from - 1,
      Home: 0,
      End: all.length - 1,
      Enter: from,
      " ": from,
    }[event.key];
    const next = to === undefined ? undefined : all[to];
    if (!next) return;
    event.preventDefault();
    event.stopPropagation();
    choose(next);
  });
}

/** Marks the chosen one; `near` can be reached by Tab where none is chosen. */
export function markChosen(list: HTMLElement, value: number, near = value): void {
  const all = [...list.querySelectorAll<HTMLElement>("[data-value]")];
  const stop = all.find((one) => Number(one.dataset.value) === near) ?? all[0];
  for (const one of all) {
    const chosen = String(Number(one.dataset.value) === value);
    if (one.getAttribute("aria-checked") !== chosen) one.setAttribute("aria-checked", chosen);
    one.tabIndex = one === stop ? 0 : -1;
  }
}

/** Fills the list anew, with the focus where it was. */
export function refill(list: HTMLElement, rows: readonly HTMLElement[]): void {
  const focused = list.contains(document.activeElement) ? (document.activeElement as HTMLElement) : undefined;
  list.replaceChildren(...rows);
  const wanted = focused?.dataset.value;
  if (wanted !== undefined) list.querySelector<HTMLElement>(`[data-value="${wanted}"]`)?.focus();
}
