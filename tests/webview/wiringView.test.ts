/** The wiring view: the way of the addresses, the driver's canvas, and the probe answered on the page. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { family } from "../../shared/light/wiring/family.ts";
import { lights } from "../../shared/light/wiring/patterns.ts";
import { bundle, changeTheme, launch, type Opened, openPage, settled } from "../support/page.ts";
import { shownFrom } from "../support/shownFrom.ts";

const LANTERN = (wire: string, size = "9x9") => {
  const [width = 0, height = 0] = size.split("x").map(Number);
  const numbers = Array.from({ length: width * height }, (_, i) => i % 64).join(", ");
  return `// @panel lantern ${size} cap=64${wire}\n// @bitmap lantern\nconst uint8_t drop[${width * height}] = {${numbers}};\n`;
};
const SERPENTINE = LANTERN(" wire=serpentine;bottom-right");

let browser: Browser;
let open: Opened;
beforeAll(async () => {
  const [started, code] = await Promise.all([launch(), bundle()]);
  browser = started;
  open = await openPage(browser, code, shownFrom(SERPENTINE, "drop", true), { width: 520, height: 1400 });
});
afterAll(() => browser.close());

const view = () => open.page.getByRole("region", { name: "Wiring" });
const boards = () => view().locator(".board");
const shows = (words: string) =>
  vi.waitFor(async () => expect(await view().textContent()).toContain(words), { timeout: 10_000 });

/** Presses in the middle of a cell of the panel (0) or of the driver's canvas (1). */
async function press(board: 0 | 1, x: number, y: number): Promise<void> {
  const canvas = boards().nth(board).locator("canvas");
  const columns = Number(await canvas.getAttribute("data-columns"));
  const box = await canvas.boundingBox();
  if (!box) throw new Error("no canvas");
  const side = (box.width - 1) / columns;
  await canvas.click({ position: { x: (x + 0.5) * side, y: (y + 0.5) * side } });
  await settled(open);
}

async function again(text: string): Promise<void> {
  const { shown } = open;
  await open.show({ ...shownFrom(text, "drop", true), version: shown.version + 1 });
  await settled(open);
}

test("the view opens by its key, and shows both with the pixel cursor", async () => {
  await open.page.locator("[role=gridcell]").focus();
  expect(await view().isVisible()).toBe(false);
  await open.page.keyboard.press("y");
  await shows("lantern: wire=serpentine;bottom-right");
  await open.page.keyboard.press("Control+Home");
  await shows("pixel 0,0 → driver x 8, y 8, address 80");
  await open.page.keyboard.press("ArrowDown");
  await shows("pixel 0,1 → driver x 0, y 7, address 63");
  for (const theme of ["dark", "light", "contrast", "contrastLight"] as const) {
    await changeTheme(open, theme);
    await settled(open);
    await open.screenshot(`wiring-${theme}`);
  }
  await changeTheme(open, "dark");
});

test("a press on either moves the pixel cursor", async () => {
  await press(0, 4, 8);
  await shows("pixel 4,8 → driver x 4, y 0, address 4");
  await press(1, 0, 0);
  await shows("pixel 8,8 → driver x 0, y 0, address 0");
  await boards().nth(0).focus();
  await open.page.keyboard.press("ArrowLeft");
  await shows("pixel 7,8 → driver x 1, y 0, address 1");
  expect(await boards().nth(0).getAttribute("aria-label")).toBe("pixel 7,8 → driver x 1, y 0, address 1");
});

const button = (name: string) => view().getByRole("button", { name, exact: true });

/** Answers the question that is asked: the pixels that the pattern lights. */
async function answer(index: readonly number[], width: number): Promise<void> {
  const asked = (await view().locator(".question").textContent()) ?? "";
  const pattern = Number(/pattern (\d+)/.exec(asked)?.[1]);
  await button("None lit").click();
  for (const [pixel, address] of index.entries())
    if (lights(pattern, address)) await press(0, pixel % width, Math.floor(pixel / width));
  expect(await view().locator(".question").textContent()).toContain(
    pattern === 0 ? "dark" : `${index.filter((a) => lights(pattern, a)).length} so far`,
  );
  await button("Next").click();
  await settled(open);
}

