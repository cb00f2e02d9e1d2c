/**
 * The paint editor's page in a real browser, with a stand-in for the extension: a Node function that answers the page's
 * calls over the same rpc as the extension does. Nothing is fetched from a network.
 */
import { mkdir } from "node:fs/promises";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { copiedText } from "../../shared/bitmap/copied.ts";
import type { BitmapIdentity, PixelChange } from "../../shared/bitmap/edit.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { pasted } from "../../shared/bitmap/pasted.ts";
import type { Restructuring } from "../../shared/bitmap/restructure/change.ts";
import { rgbOf } from "../../shared/pixels/colour.ts";
import { FORMATS, type Format } from "../../shared/pixels/formats.ts";
import type { ReadPicture } from "../../shared/protocol/lsp.ts";
import { createRpc, type Rpc } from "../../shared/protocol/rpc.ts";
import type { Place, Shown, ToHost, ToPage } from "../../shared/protocol/webview.ts";
import type { Panel } from "../../webview/look.ts";
import { bundled } from "./bundled.ts";
import { glyphsFrom } from "./glyphSets.ts";
import { THEMES, type ThemeName } from "./themes.ts";

/** Tests and bench run in the project's folder; the bench as one bundle, which has no place of its own. */
const ROOT = `${process.cwd()}/`;

/** Where the page comes from. Only secure origins have a clipboard, which the editor's are. */
export const ORIGIN = "http://page.invalid";

/** Only for pictures that are compared: the one font in `fonts.conf`, smoothed the same on every machine. */
export const STEADY = {
  args: ["--font-render-hinting=none", "--disable-lcd-text", "--force-color-profile=srgb"],
  env: { ...process.env, FONTCONFIG_FILE: `${ROOT}tests/support/fonts.conf` } as Record<string, string>,
};

export async function launch(more: Partial<typeof STEADY> = {}): Promise<Browser> {
  const flags = "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking";
  return chromium.launch({
    executablePath: "/usr/bin/chromium",
    ...more,
    args: [
      ...flags.split(" "),
      ...(more.args ?? []),
      "--disable-component-update",
      "--disable-sync",
      `--unsafely-treat-insecure-origin-as-secure=${ORIGIN}`,
    ],
    headless: true,
  });
}

export interface Code {
  readonly script: string;
  readonly style: string;
  /** What the script loads later. */
  readonly toolkit: string;
}

/** The page's scripts and style, bundled as the package has them. */
export async function bundle(): Promise<Code> {
  const text = await bundled(
    { webview: `${ROOT}webview/main.ts`, style: `${ROOT}webview/style.css` },
    { splitting: true, chunkNames: "[name]" },
  );
  return { script: text("webview.js"), style: text(".css"), toolkit: text("toolkit.js") };
}

interface Paint {
  readonly version: number;
  readonly identity: BitmapIdentity;
  readonly changes: readonly PixelChange[];
}

/** What the stand-in does with a stroke: by default it edits its picture, answers and shows the new version. */
export type Answer = (paint: Paint, open: Opened) => Promise<{ readonly version: number }>;

/** What it says of glyph sets: by default those of the lantern's file. */
type GlyphAnswer = (params: ToHost["glyphs"]["params"]) => ToHost["glyphs"]["result"];

export interface Opened {
  readonly page: Page;
  readonly rpc: Rpc<ToPage>;
  readonly paints: Paint[];
  readonly restructures: ToHost["restructure"]["params"][];
  readonly reveals: Place[];
  readonly chosen: BitmapIdentity[];
  /** All arrays of each choice. */
  readonly together: BitmapIdentity[][];
  readonly widths: ToHost["glyphWidth"]["params"][];
  readonly recolours: ToHost["recolour"]["params"][];
  /** Pictures that an import was to begin with. */
  readonly dropped: ToHost["pictures"]["params"][];
  readonly motions: ToHost["changeMotion"]["params"][];
  readonly bakes: ToHost["bake"]["params"][];
  readonly wires: ToHost["wire"]["params"][];
  /** Pixels whose numbers were to be selected in the text. */
  readonly selected: (readonly number[])[];
  /** Errors of the page, a breach of its content security policy among them. */
  readonly errors: string[];
  shown: Shown;
  answer: Answer;
  /** What becomes of another colour in a palette: by default the new version is shown. */
  recolour: (change: ToHost["recolour"]["params"], open: Opened) => Promise<{ readonly version: number }>;
  /** What becomes of other words of a motion: nothing by default. */
  moved: (change: ToHost["changeMotion"]["params"], open: Opened) => Promise<void>;
  glyphs: GlyphAnswer;
  /** The clipboard as the extension has it. */
  clipboard: string;
  /** What to wait for before a `reveal` is answered. */
  holdReveal?: (() => Promise<void>) | undefined;
  /** What to wait for before another structure is made; an error refuses it. */
  holdRestructure?: (() => Promise<void>) | undefined;
  show(shown: Shown): Promise<void>;
  kept(): Promise<unknown>;
  screenshot(name: string): Promise<void>;
  close(): Promise<void>;
}

