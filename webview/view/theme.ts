/** The colours and the font of the editor's theme, for what is drawn on a canvas. */
import { relativeLuminance } from "../../shared/light/lightness.ts";
import { decode } from "../levels.ts";

type Rgb = readonly [number, number, number];

export interface Theme {
  readonly contrast: boolean;
  readonly background: string;
  readonly foreground: string;
  readonly number: string;
  readonly activeNumber: string;
  readonly highlight: string;
  readonly error: string;
  readonly warning: string;
  readonly information: string;
  readonly border: string;
  readonly focus: string;
  readonly font: string;
  /** Between the ground (0) and the text (255), as 0xRRGGBB. */
  between(code: number): number;
}

export function readTheme(): Theme {
  const style = getComputedStyle(document.documentElement);
  const token = (name: string, otherwise: string) => style.getPropertyValue(`--vscode-${name}`).trim() || otherwise;
  const { classList } = document.body;
  const contrast = classList.contains("vscode-high-contrast") || classList.contains("vscode-high-contrast-light");
  const background = token("editor-background", "#1e1e1e");
  const foreground = token("editor-foreground", "#d4d4d4");
  const readable = (colour: string) => css(legible(rgb(colour), rgb(background), rgb(foreground)));
  const number = readable(token("editorLineNumber-foreground", "#858585"));
  return {
    contrast,
    background,
    foreground,
    number,
    activeNumber: token("editorLineNumber-activeForeground", foreground),
    highlight: token("editor-lineHighlightBackground", "") || css(mix(rgb(background), rgb(foreground), 0.1)),
    error: readable(token("editorError-foreground", "#f14c4c")),
    warning: readable(token("editorWarning-foreground", "#cca700")),
    information: readable(token("editorInfo-foreground", "#3794ff")),
    border: token("contrastBorder", number),
    focus: token("focusBorder", foreground),
    font: token("editor-font-family", "monospace"),
    between: (code) => {
      const [r, g, b] = map(mix(rgb(background), rgb(foreground), code / 255), Math.round);
      return (r << 16) | (g << 8) | b;
    },
  };
}

/** Tells the style sheet the colours of words as they are legible. */
export function tellStyle(root: HTMLElement, { number, error, warning, information }: Theme): void {
  for (const [name, colour] of Object.entries({ dim: number, error, warning, information }))
    root.style.setProperty(`--${name}`, colour);
}

/** Calls back whenever the theme changes: VS Code swaps the body's class and the root's variables. */
export function onThemeChange(changed: () => void): void {
  const observer = new MutationObserver(changed);
  observer.observe(document.body, { attributes: true, attributeFilter: ["class"] });
  observer.observe(document.documentElement, { attributes: true, attributeFilter: ["style", "class"] });
}

/** Least contrast of words with their ground (WCAG 2.2, 1.4.3). */
const LEAST_CONTRAST = 4.5;

/** A theme's colour, with as much of its foreground in it as it takes to be read; many line numbers are fainter. */
function legible(colour: Rgb, background: Rgb, foreground: Rgb): Rgb {
  for (let share = 0; share < 1; share += 0.1) {
    const mixed = map(mix(colour, foreground, share), Math.round);
    const [a, b] = [luminance(mixed) + 0.05, luminance(background) + 0.05];
    if (Math.max(a, b) / Math.min(a, b) >= LEAST_CONTRAST) return mixed;
  }
  return foreground;
}

function mix(a: Rgb, b: Rgb, share: number): Rgb {
  return map(a, (part, i) => part + ((b[i] ?? 0) - part) * share);
}

function map([r, g, b]: Rgb, change: (part: number, index: number) => number): Rgb {
  return [change(r, 0), change(g, 1), change(b, 2)];
}

/** Relative luminance (WCAG 2.2). */
function luminance([r, g, b]: Rgb): number {
  return relativeLuminance(decode(r), decode(g), decode(b));
}

function css(colour: Rgb): string {
  return `rgb(${colour.map(Math.round).join(" ")})`;
}

/** Any colour of a theme as three numbers; how opaque it is does not count. */
function rgb(colour: string): Rgb {
  const hex = /^#([\da-f]{6})(?:[\da-f]{2})?$/i.exec(colour)?.[1];
  if (hex) return [0, 2, 4].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)) as [number, number, number];
  const parts = /^rgba?\((\d+)[, ]+(\d+)[, ]+(\d+)\b/.exec(colour);
  if (parts) return [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  return rgbByCanvas(colour);
}

/** The canvas knows all spellings, but asking it costs more than all else of a theme. */
function rgbByCanvas(colour: string): Rgb {
  const context = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
  if (!context) return [0, 0, 0];
  context.fillStyle = colour;
  context.fillRect(0, 0, 1, 1);
  const [r = 0, g = 0, b = 0] = context.getImageData(0, 0, 1, 1).data;
  return [r, g, b];
}
