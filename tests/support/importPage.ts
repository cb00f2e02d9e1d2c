/** The page of an import in a real browser; the extension's part is played by the server's own features, in this process. */
import { readFileSync } from "node:fs";
import { mkdir } from "node:fs/promises";
import type { Browser, Page } from "playwright-core";
import { TextDocument } from "vscode-languageserver-textdocument";
import { createDocuments, type Parsed } from "../../server/documents.ts";
import { listBitmaps } from "../../server/features/bitmaps.ts";
import { createPictures, importPicture } from "../../server/features/importPicture.ts";
import { newBitmapChoices } from "../../server/features/newBitmap.ts";
import { readPicture } from "../../server/readPicture.ts";
import type { ImportToHost, ImportToPage, PagePlace, PictureChoices } from "../../shared/protocol/importing.ts";
import { createRpc, type Rpc } from "../../shared/protocol/rpc.ts";
import { bundled } from "./bundled.ts";
import { changeTheme } from "./page.ts";
import type { ThemeName } from "./themes.ts";

const ROOT = `${process.cwd()}/`;
const ORIGIN = "http://page.invalid";
const URI = "file:///garden/lantern_art.h";
const ART = readFileSync(`${ROOT}sample-workspace/lantern_art.h`, "utf8");

export interface ImportCode {
  readonly script: string;
  readonly style: string;
}

export async function bundleImport(): Promise<ImportCode> {
  const text = await bundled({
    page: `${ROOT}webview/import/main.ts`,
    base: `${ROOT}webview/style.css`,
    own: `${ROOT}webview/import/style.css`,
  });
  return { script: text("page.js"), style: text("base.css") + text("own.css") };
}

interface Wrote {
  readonly place: PagePlace;
  readonly choices: PictureChoices;
  readonly key: string;
  /** The document with its edits. */
  readonly text: string;
}

export interface OpenedImport {
  readonly page: Page;
  readonly rpc: Rpc<ImportToPage>;
  /** The choices of each preview that was asked for. */
  readonly previews: PictureChoices[];
  readonly wrote: Wrote[];
  left: number;
  readonly errors: string[];
  theme(name: ThemeName): Promise<void>;
  screenshot(name: string): Promise<void>;
  close(): Promise<void>;
}

interface Options {
  readonly width?: number;
  readonly height?: number;
  readonly place?: PagePlace;
  readonly remembered?: Readonly<Record<string, PictureChoices>>;
  readonly source?: string;
  /** What to wait for before a preview is answered. */
  readonly hold?: () => Promise<void>;
}

const html = `<!doctype html><html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src ${ORIGIN}; style-src ${ORIGIN}; img-src data:">
<title>import</title><link rel="stylesheet" href="page.css"></head>
<body><main id="dotwright" data-words='{}'></main><script type="module" src="page.js"></script></body></html>`;

/** `files` are names and bytes of the pictures. */
export async function openImport(
  browser: Browser,
  code: ImportCode,
  files: readonly (readonly [name: string, bytes: Uint8Array])[],
  options: Options = {},
): Promise<OpenedImport> {
  const source = options.source ?? ART;
  const documents = createDocuments(() => ({ target: undefined }) as never);
  documents.open({ uri: URI, languageId: "cpp", version: 1, text: source });
  const parsed = documents.parsed(URI) as Parsed;
  const pictures = createPictures(async (bytes) => readPicture(bytes));
  const reply = await pictures.open({
    files: files.map(([name, bytes]) => ({ name, data: Buffer.from(bytes).toString("base64") })),
  });
  const choices = newBitmapChoices(parsed);
  const listed = listBitmaps(parsed);
  if ("err" in reply || "err" in choices || "err" in listed) throw new Error(JSON.stringify(reply));
  const position = { line: 1e6, character: 0 };
  const ask = (place: PagePlace, chosen: PictureChoices, frame = 0) => {
    const whole = place.kind === "new" ? { ...place, position } : place;
    const answer = importPicture(parsed, { uri: URI, id: reply.ok.id, place: whole, choices: chosen, frame }, pictures);
    if ("err" in answer) throw new Error(answer.err);
    return answer.ok;
  };

  const context = await browser.newContext({
    viewport: { width: options.width ?? 480, height: options.height ?? 900 },
  });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on("pageerror", (error) => errors.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  const post = (message: unknown) => {
    page.evaluate((data) => window.postMessage(data, "*"), message).catch(() => undefined);
  };
  const rpc = createRpc<ImportToHost, ImportToPage>(post, {
    ready: () => ({
      names: files.map(([name]) => name),
      opened: reply.ok,
      file: "lantern_art.h",
      line: 40,
      start: choices.ok,
      homes: listed.ok.bitmaps
        .filter(({ why }) => why === undefined)
        .map(({ name, identity, width, height, frames, format, panel }) => ({
          name,
          identity,
          width,
          height,
          frames,
          format,
          ...(panel === undefined ? {} : { panel }),
        })),
      place: options.place ?? { kind: "new", words: "lantern" },
      remembered: options.remembered ?? {},
    }),
    preview: async ({ place, choices: chosen, frame }) => {
      opened.previews.push(chosen);
      await options.hold?.();
      const { version: _, edits: __, ...shown } = ask(place, chosen, frame);
      return shown;
    },
    write: ({ place, choices: chosen, key }) => {
      const { edits } = ask(place, chosen);
      const text = TextDocument.applyEdits(TextDocument.create("", "cpp", 1, source), [...edits]);
      opened.wrote.push({ place, choices: chosen, key, text });
      return {};
    },
    leave: () => {
      opened.left++;
      return {};
    },
  });
  const opened: OpenedImport = {
    page,
    rpc,
    previews: [],
    wrote: [],
    left: 0,
    errors,
    theme: (name) => changeTheme({ page }, name),
    screenshot: async (name) => {
      await mkdir(`${ROOT}tests/out`, { recursive: true });
      await page.screenshot({ path: `${ROOT}tests/out/import-${name}.png` });
    },
    close: async () => {
      rpc.dispose();
      await context.close();
    },
  };
  await page.exposeFunction("received", (message: unknown) => rpc.receive(message));
  await page.addInitScript(() => {
    const { received } = window as unknown as { received: (message: unknown) => void };
    // What a page keeps outlives it.
    Object.assign(window, {
      acquireVsCodeApi: () => ({
        postMessage: received,
        getState: () => JSON.parse(sessionStorage.getItem("kept") ?? "null"),
        setState: (state: unknown) => sessionStorage.setItem("kept", JSON.stringify(state)),
      }),
    });
  });
  await page.route(`${ORIGIN}/**`, (route) => {
    const name = new URL(route.request().url()).pathname;
    if (name === "/page.js") return route.fulfill({ contentType: "text/javascript", body: code.script });
    if (name === "/page.css") return route.fulfill({ contentType: "text/css", body: code.style });
    return route.fulfill({ contentType: "text/html", body: html });
  });
  await page.goto(`${ORIGIN}/`);
  await changeTheme({ page }, "dark");
  await page.locator("[aria-busy=false]").waitFor();
  return opened;
}