/** The document after a stroke. */
export function painted(shown: Shown, changes: readonly PixelChange[]): Shown {
  const frames = shown.frames.map((pixels) => [...pixels]);
  for (const { frame, x, y, value } of changes) {
    const pixels = frames[frame];
    if (pixels) pixels[y * shown.bitmap.width + x] = value;
  }
  return { ...shown, version: shown.version + 1, frames };
}

/** The document after a change of frames or speed, as the extension would show it. */
export function restructured(shown: Shown, change: Restructuring): Shown {
  const version = shown.version + 1;
  if (change.kind === "speed") return { ...shown, version, bitmap: { ...shown.bitmap, fps: change.fps } };
  if (change.kind === "size") return { ...resized(shown, change), version };
  const { width, height, identity } = shown.bitmap;
  const dark = new Array<number>(width * height).fill(0);
  const frames = change.order.map((frame) => (frame === "dark" ? dark : (shown.frames[frame] ?? dark)));
  const structure = `${width}x${height} ${frames.length}`;
  const bitmap = { ...shown.bitmap, frames: frames.length, identity: { ...identity, structure } };
  const line = shown.rowLines[0]?.[0] ?? 1;
  const rowLines = frames.map((_, f) => Array.from({ length: height }, (_row, y) => line + f * (height + 1) + y));
  return { ...shown, version, bitmap, frames, rowLines, unwritten: frames.map(() => []) };
}

function resized(shown: Shown, { left, top, right, bottom }: Extract<Restructuring, { kind: "size" }>): Shown {
  const { width: was, height: high, identity } = shown.bitmap;
  const [width, height] = [was + left + right, high + top + bottom];
  const frames = shown.frames.map((pixels) =>
    Array.from({ length: width * height }, (_, i) => {
      const [x, y] = [(i % width) - left, Math.floor(i / width) - top];
      return x < 0 || y < 0 || x >= was || y >= high ? 0 : (pixels[y * was + x] ?? 0);
    }),
  );
  const structure = `${width}x${height} ${frames.length}`;
  const bitmap = { ...shown.bitmap, width, height, identity: { ...identity, structure } };
  const line = shown.rowLines[0]?.[0] ?? 1;
  const rowLines = frames.map((_, f) => Array.from({ length: height }, (_row, y) => line + f * (height + 1) + y));
  return { ...shown, bitmap, frames, rowLines, unwritten: frames.map(() => []) };
}

/** Edits, shows and answers, as the extension does. */
export const edits: Answer = async ({ changes }, open) => {
  await open.show(painted(open.shown, changes));
  return { version: open.shown.version };
};

/** Changes the palette and shows it, as the extension does. */
const recoloured: Opened["recolour"] = async ({ index, value }, open) => {
  const { bitmap } = open.shown;
  const { paletteArray, colours = [] } = bitmap;
  if (!paletteArray) throw new Error("there is no palette");
  const format = FORMATS.get(paletteArray.format) as Format;
  const replace = (all: readonly number[], by: number) => all.map((one, i) => (i === index ? by : one));
  const changed = { ...paletteArray, values: replace(paletteArray.values, value) };
  const next = { ...bitmap, colours: replace(colours, rgbOf(format, value)), paletteArray: changed };
  await open.show({ ...open.shown, version: open.shown.version + 1, bitmap: next });
  return { version: open.shown.version };
};
/** Pixels as the extension would write them. */
function asText({ bitmap }: Shown, width: number, height: number, pixels: readonly number[]): string {
  const cap = bitmap.cap === undefined ? "" : ` cap=${bitmap.cap}`;
  const home = openText(`// @bitmap 1x1 ${bitmap.format}${cap}\nuint8_t ${bitmap.name}[1] = {0};`, "page.h");
  const [model] = home.bitmaps;
  const text = model && copiedText(home, model, { width, height, pixels });
  if (typeof text !== "string") throw new Error(text?.refused ?? "no bitmap to copy from");
  return text;
}

