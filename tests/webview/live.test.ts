/** Frames that a function draws, on the page: looked at and played, not painted. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { bundle, type Code, launch, type Opened, openPage } from "../support/page.ts";
import { falling } from "../support/pictures.ts";
import { until } from "../support/until.ts";

let browser: Browser;
let open: Opened;
beforeAll(async () => {
  let code: Code;
  [browser, code] = await Promise.all([launch(), bundle()]);
  const shown = falling({ fps: 2 });
  const none = shown.frames.map(() => []);
  open = await openPage(browser, code, {
    ...shown,
    bitmap: { ...shown.bitmap, bytes: 0 },
    rowLines: none,
    unwritten: none,
    readOnly: true,
    live: true,
  });
});
afterAll(() => browser.close());

const note = () => open.page.locator(".note").textContent();

test("the head says what draws them", async () => {
  const head = await open.page.locator("h1").textContent();
  expect(head).toContain("drawn\u00a0by\u00a0code");
  expect(head).not.toContain("bytes");
});

test("tools that change something are not there, and a stroke is refused in words", async () => {
  expect(await open.page.getByRole("button", { name: "Erase" }).count()).toBe(0);
  await open.page.locator("[role=gridcell]").focus();
  await open.page.keyboard.press("Enter");
  await until(async () => expect(await note()).toBe("Not painted: a function draws these frames"));
  expect(open.paints).toEqual([]);
  await open.page.keyboard.press("n");
  expect(open.restructures).toEqual([]);
});

test("they are played when the extension asks for it, as by the word Play", async () => {
  const play = open.page.locator(".play");
  await until(async () => expect(await play.textContent()).toBe("Play"));
  await open.rpc.call("play", {});
  await until(async () => expect(await play.textContent()).toBe("Pause"));
  // Asked once more, it goes on.
  await open.rpc.call("play", {});
  expect(await play.textContent()).toBe("Pause");
  expect(open.errors).toEqual([]);
});
