/** Frames added, copied, deleted, moved, played and compared on the page, and what is asked of the extension for it. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import {
  afresh,
  bundle,
  type Code,
  changeTheme,
  colourAt,
  drag,
  launch,
  type Opened,
  openPage,
  restructured,
  settled,
} from "../support/page.ts";
import { drop, falling, glyphs, rings } from "../support/pictures.ts";
import { until } from "../support/until.ts";

let browser: Browser;
let open: Opened;
beforeAll(async () => {
  let code: Code;
  [browser, code] = await Promise.all([launch(), bundle()]);
  open = await openPage(browser, code, falling());
});
afterAll(() => browser.close());
beforeEach(async () => {
  await afresh(open, drop());
  await afresh(open, falling());
});

const press = async (...keys: string[]) => {
  for (const key of keys) await open.page.keyboard.press(key);
};
const word = (name: string) => open.page.getByRole("button", { name, exact: true });
const note = () => open.page.locator(".note").textContent();
const frame = async () => Number(await open.page.locator(".strip").getAttribute("aria-valuenow"));
const last = async () => Number(await open.page.locator(".strip").getAttribute("aria-valuemax"));
const orders = () => open.restructures.map(({ change }) => (change.kind === "frames" ? change.order : change));

describe("frames", () => {
  test("a dark one comes behind the one at hand, is shown and told", async () => {
    const { version, bitmap } = open.shown;
    await press("PageDown", "n");
    await until(async () => expect(await note()).toBe("dark frame added as 2 of 0–6"));
    expect(open.restructures).toEqual([
      { version, identity: bitmap.identity, change: { kind: "frames", order: [0, 1, "dark", 2, 3, 4, 5] } },
    ]);
    expect([await frame(), await last()]).toEqual([2, 6]);
    // The text cursor follows to it.
    await until(() => expect(open.reveals.at(-1)?.frame).toBe(2));
    // It is painted as any other.
    await drag(open, [[0, 0]]);
    await until(() => expect(open.paints.at(-1)?.changes).toMatchObject([{ frame: 2, x: 0, y: 0 }]));
    expect(open.paints.at(-1)?.identity).toEqual(open.shown.bitmap.identity);
  });

  test("are copied, deleted and moved by words", async () => {
    await word("Duplicate").click();
    await until(async () => expect(await note()).toBe("frame 0 copied to 1 of 0–6"));
    await word("Later").click();
    await until(async () => expect(await note()).toBe("frame 1 moved to 2 of 0–6"));
    await word("Earlier").click();
    await until(async () => expect(await note()).toBe("frame 2 moved to 1 of 0–6"));
    await word("Delete").click();
    await until(async () => expect(await note()).toBe("frame 1 deleted, 6 are left"));
    expect(orders()).toEqual([
      [0, 0, 1, 2, 3, 4, 5],
      [0, 2, 1, 3, 4, 5, 6],
      [0, 2, 1, 3, 4, 5, 6],
      [0, 2, 3, 4, 5, 6],
    ]);
    expect([await frame(), await last()]).toEqual([1, 5]);
  });

  test("and by keys, on the page and on the strip", async () => {
    await press("Shift+N");
    await until(async () => expect(await note()).toContain("copied"));
    await press(">");
    await until(async () => expect(await note()).toContain("moved to 2"));
    await press("<");
    await until(async () => expect(await note()).toContain("moved to 1"));
    await press("Shift+Delete");
    await until(async () => expect(await note()).toContain("deleted"));
    await open.page.locator(".strip").focus();
    await press("Control+ArrowRight");
    await until(async () => expect(await note()).toBe("frame 1 moved to 2 of 0–5"));
    await press("Delete");
    await until(async () => expect(await note()).toBe("frame 2 deleted, 5 are left"));
    expect(await open.page.evaluate(() => document.activeElement?.className)).toBe("strip");
  });

  test("are dragged to another place on the strip", async () => {
    const box = await open.page.locator(".strip").boundingBox();
    const step = ((box?.width ?? 0) - 3) / 6;
    const at = (place: number) => [(box?.x ?? 0) + 3 + place * step, (box?.y ?? 0) + 15] as const;
    const { mouse } = open.page;
    await mouse.move(...at(1.5));
    await mouse.down();
    await mouse.move(...at(2.5), { steps: 3 });
    expect(await open.page.locator(".dropPlace").isVisible()).toBe(true);
    await mouse.move(...at(4), { steps: 3 });
    await mouse.up();
    await until(async () => expect(await note()).toBe("frame 1 moved to 3 of 0–5"));
    expect(orders()).toEqual([[0, 2, 3, 1, 4, 5]]);
    expect(await open.page.locator(".dropPlace").isVisible()).toBe(false);
    // A press alone goes to the frame; Escape drops what is dragged.
    await mouse.move(...at(0.5));
    await mouse.down();
    await mouse.move(...at(3), { steps: 3 });
    await open.page.locator(".strip").press("Escape");
    await mouse.up();
    await settled(open);
    expect([orders().length, await frame()]).toEqual([1, 0]);
  });

  test("one picture becomes an animation, and is one again when the frame is deleted", async () => {
    await afresh(open, drop());
    expect(await open.page.locator(".strip").isVisible()).toBe(false);
    expect(await word("Delete").isVisible()).toBe(false);
    await word("New").click();
    await until(async () => expect([await frame(), await last()]).toEqual([1, 1]));
    expect(orders()).toEqual([[0, "dark"]]);
    await word("Delete").press("Enter");
    await until(async () => expect(await note()).toBe("frame 1 deleted, 1 is left"));
    await settled(open);
    expect(await open.page.locator(".strip").isVisible()).toBe(false);
    // The word that was pressed is gone: the focus is not.
    expect(await open.page.evaluate(() => document.activeElement?.textContent)).toBe("New");
  });

  test("words that can't be pressed for now keep the focus and do nothing", async () => {
    await word("Earlier").focus();
    await press("Enter");
    await settled(open);
    expect([open.restructures.length, await word("Earlier").getAttribute("aria-disabled")]).toEqual([0, "true"]);
    await press("PageDown");
    await open.page.locator("[role=gridcell]").focus();
    await press("PageDown");
    await word("Earlier").press("Enter");
    await until(async () => expect(await note()).toBe("frame 1 moved to 0 of 0–5"));
    expect(await open.page.evaluate(() => document.activeElement?.textContent)).toBe("Earlier");
  });

  test("strokes under way go first, and none is begun before the frames are there", async () => {
    let release = () => {};
    open.holdRestructure = () => new Promise((done) => (release = done));
    const order: string[] = [];
    open.answer = async (paint, opened) => {
      order.push("paint");
      await opened.show({ ...opened.shown, version: opened.shown.version + 1 });
      return { version: paint.version + 1 };
    };
    await drag(open, [[0, 0]], true);
    await press("n");
    await until(() => expect([order, open.restructures.length]).toEqual([["paint"], 1]));
    expect(open.restructures[0]?.version).toBe(open.shown.version);
    await open.page.mouse.up();
    await drag(open, [[3, 3]]);
    await until(async () => expect(await note()).toBe("Not painted: the frames are being changed"));
    expect(open.paints).toHaveLength(1);
    release();
    await until(async () => expect(await note()).toContain("added as 1"));
  });

  test("a refusal is told, and nothing changes", async () => {
    open.holdRestructure = () => Promise.reject(new Error("the size `N` of falling_drop can't be followed"));
    await press("n");
    await until(async () => expect(await note()).toBe("Not changed: the size `N` of falling_drop can't be followed"));
    expect(await last()).toBe(5);
    open.holdRestructure = undefined;
    await press("n");
    await until(async () => expect(await last()).toBe(6));
  });

  test("undo in the text leaves the frame, the tool and the level as they are", async () => {
    await press("b", "PageDown", "n");
    await until(async () => expect(await last()).toBe(6));
    await open.show({ ...falling(), version: open.shown.version + 1 });
    await until(async () => expect([await frame(), await last()]).toEqual([2, 5]));
    expect(await word("Box").getAttribute("aria-pressed")).toBe("true");
  });

  test("a document that can't be changed shows no words for it", async () => {
    await afresh(open, falling({}, { readOnly: true }));
    expect(await word("New").isVisible()).toBe(false);
    await press("n");
    await until(async () => expect(await note()).toContain("can’t be changed"));
    expect(open.restructures).toEqual([]);
  });
});

/** The shade of the mark canvas over a point of a pixel: how opaque it is. */
const markAt = (x: number, y: number, dx: number, dy: number) =>
  open.page.evaluate(
    async ({ x, y, dx, dy }) => {
      await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
      const canvas = document.querySelector<HTMLCanvasElement>("canvas.over");
      const cursor = document.querySelector<HTMLElement>(".grid");
      if (!canvas || !cursor) return -1;
      const [box, own] = [cursor.getBoundingClientRect(), canvas.getBoundingClientRect()];
      const side = box.width / 9;
      const ratio = canvas.width / canvas.clientWidth;
      const at = (c: number, d: number) => Math.floor((c + d * side) * ratio);
      const px = at(box.x - own.x + x * side, dx);
      const py = at(box.y - own.y + y * side, dy);
      return canvas.getContext("2d")?.getImageData(px, py, 1, 1).data[3] ?? -1;
    },
    { x, y, dx, dy },
  );

