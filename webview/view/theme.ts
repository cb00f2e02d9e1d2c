/** The colours and the font of the editor's theme, for what is drawn on a canvas. */
import { decode, encode } from "../levels.ts";

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
  /** The ground of the display, and a pixel that is off. */
  readonly face: string;
  /** A lamp that is off, seen on that ground. */
  readonly off: string;
  /** What can be seen on that ground. */
  readonly foregroundOnFace: string;
  readonly font: string;
  /** The colour of a share (0–1) of the brightest allowed light; `tint` is the display's own colour. */
  glow(share: number, tint: string | undefined): string;
  /** The same as red, green and blue (0–255, not rounded). */
  shade(share: number, tint: string | undefined): Rgb;
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
  // A lamp shows its low levels only against the dark, also in a light theme.
  const dark = luminance(rgb(background)) < 0.2;
  const face = contrast ? rgb(background) : mix(rgb(background), [0, 0, 0], dark ? 0.5 : 0.88);
  const known = new Map<string, { readonly shade: Rgb; readonly css: string }>();
  const light = (share: number, tint: string | undefined) => {
    const key = `${share} ${tint ?? ""}`;
    let colour = known.get(key);
    if (colour === undefined) {
      const shade = contrast
        ? mix(rgb(background), rgb(foreground), encode(share) / 255)
        : lit(face, rgb(tint ?? "#ffffff"), share);
      colour = { shade, css: css(shade) };
      known.set(key, colour);
    }
    return colour;
  };
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
    face: css(face),
    off: css(mix(face, [255, 255, 255], contrast ? 0 : 0.09)),
    // In a light theme the display is dark all the same.
    foregroundOnFace: contrast ? foreground : css(mix(face, [255, 255, 255], 0.85)),
    font: token("editor-font-family", "monospace"),
    glow: (share, tint) => light(share, tint).css,
    shade: (share, tint) => light(share, tint).shade,
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

/** The face with light added to it, in linear light. */
function lit(face: Rgb, tint: Rgb, share: number): Rgb {
  return map(face, (part, i) => encode(Math.min(1, decode(part) + share * decode(tint[i] ?? 0))));
}

function mix(a: Rgb, b: Rgb, share: number): Rgb {
  return map(a, (part, i) => part + ((b[i] ?? 0) - part) * share);
}

function map([r, g, b]: Rgb, change: (part: number, index: number) => number): Rgb {
  return [change(r, 0), change(g, 1), change(b, 2)];
}

/** Relative luminance (WCAG 2.2). */
function luminance([r, g, b]: Rgb): number {
  return 0.2126 * decode(r) + 0.7152 * decode(g) + 0.0722 * decode(b);
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