test("the probe finds a wiring by the answers on the page, and writes it", async () => {
  await again(LANTERN("", "4x4"));
  await shows("Nothing is said of the wiring of lantern: row by row.");
  const hidden = [...family(4, 4)].find((one) => one.wire() === "serpentine-columns;top-right");
  const index = Array.from({ length: 16 }, (_, i) => hidden?.addressOf(i % 4, Math.floor(i / 4)) ?? 0);
  await button("Find the wiring by probing").click();
  await shows("Light pattern 0 (of 0 to 4)");
  // Every pixel lights up, as it should.
  await button("Next").click();
  await settled(open);
  let questions = 1;
  while (!(await button("Write it into the source").isVisible())) {
    await answer(index, 4);
    expect(++questions).toBeLessThanOrEqual(5);
  }
  await shows("wire=serpentine-columns;top-right");
  for (const theme of ["dark", "light", "contrast"] as const) {
    await changeTheme(open, theme);
    await settled(open);
    await open.screenshot(`probing-${theme}`);
  }
  await changeTheme(open, "dark");
  await button("Write it into the source").click();
  await vi.waitFor(() => expect(open.wires).toHaveLength(1), { timeout: 10_000 });
  expect(open.wires[0]).toMatchObject({ wire: "serpentine-columns;top-right", index });
  await vi.waitFor(async () => expect(await button("Find the wiring by probing").isVisible()).toBe(true));
});

test("a wiring without a rule gives a table when every bit is told; a wrong answer is named", async () => {
  open.wires.length = 0;
  await again(LANTERN("", "3x2"));
  const index = [5, 0, 4, 1, 3, 2];
  await button("Find the wiring by probing").click();
  await button("Next").click();
  await settled(open);
  while (await button("Next").isVisible()) await answer(index, 3);
  await shows("it takes a table");
  // The last answer taken back, and given wrongly: a pixel too many.
  await button("Back").click();
  await settled(open);
  await press(0, 1, 0);
  await button("Next").click();
  await settled(open);
  await shows("claim address");
  expect(await button("Write it into the source").isVisible()).toBe(false);
  await open.screenshot("probing-contradiction");
  await button("Back").click();
  await settled(open);
  await press(0, 1, 0);
  await button("Next").click();
  await settled(open);
  await button("Write it into the source").click();
  await vi.waitFor(() => expect(open.wires).toHaveLength(1), { timeout: 10_000 });
  expect(open.wires[0]?.index).toEqual(index);
  expect(open.wires[0]).not.toHaveProperty("wire");
});

test("modules on a narrow page stand one under the other, without running over it", async () => {
  await again(LANTERN(" wire=16x8;8x8@0,0>0,0;8x8@0,8>8,0/180;serpentine", "8x16"));
  await open.page.setViewportSize({ width: 300, height: 1600 });
  await settled(open);
  await shows("wire=16x8;8x8@0,0>0,0;8x8@0,8>8,0/180;serpentine");
  const [panel, driver] = await Promise.all([0, 1].map((i) => boards().nth(i).boundingBox()));
  expect((panel?.y ?? 0) + (panel?.height ?? 0)).toBeLessThanOrEqual(driver?.y ?? 0);
  expect((driver?.x ?? 0) + (driver?.width ?? 0)).toBeLessThanOrEqual(300);
  await open.screenshot("wiring-narrow");
  await open.page.setViewportSize({ width: 520, height: 1400 });
});

test("there is none for a bitmap without a panel, and it says where a wiring is wrong", async () => {
  await again(LANTERN(" wire=2x2@0,0>0,0", "3x2"));
  await shows("which is wrong");
  await open.screenshot("wiring-wrong");
  await again("// @bitmap 3x2\nconst uint8_t drop[6] = {1, 2, 3, 4, 5, 6};\n");
  expect(await view().count()).toBe(0);
  await open.page.keyboard.press("y");
  expect(await open.page.getByRole("button", { name: "Wiring" }).count()).toBe(0);
  expect(open.errors).toEqual([]);
});