describe("beside each other", () => {
  beforeEach(async () => {
    await word("As cells").click();
    await open.page.locator("[role=gridcell]").focus();
  });

  test("the frame before is seen as rings, the one after as dots, and not while it plays", async () => {
    // In frame 2 the drop is where it is drawn; one row higher in frame 1, one lower in frame 3.
    await press("PageDown", "PageDown", "h");
    await settled(open);
    const ring = [0.5 + 0.22, 0.5] as const;
    // The tip of the drop stands at 4,0 in frame 2; in frame 1 it is outside and the next row stands there.
    expect(await markAt(4, 0, ...ring)).toBeGreaterThan(0);
    expect(await markAt(0, 0, ...ring)).toBe(0);
    expect(await markAt(4, 0, 0.5, 0.5)).toBe(0);
    await word("After").click();
    expect(await markAt(4, 1, 0.5, 0.5)).toBeGreaterThan(0);
    expect(await word("Before").getAttribute("aria-pressed")).toBe("true");
    await open.page.locator("[role=gridcell]").focus();
    await press("h");
    await settled(open);
    expect(await open.page.locator("canvas.over").count()).toBe(0);
    await press("h");
    await settled(open);
    expect(await open.page.locator("canvas.over").count()).toBe(1);
    await open.rpc.call("show", falling({ fps: 1 }, { version: open.shown.version + 1 }));
    await press("k");
    await until(async () => expect(await open.page.locator("canvas.over").count()).toBe(0));
    await press("k", "h");
  });

  test("what differs is crossed and counted", async () => {
    await press("PageDown", "c");
    const [one, two] = [open.shown.frames[1] ?? [], open.shown.frames[0] ?? []];
    const count = one.filter((value, i) => value !== two[i]).length;
    await until(async () =>
      expect(await open.page.locator(".frameRow").last().textContent()).toContain(`${count} pixels since frame 0`),
    );
    const at = one.findIndex((value, i) => value !== two[i]);
    expect(await markAt(at % 9, Math.floor(at / 9), 0.5 + 0.2, 0.5 + 0.2)).toBeGreaterThan(0);
    const same = one.findIndex((value, i) => value === two[i]);
    expect(await markAt(same % 9, Math.floor(same / 9), 0.5 + 0.2, 0.5 + 0.2)).toBe(0);
    await press("c");
    await settled(open);
    expect(await open.page.locator("canvas.over").count()).toBe(0);
  });
});

