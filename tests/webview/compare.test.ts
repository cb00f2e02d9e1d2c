/** The page that compares two versions of a bitmap. */
import { readFileSync } from "node:fs";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { CompareToHost, CompareToPage } from "../../shared/protocol/comparePage.ts";
import { comparedFrom } from "../support/comparedFrom.ts";
import { faintWords, overflow } from "../support/faint.ts";
import { changeTheme, launch } from "../support/page.ts";
import { openSmallPage, type SmallPage } from "../support/smallPage.ts";

const BEFORE = readFileSync(new URL("../../sample-workspace/lantern_art.h", import.meta.url), "utf8");
/** Three pixels of the drop are others, frames 1 and 15 of the drip too, the sun is larger and the door is gone. */
const AFTER = BEFORE.replace("0,  0,  0, 26, 64, 26,  0,  0,  0", "0,  0,  7, 58, 64,  5,  0,  0,  0")
  .replace("door_icon", "gate_icon")
  .replace(/(drip\[[\s\S]*?\{)([\s\S]*?)(\n\};)/, (_, head, body, end) => `${head}${changeDrip(body)}${end}`);

/** Another number in the last rows of the second and of the last frame. */
function changeDrip(body: string): string {
  let row = 0;
  return body.replace(/^[ \t]*\d[^\n]*$/gm, (line) => {
    const frame = Math.floor(row++ / 9);
    return (frame === 1 || frame === 15) && row % 9 === 0 ? line.replace(/(\d+)(,)/, "48$2") : line;
  });
}

let browser: Browser;
let open: SmallPage<CompareToPage>;
const chosen: unknown[] = [];
const sources: unknown[] = [];
beforeAll(async () => {
  browser = await launch();
  open = await openSmallPage<CompareToHost, CompareToPage>(
    browser,
    "compare",
    (rpc) => ({
      ready: async () => {
        await rpc().call("show", comparedFrom(BEFORE, AFTER));
        return {};
      },
      choose: async (which) => {
        chosen.push(which);
        await rpc().call("show", comparedFrom(BEFORE, AFTER, which));
        return {};
      },
      source: (which) => {
        sources.push(which);
        return {};
      },
    }),
    { width: 700, height: 800 },
  );
  await open.page.getByRole("heading").filter({ hasText: "drop_icon" }).waitFor();
});
afterAll(() => browser.close());

const seen = () =>
  open.page.locator("canvas:visible").evaluateAll((all) => all.map((c) => c.getAttribute("aria-label")));
const readout = () => open.page.locator(".readout").textContent();

test("shows before, after and the changed pixels, and counts them", async () => {
  const { page } = open;
  const items = await page.getByRole("list", { name: "Bitmaps that differ" }).getByRole("listitem").allTextContents();
  expect(items[0]).toBe("drop_icon 3 of 81 pixels changed, up to +32 and −21");
  expect(items[1]).toBe("gate_icon renamed from door_icon");
  expect(await page.locator(".versions").textContent()).toBe("lantern_art.h · HEAD → now · 3 bitmaps differ");
  expect(await seen()).toEqual(["drop_icon, HEAD", "drop_icon, now", "drop_icon, changed"]);
  expect(open.errors).toEqual([]);
});

test("goes from change to change, and says each", async () => {
  const { page } = open;
  await page.getByRole("button", { name: "Later change" }).click();
  expect(await readout()).toBe("2,2: 0 → 7 (1 of 3)");
  await page.keyboard.press("Enter");
  expect(await readout()).toBe("3,2: 26 → 58 (2 of 3)");
  await page.getByRole("button", { name: "Earlier change" }).click();
  await page.getByRole("button", { name: "Earlier change" }).click();
  expect(await readout()).toBe("5,2: 26 → 5 (3 of 3)");
  await page
    .locator("canvas")
    .first()
    .hover({ position: { x: 30, y: 20 } });
  expect(await readout()).toBe("0,0: 0");
});

test("shows the frames that differ, one at a time", async () => {
  const { page } = open;
  await page.getByRole("button", { name: "drip", exact: true }).click();
  await page.getByRole("heading").filter({ hasText: "drip" }).waitFor();
  expect(chosen).toEqual([{ name: "drip", ordinal: 0 }]);
  expect(await page.locator(".frames li").allTextContents()).toEqual([
    expect.stringMatching(/^frame 1 1 pixel, up to /),
    expect.stringMatching(/^frame 15 1 pixel, up to /),
  ]);
  await page.getByRole("button", { name: "frame 15" }).click();
  expect(await seen()).toEqual(["drip, HEAD, frame 15", "drip, now, frame 15", "drip, changed, frame 15"]);
  await page.getByRole("button", { name: "Later change" }).click();
  expect(await readout()).toMatch(/^0,8: \d+ → 48 \(1 of 1\)$/);
});

test("goes to the source of what is there still", async () => {
  await open.page.getByRole("button", { name: "Go to the source" }).click();
  expect(sources).toEqual([{ name: "drip", ordinal: 0 }]);
});

test("nothing to compare with is said in words", async () => {
  await open.rpc.call("nothing", { why: "This file is in no Git repository that the editor has open." });
  expect(await open.page.getByRole("status").textContent()).toMatch(/no Git repository/);
  await open.rpc.call("show", comparedFrom(BEFORE, BEFORE));
  expect(await open.page.getByRole("status").textContent()).toBe(
    "No bitmap of lantern_art.h looks otherwise than in: HEAD.",
  );
});

test.each(["dark", "light", "contrast", "contrastLight"] as const)(
  "%s: nothing is too wide or too faint",
  async (theme) => {
    await changeTheme(open, theme);
    for (const width of [320, 700]) {
      await open.page.setViewportSize({ width, height: 800 });
      for (const name of ["drop_icon", "drip"]) {
        await open.rpc.call("show", comparedFrom(BEFORE, AFTER, { name, ordinal: 0 }));
        await open.page.getByRole("heading").filter({ hasText: name }).waitFor();
        await open.page.getByRole("button", { name: "Later change" }).click();
        expect([width, name, await overflow(open), await faintWords(open)]).toEqual([width, name, [], []]);
        await open.screenshot(`compare-${name}-${theme}-${width}`);
      }
    }
  },
);
