import type { Opened } from "./page.ts";

/** Words whose contrast with the page is below 4.5 to 1 (WCAG 2.2, 1.4.3), but for what can't be used now. */
export function faintWords({ page }: Opened): Promise<string[]> {
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