describe("playing", () => {
  const playing = async () => (await open.page.locator(".play").textContent()) === "Pause";

  test("there and back, and once", async () => {
    await word("Once").click();
    await open.page.locator("[role=gridcell]").focus();
    await press("k");
    await until(async () => expect([await playing(), await frame()]).toEqual([false, 5]));
    await word("There and back").click();
    await open.page.locator("[role=gridcell]").focus();
    await press("k");
    await until(async () => expect(await frame()).toBe(1));
    await press("k");
    await until(async () => expect(await playing()).toBe(false));
    await word("Loop").click();
  });

  test("a speed is tried out by keys and typed, and written only when asked for", async () => {
    const speed = open.page.locator("input.speed");
    expect(await speed.inputValue()).toBe("20");
    await press(".");
    await until(async () => expect(await speed.inputValue()).toBe("24"));
    await press(",", ",");
    await until(async () => expect(await speed.inputValue()).toBe("15"));
    expect(open.restructures).toEqual([]);
    await speed.fill("7.5");
    await speed.press("Enter");
    await word("Write").click();
    await until(async () => expect(await note()).toBe("fps=7.5 is written"));
    expect(orders()).toEqual([{ kind: "speed", fps: 7.5 }]);
    await settled(open);
    expect(await word("Write").isVisible()).toBe(false);
    await speed.fill("fast");
    await speed.press("Enter");
    await until(async () => expect(await note()).toContain("“fast” is no speed"));
    expect(await speed.inputValue()).toBe("7.5");
  });

  test("light that flashes too often is asked about first, once for a speed", async () => {
    const flashing = (version: number) => {
      const shown = falling({ fps: 20 }, { version });
      return { ...shown, frames: shown.frames.map((f, i) => f.map(() => (i % 2) * 64)) };
    };
    await open.show(flashing(open.shown.version + 1));
    await press("k");
    const question = open.page.getByRole("alertdialog");
    await question.waitFor();
    expect(await question.textContent()).toContain("At 20 a second, light flashes 10 times within one second");
    expect(await open.page.evaluate(() => document.activeElement?.textContent)).toBe("Keep still");
    await open.screenshot("flashing");
    await press("Escape");
    await until(async () => expect(await question.isVisible()).toBe(false));
    expect(await open.page.evaluate(() => document.activeElement?.textContent)).toBe("Play");
    expect(await playing()).toBe(false);
    await word("Play").click();
    await word("Play anyway").click();
    await until(async () => expect(await playing()).toBe(true));
    // Another speed is asked about anew, while it plays too.
    await open.page.locator("[role=gridcell]").focus();
    await press(".");
    await until(async () => expect([await playing(), await question.isVisible()]).toEqual([false, true]));
    await word("Keep still").click();
    await open.page.locator("[role=gridcell]").focus();
    await press(",");
    await press("k");
    await until(async () => expect(await playing()).toBe(true));
    await press("k");
  });

  test("slow light plays at once", async () => {
    await open.show(falling({ fps: 5 }, { version: open.shown.version + 1 }));
    await press("k");
    await until(async () => expect(await playing()).toBe(true));
    expect(await open.page.getByRole("alertdialog").count()).toBe(0);
    await press("k");
  });

  test("light that plays is asked about when the text makes it flash", async () => {
    const blinking = (fps: number) => {
      const shown = falling({ fps }, { version: open.shown.version + 1 });
      return { ...shown, frames: shown.frames.map((f, i) => f.map(() => (i % 2) * 64)) };
    };
    await open.show(blinking(5));
    await press("k");
    await until(async () => expect(await playing()).toBe(true));
    await open.show(blinking(16));
    await until(async () => expect(await playing()).toBe(false));
    expect(await open.page.getByRole("alertdialog").textContent()).toContain("At 16 a second, light flashes 8 times");
    await word("Keep still").click();
  });
});

