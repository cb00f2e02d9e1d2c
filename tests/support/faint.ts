import type { Opened } from "./page.ts";

/** Words whose contrast with the page is below 4.5 to 1 (WCAG 2.2, 1.4.3), but for what can't be used now. */
export function faintWords({ page }: Pick<Opened, "page">): Promise<string[]> {
  return page.evaluate(() => {
    const rgb = (colour: string) => (colour.match(/[\d.]+/g) ?? []).map(Number);
    const linear = (part: number) =>
      part <= 0.04045 * 255 ? part / 255 / 12.92 : ((part / 255 + 0.055) / 1.055) ** 2.4;
    const luminance = ([r = 0, g = 0, b = 0]: number[]) => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
    const paper = luminance(rgb(getComputedStyle(document.body).backgroundColor));
    const found: string[] = [];
    for (const element of document.querySelectorAll<HTMLElement>("#dotwright *")) {
      const own = [...element.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.textContent?.trim());
      if (!own || !element.checkVisibility() || element.closest(":disabled, .stale, .spoken, input, option")) continue;
      const ink = luminance(rgb(getComputedStyle(element).color));
      const ratio = (Math.max(ink, paper) + 0.05) / (Math.min(ink, paper) + 0.05);
      if (ratio < 4.5) found.push(`${element.textContent?.slice(0, 30)}: ${ratio.toFixed(1)}`);
    }
    return found;
  });
}

/**
 * What is cut off or wider than the page: elements with words, fields and pictures that stand out of the column to the
 * left or right, but for what lies in a pane that scrolls.
 */
export function overflow({ page }: Pick<Opened, "page">): Promise<string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    const { scrollWidth, clientWidth } = document.documentElement;
    if (scrollWidth > clientWidth) found.push(`page: ${scrollWidth} of ${clientWidth}`);
    for (const element of document.querySelectorAll<HTMLElement>("#dotwright *")) {
      const own = [...element.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.textContent?.trim());
      const seen = own || element.matches("input, select, canvas, button, .bar, .pane");
      if (!seen || !element.checkVisibility({ visibilityProperty: true })) continue;
      if (element.closest(".spoken, option, .scroll > *, .stripPane > *, svg")) continue;
      const { left, right } = element.getBoundingClientRect();
      const words = `${element.className || element.tagName} ${element.textContent?.slice(0, 30)}`;
      if (left < -0.5 || right > clientWidth + 0.5) found.push(`${words}: ${left} to ${right} of ${clientWidth}`);
      if (own && element.scrollWidth > element.clientWidth + 1 && getComputedStyle(element).overflowX !== "visible")
        found.push(`${words}: ${element.scrollWidth} in ${element.clientWidth}`);
    }
    return found;
  });
}