/** What the extension would read in a text. */
function asPicture(text: string, width: number): ReadPicture {
  const read = pasted(text, openText("", "page.h"), width);
  if ("refused" in read) throw new Error(read.refused);
  const { bitmap } = read;
  const { width: columns, height, pixels } = read;
  if (!bitmap) return { width: columns, height, pixels };
  const { name: format, kind, most } = bitmap.format;
  return { width: columns, height, pixels, values: { format, kind, most, light: bitmap.light } };
}

interface Options {
  readonly width?: number;
  readonly height?: number;
  readonly kept?: unknown;
  /** What answers `ready`; the shown picture where missing. */
  readonly nothing?: string;
  /** Device pixels in a CSS pixel. */
  readonly ratio?: number;
  /** The page's words in another language, by the words in English. */
  readonly words?: Readonly<Record<string, string>>;
}

const html = (words: string) => `<!doctype html><html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src http://page.invalid; style-src http://page.invalid 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='; img-src data:">
<title>paint</title><link rel="stylesheet" href="webview.css"></head>
<body><main id="dotwright" data-words='${words}'></main><script type="module" src="webview.js"></script></body></html>`;

export async function openPage(browser: Browser, code: Code, shown: Shown, options: Options = {}): Promise<Opened> {
  const context: BrowserContext = await browser.newContext({
    viewport: { width: options.width ?? 420, height: options.height ?? 900 },
    deviceScaleFactor: options.ratio ?? 1,
  });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on("pageerror", (error) => errors.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  const paints: Paint[] = [];
  const restructures: Opened["restructures"] = [];
  const reveals: Place[] = [];
  const chosen: BitmapIdentity[] = [];
  const together: BitmapIdentity[][] = [];
  const widths: ToHost["glyphWidth"]["params"][] = [];
  const recolours: ToHost["recolour"]["params"][] = [];
  const motions: Opened["motions"] = [];
  const bakes: Opened["bakes"] = [];
  const wires: ToHost["wire"]["params"][] = [];
  const selected: (readonly number[])[] = [];
  const post = (message: unknown) => {
    page.evaluate((data) => window.postMessage(data, "*"), message).catch(() => undefined);
  };
  const rpc = createRpc<ToHost, ToPage>(post, {
    ready: async () => {
      if (options.nothing) await rpc.call("nothing", { why: options.nothing });
      else await opened.show(opened.shown);
      return {};
    },
    paint: (params) => {
      paints.push(params);
      return opened.answer(params, opened);
    },
    glyphWidth: (params) => {
      widths.push(params);
      return { version: opened.shown.version };
    },
    wire: (params) => {
      wires.push(params);
      return { version: opened.shown.version };
    },
    recolour: (change) => {
      recolours.push(change);
      return opened.recolour(change, opened);
    },
    restructure: async (params) => {
      restructures.push(params);
      await opened.holdRestructure?.();
      await opened.show(restructured(opened.shown, params.change));
      return { version: opened.shown.version };
    },
    changeMotion: async (params) => {
      motions.push(params);
      await opened.moved(params, opened);
      return { version: opened.shown.version };
    },
    bake: (params) => {
      bakes.push(params);
      return { version: opened.shown.version };
    },
    reveal: async ({ place, pixels }) => {
      reveals.push(place);
      if (pixels) selected.push(pixels);
      await opened.holdReveal?.();
      return {};
    },
    glyphs: (params) => opened.glyphs(params),
    pictures: (params) => {
      opened.dropped.push(params);
      return {};
    },
    choose: ({ identity, together: others = [] }) => {
      chosen.push(identity);
      together.push([identity, ...others]);
      return {};
    },
    copied: ({ width, height, pixels }) => ({ text: asText(opened.shown, width, height, pixels) }),
    toClipboard: ({ text }) => {
      opened.clipboard = text;
      return {};
    },
    pasted: ({ text = opened.clipboard, width }) => asPicture(text, width),
  });
  const opened: Opened = {
    page,
    rpc,
    paints,
    restructures,
    reveals,
    chosen,
    widths,
    together,
    recolours,
    dropped: [],
    motions,
    bakes,
    wires,
    selected,
    errors,
    shown,
    clipboard: "",
    answer: edits,
    recolour: recoloured,
    moved: async () => undefined,
    glyphs: glyphsFrom(),
    show: async (next) => {
      opened.shown = next;
      await rpc.call("show", next);
    },
    kept: () => page.evaluate(() => (window as unknown as { kept: unknown }).kept),
    screenshot: async (name) => {
      await mkdir(`${ROOT}tests/out`, { recursive: true });
      await page.screenshot({ path: `${ROOT}tests/out/${name}.png` });
    },
    close: async () => {
      rpc.dispose();
      await context.close();
    },
  };
  await page.exposeFunction("toHost", (message: unknown) => rpc.receive(message));
  await page.addInitScript(setUp, { theme: THEMES.dark, kept: options.kept });
  await page.route("**/*", (route) => {
    const { pathname } = new URL(route.request().url());
    if (pathname === "/")
      return route.fulfill({ contentType: "text/html", body: html(JSON.stringify(options.words ?? {})) });
    if (pathname === "/webview.js") return route.fulfill({ contentType: "text/javascript", body: code.script });
    if (pathname === "/toolkit.js") return route.fulfill({ contentType: "text/javascript", body: code.toolkit });
    if (pathname === "/webview.css") return route.fulfill({ contentType: "text/css", body: code.style });
    return route.abort();
  });
  await page.goto(`${ORIGIN}/`);
  if (!options.nothing) await page.locator("[role=gridcell][aria-label]").waitFor();
  return opened;
}

/** Runs in the page before its script: VS Code's port, body class and colour variables. */
export function setUp({
  theme,
  kept,
}: {
  theme: { kind: string; colours: Record<string, string> };
  kept: unknown;
}): void {
  const page = window as unknown as { kept: unknown; toHost: (message: unknown) => void; acquireVsCodeApi: unknown };
  page.kept = kept;
  page.acquireVsCodeApi = () => ({
    postMessage: (message: unknown) => page.toHost(message),
    getState: () => page.kept,
    setState: (state: unknown) => {
      page.kept = state;
    },
  });
  document.addEventListener("readystatechange", () => {
    if (!document.body || document.body.className) return;
    document.body.className = theme.kind;
  });
  const colour = () => {
    for (const [name, value] of Object.entries(theme.colours)) {
      document.documentElement.style.setProperty(`--vscode-${name}`, value);
    }
  };
  if (document.documentElement) colour();
  else document.addEventListener("readystatechange", colour, { once: true });
}

/** A page used before, as if new: the picture given, the tool Draw at this level, the cursor on the first pixel. */
export async function afresh(open: Opened, shown: Shown, level = "64"): Promise<void> {
  open.answer = edits;
  open.glyphs = glyphsFrom();
  open.holdReveal = undefined;
  open.holdRestructure = undefined;
  await open.rpc.call("nothing", { why: "between two tests" });
  await open.show({ ...shown, version: open.shown.version + 10 });
  await begin(open, level);
  open.recolour = recoloured;
  open.clipboard = "";
  open.moved = async () => undefined;
  const { paints, restructures, reveals, chosen, selected, recolours, motions, bakes, wires } = open;
  for (const list of [paints, restructures, reveals, chosen, selected, recolours, motions, bakes, wires])
    list.length = 0;
}

/** What is shown with the tool Draw at this level, and the cursor on the first pixel. */
export async function begin(open: Opened, level = "64"): Promise<void> {
  // A page that is not drawn yet can't have the focus.
  await open.page.locator("[role=grid]").waitFor();
  await open.page.locator("[role=gridcell]").focus();
  await open.page.keyboard.press("d");
  await open.page.keyboard.press("Control+Home");
  if (open.shown.bitmap.kind !== "mono") await setLevel(open, level);
  await settled(open);
}

/** Another theme, as the editor changes it under an open page; and another font where one is named. */
export async function changeTheme({ page }: Pick<Opened, "page">, name: ThemeName, font?: string): Promise<void> {
  const { kind, colours } = THEMES[name];
  const variables: Record<string, string> = font ? { ...colours, "editor-font-family": font } : colours;
  await page.evaluate(
    (theme) => {
      for (const [key, value] of Object.entries(theme.variables)) {
        document.documentElement.style.setProperty(`--vscode-${key}`, value);
      }
      for (const key of ["contrastBorder", "contrastActiveBorder"]) {
        if (!(key in theme.variables)) document.documentElement.style.removeProperty(`--vscode-${key}`);
      }
      document.body.className = theme.kind;
    },
    { kind, variables },
  );
}

/** Types a level and goes back to the grid. */
export async function setLevel(open: Opened, level: string): Promise<void> {
  const { page } = open;
  // What was chosen before is written into the field with the next picture.
  await settled(open);
  await page.locator(".exact > input").fill(level);
  await page.locator(".exact > input").press("Enter");
  await page.locator("[role=gridcell]").focus();
}

/** After what the page was told is drawn and what it asked is answered. */
export async function settled({ page, rpc }: Opened): Promise<void> {
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  // A request that the page knows not is answered after all those before it.
  await rpc.call("unknown" as "nothing", { why: "" }).catch(() => undefined);
}

/** Where a point of the picture, in pixels, is in the box of the grid: shares of its width and height. */
async function shareOf({ page, shown }: Opened, x: number, y: number): Promise<{ fx: number; fy: number }> {
  const { width, height, lattice, mount = 0 } = shown.bitmap as Panel & { width: number; height: number };
  const lit = (await page.getByRole("button", { name: "As lit" }).getAttribute("aria-pressed")) === "true";
  if (!lit) return { fx: x / width, fy: y / height };
  // A grid turned by 45° clockwise: columns run down to the right, rows down to the left.
  const diamond = { fx: (x - y + height) / (width + height), fy: (x + y) / (width + height) };
  let at = lattice === "diamond" ? diamond : { fx: x / width, fy: y / height };
  for (let turned = 0; turned < mount; turned += 90) at = { fx: 1 - at.fy, fy: at.fx };
  return at;
}

/** The middle of a pixel on the screen. */
export async function centreOf(open: Opened, x: number, y: number): Promise<{ x: number; y: number }> {
  const box = await open.page.locator("[role=grid]").boundingBox();
  if (!box) throw new Error("the grid is not to be seen");
  const { fx, fy } = await shareOf(open, x + 0.5, y + 0.5);
  return { x: box.x + fx * box.width, y: box.y + fy * box.height };
}

/** Presses on the first pixel, moves over the others and, unless told to hold, lets go. */
export async function drag(open: Opened, points: readonly (readonly [number, number])[], hold = false): Promise<void> {
  const { mouse } = open.page;
  for (const [i, [x, y]] of points.entries()) {
    const at = await centreOf(open, x, y);
    await mouse.move(at.x, at.y, { steps: i === 0 ? 1 : 4 });
    if (i === 0) await mouse.down();
  }
  if (!hold) await mouse.up();
}

/** The colour on the canvas in the middle of a pixel, or at another share of it: red, green, blue. */
export async function colourAt(open: Opened, x: number, y: number, dx = 0.5, dy = 0.5): Promise<number[]> {
  return open.page.evaluate(
    async ({ fx, fy }) => {
      // What was told last is drawn with the next frame.
      await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
      const canvas = document.querySelector<HTMLCanvasElement>(".sheet canvas");
      const grid = document.querySelector<HTMLElement>("[role=grid]");
      if (!canvas || !grid) return [];
      const ratio = canvas.width / canvas.clientWidth;
      const [box, own] = [grid.getBoundingClientRect(), canvas.getBoundingClientRect()];
      const px = (box.x - own.x + fx * box.width) * ratio;
      const py = (box.y - own.y + fy * box.height) * ratio;
      return [...(canvas.getContext("2d")?.getImageData(Math.floor(px), Math.floor(py), 1, 1).data ?? [])].slice(0, 3);
    },
    await shareOf(open, x + dx, y + dy),
  );
}
