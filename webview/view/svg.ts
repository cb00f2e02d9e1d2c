/** Drawings of lines and words, in few words. */
type Attributes = Readonly<Record<string, string | number | undefined>>;

export function svg<K extends keyof SVGElementTagNameMap>(
  tag: K,
  given: Attributes = {},
  ...children: readonly Node[]
): SVGElementTagNameMap[K] {
  const element = document.createElementNS("http://www.w3.org/2000/svg", tag);
  attributes(element, given);
  element.append(...children);
  return element;
}

/** Sets what differs. */
export function attributes(element: Element, given: Attributes): void {
  for (const [name, value] of Object.entries(given)) {
    if (value === undefined) element.removeAttribute(name);
    else if (element.getAttribute(name) !== String(value)) element.setAttribute(name, String(value));
  }
}

export function points(all: readonly (readonly [number, number])[]): string {
  return all.map(([x, y]) => `${Math.round(x * 10) / 10},${Math.round(y * 10) / 10}`).join(" ");
}
