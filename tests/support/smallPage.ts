/** A small page of ours (comparing, the gallery) in a real browser, under its security policy, with a stand-in for the extension. */
import { mkdir } from "node:fs/promises";
import type { Browser, Page } from "playwright-core";
import { createRpc, type Handlers, type Messages, type Rpc } from "../../shared/protocol/rpc.ts";
import { bundled } from "./bundled.ts";
import { ORIGIN, setUp } from "./page.ts";
import { THEMES } from "./themes.ts";

const ROOT = `${process.cwd()}/`;

export interface SmallPage<Out extends Messages<Out>> {
  readonly page: Page;
  readonly rpc: Rpc<Out>;
  /** Errors of the page, a breach of its content security policy among them. */
  readonly errors: string[];
  screenshot(name: string): Promise<void>;
}

/** The script and the style of a folder of `webview`, as the package has them. */
async function smallBundle(folder: string): Promise<{ script: string; style: string }> {
  const text = await bundled({
    page: `${ROOT}webview/${folder}/main.ts`,
    style: `${ROOT}webview/${folder}/style.css`,
  });
  return { script: text(".js"), style: text(".css") };
}

const HTML = `<!doctype html><html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src ${ORIGIN}; style-src ${ORIGIN}; img-src data:">
<title>page</title><link rel="stylesheet" href="page.css"></head>
<body><main id="dotwright" data-words="{}"></main><script type="module" src="page.js"></script></body></html>`;

export async function openSmallPage<In extends Messages<In>, Out extends Messages<Out>>(
  browser: Browser,
  folder: string,
  handlers: (rpc: () => Rpc<Out>) => Handlers<In>,
  size: { readonly width: number; readonly height: number },
): Promise<SmallPage<Out>> {
  const { script, style } = await smallBundle(folder);
  const context = await browser.newContext({ viewport: size });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on("pageerror", (error) => errors.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  const post = (message: unknown) => {
    page.evaluate((data) => window.postMessage(data, "*"), message).catch(() => undefined);
  };
  const rpc: Rpc<Out> = createRpc<In, Out>(
    post,
    handlers(() => rpc),
  );
  await page.exposeFunction("toHost", (message: unknown) => rpc.receive(message));
  await page.addInitScript(setUp, { theme: THEMES.dark, kept: undefined });
  await page.route("**/*", (route) => {
    const { pathname } = new URL(route.request().url());
    if (pathname === "/") return route.fulfill({ contentType: "text/html", body: HTML });
    if (pathname === "/page.js") return route.fulfill({ contentType: "text/javascript", body: script });
    if (pathname === "/page.css") return route.fulfill({ contentType: "text/css", body: style });
    return route.abort();
  });
  await page.goto(`${ORIGIN}/`);
  return {
    page,
    rpc,
    errors,
    screenshot: async (name) => {
      await mkdir(`${ROOT}tests/out`, { recursive: true });
      await page.screenshot({ path: `${ROOT}tests/out/${name}.png` });
    },
  };
}
