/** What is to be seen in the editor's window, for tests of its looks: themes, marks under numbers, contrast. */
import type { FrameLocator, Page } from "playwright-core";
import { contrast } from "./contrast.ts";
import type { Editor } from "./editor.ts";

/** The themes that the editor brings: their labels, and what its window and the pages in it are marked with. */
export const EDITOR_THEMES = {
  dark: { label: "Dark Modern", mark: "dark_modern", kind: "vscode-dark" },
  light: { label: "Light Modern", mark: "light_modern", kind: "vscode-light" },
  "hc-dark": { label: "Dark High Contrast", mark: "hc_black", kind: "vscode-high-contrast" },
  "hc-light": { label: "Light High Contrast", mark: "hc_light", kind: "vscode-high-contrast-light" },
} as const;

export type EditorTheme = keyof typeof EDITOR_THEMES;

/** Chooses a theme from the editor's own list. */
export async function useTheme({ page, pick }: Editor, name: EditorTheme): Promise<void> {
  const { label, mark } = EDITOR_THEMES[name];
  await page.keyboard.press("Control+k");
  await pick("Control+t", label, label);
  await page.locator(`.monaco-workbench[class*="${mark}"]`).waitFor();
}

export interface Mark {
  readonly colour: string;
  /** 0 to 1. */
  readonly alpha: number;
  readonly style: string;
}

/** The lines drawn under the numbers of a line in view, from left to right. */
export function marksOfLine(page: Page, line: number): Promise<Mark[]> {
  return page.evaluate((wanted) => {
    const number = [...document.querySelectorAll(".line-numbers")].find((e) => e.textContent?.trim() === `${wanted}`);
    const top = (number?.parentElement as HTMLElement | null)?.style.top;
    const rows = [...document.querySelectorAll<HTMLElement>(".view-overlays > div")].filter((e) => e.style.top === top);
    const marks = rows.flatMap((row) => [...row.querySelectorAll<HTMLElement>(".cdr[class*='ced-']")]);
    marks.sort((a, b) => a.offsetLeft - b.offsetLeft);
    return marks.map((mark) => {
      const { borderBottomColor, borderBottomStyle } = getComputedStyle(mark);
      const [, , , alpha = "1"] = borderBottomColor.match(/[\d.]+/g) ?? [];
      return { colour: borderBottomColor, alpha: Number(alpha), style: borderBottomStyle };
    });
  }, line);
}

/** The source of the small picture at the end of a line of the source in view, of any line; empty where there is none. */
export function thumbnailIn(page: Page): Promise<string> {
  return page.evaluate(() => {
    const spans = [...document.querySelectorAll(".view-line span[class*='ced-']")];
    const contents = spans.map((span) => getComputedStyle(span, "::after").content);
    return contents.find((content) => content.includes("data:image/svg+xml")) ?? "";
  });
}

/** Texts of the page whose contrast with what is behind them is below a ratio, each with it; disabled ones are left out. */
export async function poorTexts(view: FrameLocator, least: number): Promise<string[]> {
  const texts = await view.locator("body").evaluate((body) => {
    const found: { text: string; ink: string; grounds: string[] }[] = [];
    for (const element of body.querySelectorAll<HTMLElement>("*")) {
      const own = [...element.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.textContent?.trim());
      const { width, height } = element.getBoundingClientRect();
      const seen = width > 1 && height > 1 && element.checkVisibility();
      if (!own || !seen || element.closest(":disabled, [disabled]")) continue;
      const grounds: string[] = [];
      for (let e: Element | null = element; e; e = e.parentElement) grounds.push(getComputedStyle(e).backgroundColor);
      found.push({ text: element.textContent?.trim() ?? "", ink: getComputedStyle(element).color, grounds });
    }
    return found;
  });
  return texts.flatMap(({ text, ink, grounds }) => {
    const ratio = contrast(ink, grounds);
    return ratio < least ? [`${text}: ${ratio.toFixed(2)}`] : [];
  });
}

/** Milliseconds that the extension took to start, as the editor's list of running extensions tells. */
export async function activation({ page, command }: Pick<Editor, "page" | "command">): Promise<number> {
  await command("Developer: Show Running Extensions");
  const list = page.locator(".runtime-extensions-editor");
  const row = list.locator(".extension").filter({ hasText: "Dotwright" });
  // The list holds only the rows in view, and fills up while it is looked at: a window that is high enough shows all.
  const size = page.viewportSize();
  await page.setViewportSize({ width: size?.width ?? 1280, height: 6000 });
  const text = await row.textContent();
  if (size) await page.setViewportSize(size);
  return Number(/Activation: (\d+)ms/.exec(text ?? "")?.[1]);
}