describe("glyph sets", () => {
  test("show characters, and go to the one that is typed on the strip", async () => {
    const shown = glyphs();
    const characters = shown.frames.map((_, i) => 32 + i);
    await open.show({ ...shown, version: open.shown.version + 1, bitmap: { ...shown.bitmap, characters } });
    const strip = open.page.locator(".strip");
    // Once they are drawn, letters typed on the strip are characters.
    await until(async () => expect(await strip.getAttribute("aria-valuetext")).toBe("' ', frame 0 of 0–95"));
    await strip.focus();
    await press("e");
    await until(async () => expect(await strip.getAttribute("aria-valuetext")).toBe("'e', frame 69 of 0–95"));
    await press("Shift+A");
    await until(async () => expect(await strip.getAttribute("aria-valuetext")).toBe("'A', frame 33 of 0–95"));
    await press("Space");
    await until(async () => expect(await strip.getAttribute("aria-valuetext")).toBe("' ', frame 0 of 0–95"));
    // What is typed is not taken for a tool's key.
    expect(await word("Draw").getAttribute("aria-pressed")).toBe("true");
    expect(open.restructures).toEqual([]);
    await open.screenshot("frames-glyphs");
  });
});

describe("looks", () => {
  test.each(["dark", "light", "contrast", "contrastLight"] as const)("in %s", async (theme) => {
    await changeTheme(open, theme);
    await open.page.setViewportSize({ width: 320, height: 900 });
    await afresh(open, falling());
    await press("PageDown", "PageDown", "h", "c");
    await word("After").click();
    await settled(open);
    await open.screenshot(`frames-${theme}-320`);
    await press("a");
    await settled(open);
    await open.screenshot(`frames-cells-${theme}-320`);
    expect(await open.page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThan(1);
    await word("Before").click();
    await word("After").click();
    await word("Changes").click();
    await press("a");
    await changeTheme(open, "dark");
    await open.page.setViewportSize({ width: 420, height: 900 });
    expect(open.errors).toEqual([]);
    expect(await colourAt(open, 0, 0)).toHaveLength(3);
  });

  test("at 320×240", async () => {
    const one = rings(320, 240);
    await open.show({
      ...restructured(one, { kind: "frames", order: [0, "dark", 0] }),
      version: open.shown.version + 1,
    });
    await press("PageDown", "h", "c");
    await settled(open);
    await open.screenshot("frames-320x240");
    expect(await open.page.locator(".frameRow").last().textContent()).toMatch(/\d+ pixels since frame 0/);
    await press("h", "c");
  });
});
