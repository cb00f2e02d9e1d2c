/** The pixel cursor and the text cursor, the frames, what a screen reader is told, and what the page keeps. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import type { Shown } from "../../shared/protocol/webview.ts";
import {
  afresh,
  bundle,
  type Code,
  centreOf,
  colourAt,
  drag,
  launch,
  type Opened,
  openPage,
  settled,
} from "../support/page.ts";
import { drop, falling, faultyDrop } from "../support/pictures.ts";
import { until } from "../support/until.ts";

let browser: Browser;
let code: Code;
let open: Opened;
beforeAll(async () => {
  [browser, code] = await Promise.all([launch(), bundle()]);
  open = await openPage(browser, code, drop());
});
afterAll(() => browser.close());
beforeEach(() => afresh(open, drop()));

const cell = (name: string) => open.page.locator("[role=gridcell]").getAttribute(name);
const spoken = () => open.page.locator(".spoken").textContent();
const press = async (...keys: string[]) => {
  for (const key of keys) await open.page.keyboard.press(key);
};
const strip = () => open.page.locator(".strip");

test("moving the pixel cursor reveals its number", async () => {
  await press("ArrowDown", "End");
  await until(() => expect(open.reveals.at(-1)).toEqual({ frame: 0, x: 8, y: 1 }));
});

test("while a reveal is under way only the newest place waits", async () => {
  let answer = () => {};
  open.holdReveal = () =>
    new Promise((resolve) => {
      answer = resolve;
    });
  for (let i = 0; i < 5; i++) await press("ArrowRight");
  await until(() => expect(open.reveals).toEqual([{ frame: 0, x: 1, y: 0 }]));
  answer();
  const both = [
    { frame: 0, x: 1, y: 0 },
    { frame: 0, x: 5, y: 0 },
  ];
  await until(() => expect(open.reveals).toEqual(both));
  answer();
});

test("the text cursor moves the pixel cursor, and nothing comes back", async () => {
  await open.rpc.call("cursor", { frame: 0, x: 4, y: 3 });
  await until(async () =>
    expect([await cell("aria-colindex"), await cell("aria-label")]).toEqual([
      "5",
      "row 3 column 4, level 64 of 255, line 17",
    ]),
  );
  await settled(open);
  expect(open.reveals).toEqual([]);
});

test("a stroke reveals once, where it ended", async () => {
  await drag(open, [
    [0, 0],
    [8, 0],
  ]);
  await until(() => expect(open.reveals).toEqual([{ frame: 0, x: 8, y: 0 }]));
});

test("the grid is named and counted, has one tab stop, and one live region speaks of the pixel", async () => {
  const grid = open.page.getByRole("grid", { name: "Pixels of drop_icon" });
  expect([await grid.getAttribute("aria-rowcount"), await grid.getAttribute("aria-colcount")]).toEqual(["9", "9"]);
  expect(await grid.locator("[tabindex='0']").count()).toBe(1);
  expect(await open.page.locator("[aria-live]").count()).toBe(1);
  await press("ArrowDown", "ArrowDown", "ArrowDown", "End", "ArrowLeft", "ArrowLeft");
  await until(async () => expect(await spoken()).toBe("row 3 column 6, level 3 of 255, line 17"));
  expect(await open.page.locator("[role=row]").getAttribute("aria-rowindex")).toBe("4");
  await open.show({ ...faultyDrop(), version: open.shown.version + 1 });
  await press("Control+End");
  await until(async () => expect(await spoken()).toBe("row 8 column 8, level 0 of 255, not written"));
  await press("ArrowUp");
  await until(async () => expect(await spoken()).toBe("row 7 column 8, level 0 of 255, line 21"));
  expect(await open.page.getByRole("radio", { name: "level 64, 6 pixels" }).getAttribute("aria-checked")).toBe("true");
  const tools = open.page.getByRole("group", { name: "Tools" }).getByRole("button");
  const words = ["Draw", "Erase", "Line", "Box", "Oval", "Fill", "Gradient", "Text", "Select", "Pick"];
  expect(await tools.allTextContents()).toEqual(words);
  expect(await tools.locator("u").allTextContents()).toEqual(words.map((word) => word.slice(0, 1)));
});

test("the pointer reads a pixel without moving the cursor, with the light of its row and column", async () => {
  const at = await centreOf(open, 4, 2);
  await open.page.mouse.move(at.x, at.y);
  // (26 + 64 + 26) / (9 · 255) = 5.05 %; column 4: (15+42+64+64+64+42+42+26+26)/(9·255) = 16.8 %.
  const words = "row 2 column 4, level 64 of 255, line 16; light: row 5 %, column 17 %";
  await until(async () => expect(await open.page.locator(".readout").textContent()).toBe(words));
  expect(await cell("aria-colindex")).toBe("1");
});

test("frames: page keys and the strip choose one, strokes go to it, and playing starts only when asked", async () => {
  await afresh(open, falling({ fps: 12 }));
  await until(async () => expect(await strip().getAttribute("aria-valuetext")).toBe("frame 0 of 0–5, 0 s"));
  await press("PageDown", "PageDown", "PageDown");
  await until(async () => expect(await strip().getAttribute("aria-valuetext")).toBe("frame 3 of 0–5, 0.25 s"));
  await until(() => expect(open.reveals.at(-1)).toEqual({ frame: 3, x: 0, y: 0 }));
  await press("Space");
  await until(() => expect(open.paints[0]?.changes).toEqual([{ frame: 3, x: 0, y: 0, value: 64, before: 0 }]));
  await strip().press("Home");
  await until(async () => expect(await strip().getAttribute("aria-valuenow")).toBe("0"));
  const play = open.page.getByRole("button", { name: "Play" });
  open.reveals.length = 0;
  await play.click();
  const seen = new Set<string | null>();
  await until(async () => {
    seen.add(await strip().getAttribute("aria-valuenow"));
    expect(seen.size).toBeGreaterThan(2);
  });
  await open.page.getByRole("button", { name: "Pause" }).click();
  await play.waitFor();
  await settled(open);
  expect(open.reveals).toEqual([]);
});

test.each(["media", "class"])(
  "where motion is to be reduced (%s), playing runs through the frames once",
  async (by) => {
    const { page } = open;
    if (by === "media") await page.emulateMedia({ reducedMotion: "reduce" });
    else await page.evaluate(() => document.body.classList.add("vscode-reduce-motion"));
    await afresh(open, falling({ fps: 60 }));
    await page.getByRole("button", { name: "Play" }).click();
    await until(async () => expect(await strip().getAttribute("aria-valuenow")).toBe("5"));
    await page.getByRole("button", { name: "Play" }).waitFor();
    expect(await strip().getAttribute("aria-valuenow")).toBe("5");
    await page.emulateMedia({ reducedMotion: "no-preference" });
    await page.evaluate(() => document.body.classList.remove("vscode-reduce-motion"));
  },
);

test("tool, level, frame and bitmap are kept, and taken up again", async () => {
  await afresh(open, falling(), "0x1A");
  await press("b", "PageDown", "PageDown");
  const { identity } = open.shown.bitmap;
  await until(async () =>
    expect(await open.kept()).toMatchObject({
      tool: "box",
      level: 26,
      format: "gray8",
      frame: 2,
      view: "lit",
      identity,
    }),
  );
  const again = await openPage(browser, code, falling(), { kept: await open.kept() });
  expect(await again.page.locator(".tool[aria-pressed=true]").textContent()).toBe("Box");
  expect(await again.page.locator(".ladder input").inputValue()).toBe("26");
  await until(async () => expect(await again.page.locator(".strip").getAttribute("aria-valuenow")).toBe("2"));
  await again.close();
});

test("ghosts, speed and the way of playing are kept, and seen again", async () => {
  await afresh(open, falling());
  await press("h", ".", ".");
  await open.page.getByRole("button", { name: "There and back" }).click();
  await until(async () => expect(await open.kept()).toMatchObject({ motion: { mode: "back", before: true, fps: 25 } }));
  const again = await openPage(browser, code, falling(), { kept: await open.kept() });
  await until(async () =>
    expect(await again.page.getByRole("button", { name: "There and back" }).getAttribute("aria-pressed")).toBe("true"),
  );
  expect(await again.page.getByRole("button", { name: "Ghost" }).getAttribute("aria-pressed")).toBe("true");
  expect(await again.page.getByLabel("Frames a second").inputValue()).toBe("25");
  // Nothing plays by itself.
  expect(await again.page.locator(".play").textContent()).toBe("Play");
  await again.close();
});

test("another bitmap of the file is asked for by its identity", async () => {
  await open.page.getByRole("combobox", { name: "Bitmap of this file" }).selectOption("sun_icon");
  await until(() => expect(open.chosen).toEqual([open.shown.others[1]?.identity]));
});

test("arrays alike are asked for together, and one always stays", async () => {
  const alike = (...shown: string[]): Shown["others"] =>
    ["drop_icon", "sun_icon", "moon_icon"].map((name) => ({
      name,
      identity: { name, ordinal: 0, siblings: 1, structure: "9x9" },
      alike: true,
      shown: shown.includes(name),
    }));
  await afresh(open, drop({ others: alike("drop_icon") }));
  open.together.length = 0;
  const names = () => open.together.map((all) => all.map((i) => i.name).join(" "));
  await open.page.getByText("together with other arrays").click();
  await open.page.getByRole("checkbox", { name: "moon_icon" }).check();
  await until(() => expect(names()).toEqual(["drop_icon moon_icon"]));
  await open.page.getByRole("button", { name: "All", exact: true }).click();
  await until(() => expect(names()).toEqual(["drop_icon moon_icon", "drop_icon sun_icon moon_icon"]));
  const set = drop({ others: alike("drop_icon", "sun_icon", "moon_icon"), version: 2 });
  const frameNames = ["drop_icon", "sun_icon", "moon_icon"];
  const frames = [0, 1, 2].map(() => set.frames[0] ?? []);
  const name = "drop_icon … moon_icon";
  const bitmap = { ...set.bitmap, name, frames: 3, frameNames, identity: { ...set.bitmap.identity, name } };
  await open.show({ ...set, bitmap, frames, rowLines: frames.map(() => []), unwritten: frames.map(() => []) });
  await open.page.getByText("3 arrays together").waitFor();
  await open.page.getByText("drop_icon, frame 0 of 0–2").waitFor();
  expect(await open.page.getByRole("combobox", { name: "Bitmap of this file" }).inputValue()).toBe("");
  await open.show(drop({ others: alike("drop_icon"), version: 3 }));
  const box = open.page.getByRole("checkbox", { name: "drop_icon" });
  await box.click();
  expect(await box.isChecked()).toBe(true);
  expect(names()).toHaveLength(2);
});

test("where there was never anything to show the page says why", async () => {
  const empty = await openPage(browser, code, drop(), { nothing: "This file has no bitmaps." });
  await until(async () => expect(await empty.page.locator(".empty").textContent()).toBe("This file has no bitmaps."));
  expect(await empty.page.locator("[role=grid]").isVisible()).toBe(false);
  await empty.show(drop());
  await empty.page.locator("[role=grid]").waitFor();
  expect(await colourAt(empty, 4, 2)).not.toEqual(await colourAt(empty, 0, 0));
  expect(empty.errors).toEqual([]);
  await empty.close();
});

test("while an array is half typed its last picture stays, with focus, cursor, tool and frame, and is not painted", async () => {
  await afresh(open, falling());
  await press("b", "PageDown", "PageDown", "ArrowDown", "End");
  await until(() => expect(open.reveals.at(-1)).toEqual({ frame: 2, x: 8, y: 1 }));
  const focused = () => open.page.evaluate(() => document.activeElement?.getAttribute("role"));
  await open.rpc.call("nothing", { why: "falling_drop has no end yet." });
  await until(async () =>
    expect(await open.page.locator(".why").textContent()).toBe("Shown as it last was. falling_drop has no end yet."),
  );
  expect([await focused(), await open.page.locator(".stale").count()]).toEqual(["gridcell", 1]);
  expect(await open.page.locator("[role=grid]").getAttribute("aria-readonly")).toBe("true");
  await until(async () => expect(await spoken()).toContain("falling_drop has no end yet."));
  await press("Space");
  await until(async () =>
    expect(await open.page.locator(".note").textContent()).toBe("Not painted: falling_drop has no end yet."),
  );
  expect(open.paints).toEqual([]);
  await open.show({ ...falling(), version: open.shown.version + 3 });
  await until(async () => expect(await open.page.locator(".stale").count()).toBe(0));
  expect(await focused()).toBe("gridcell");
  expect([await cell("aria-colindex"), await strip().getAttribute("aria-valuenow")]).toEqual(["9", "2"]);
  expect(await open.page.locator(".tool[aria-pressed=true]").textContent()).toBe("Box");
  expect(await open.page.locator(".note").textContent()).toBe("");
});

test("values between the rungs can be taken as the level, by pointer and keyboard, and are told in words", async () => {
  const { page } = open;
  const between = page.getByRole("radiogroup", { name: "Used between the rungs" });
  expect(await between.getByRole("radio").allTextContents()).toEqual(["42", "26", "15", "7", "3", "1"]);
  await between.getByRole("radio", { name: "level 42, 6 pixels, nearest rung 45" }).click();
  await until(async () => expect(await page.locator(".ladder input").inputValue()).toBe("42"));
  await between.getByRole("radio", { name: "level 42" }).press("ArrowRight");
  await until(async () => expect(await page.locator(".ladder input").inputValue()).toBe("26"));
  expect(await between.getByRole("radio", { name: "level 26" }).getAttribute("aria-checked")).toBe("true");
  const tip = await page.locator(".rung[data-value='45'] .count").getAttribute("title");
  expect(tip).toBe("~ counts values between the rungs too, of which 45 is the nearest: 6 × 42");
});

test("the page speaks the language that the editor gives it", async () => {
  const words = { Draw: "Zeichnen", "Pixels of {0}": "Pixel von {0}", "{0} of cap {1}": "{0} bei Grenze {1}" };
  const german = await openPage(browser, code, drop(), { words });
  await german.page.getByRole("grid", { name: "Pixel von drop_icon" }).waitFor();
  expect(await german.page.locator(".tool").first().textContent()).toBe("Zeichnen (d)");
  expect(await german.page.locator(".meters dd").first().textContent()).toBe("64 bei Grenze 64");
  expect(german.errors).toEqual([]);
  await german.close();
});

test("a level that is none is told so, and the list of keys opens", async () => {
  await open.page.locator(".ladder input").fill("300");
  await open.page.locator(".ladder input").press("Enter");
  await until(async () =>
    expect(await open.page.locator(".note").textContent()).toBe("300 is above 255, the highest value"),
  );
  await open.page.getByText("? keys").click();
  await open.page.getByText("rung below and above").waitFor();
});

test("the page never broke its content security policy nor threw", () => {
  expect(open.errors).toEqual([]);
});
