/** Copy, cut and paste on the page: by the keys of the clipboard and by words, as text in C and as a picture. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import {
  afresh,
  bundle,
  type Code,
  centreOf,
  colourAt,
  launch,
  type Opened,
  openPage,
  settled,
} from "../support/page.ts";
import { drop, mono, wedge } from "../support/pictures.ts";
import { until } from "../support/until.ts";

let browser: Browser;
let open: Opened;
beforeAll(async () => {
  let code: Code;
  [browser, code] = await Promise.all([launch(), bundle()]);
  open = await openPage(browser, code, drop());
  await open.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
});
afterAll(() => browser.close());
beforeEach(async () => {
  await press("Escape", "Escape");
  await afresh(open, wedge());
});

const note = () => open.page.locator(".note").textContent();
const says = (words: string) => until(async () => expect(await note()).toBe(words));
const press = async (...keys: string[]) => {
  for (const key of keys) await open.page.keyboard.press(key);
};
const word = (name: string) => open.page.locator(".selecting").getByRole("button", { name, exact: true });
const rows = (width = 6) => {
  const pixels = open.shown.frames[0] ?? [];
  return Array.from({ length: pixels.length / width }, (_, y) => pixels.slice(y * width, (y + 1) * width).join(" "));
};
/** Selects the two columns and rows from column 1, row 1. */
const select = () => press("Control+Home", "ArrowRight", "ArrowDown", "Shift+ArrowRight", "Shift+ArrowDown");
const FLOATS = "arrows move, Enter puts down, Escape drops";

/** What the system's clipboard holds: its types, the text, and the picture's pixels as red, green, blue, alpha. */
const clipboard = () =>
  open.page.evaluate(async () => {
    const [item] = await navigator.clipboard.read();
    if (!item) return { types: [], text: "", pixels: [] };
    const text = item.types.includes("text/plain") ? await (await item.getType("text/plain")).text() : "";
    if (!item.types.includes("image/png")) return { types: [...item.types], text, pixels: [] };
    const bitmap = await createImageBitmap(await item.getType("image/png"));
    const canvas = document.createElement("canvas");
    canvas.width = bitmap.width;
    canvas.height = bitmap.height;
    const context = canvas.getContext("2d");
    context?.drawImage(bitmap, 0, 0);
    const data = context?.getImageData(0, 0, bitmap.width, bitmap.height).data ?? [];
    return { types: [...item.types], text, pixels: [...data], width: bitmap.width };
  });

/** Puts a PNG of these greys, one row, on the system's clipboard, or text. */
const fill = (given: { readonly greys?: readonly number[]; readonly text?: string }) =>
  open.page.evaluate(async ({ greys, text }) => {
    if (text !== undefined) return navigator.clipboard.writeText(text);
    const canvas = document.createElement("canvas");
    canvas.width = greys?.length ?? 0;
    canvas.height = 1;
    const data = (greys ?? []).flatMap((g) => [g, g, g, 255]);
    canvas.getContext("2d")?.putImageData(new ImageData(new Uint8ClampedArray(data), canvas.width, 1), 0, 0);
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, "image/png"));
    if (blob) await navigator.clipboard.write([new ClipboardItem({ "image/png": blob })]);
  }, given);

test("Ctrl+C puts an annotated array and a picture on the clipboard", async () => {
  await afresh(open, drop());
  await press("ArrowRight", "ArrowRight", "ArrowRight", "Shift+ArrowRight", "Shift+ArrowDown", "Shift+ArrowDown");
  await press("Control+c");
  await says("2×3 pixels copied, as an array in C and as a picture");
  const { types, text, pixels, width } = await clipboard();
  expect(types.sort()).toEqual(["image/png", "text/plain"]);
  expect(text).toMatch(
    /^\/\/ @bitmap 2x3 gray8 cap=64\n.*uint8_t drop_icon_2\[6\] = \{\n +0, 15,\n +1, 42,\n +26, 64,?\n\};\n$/,
  );
  // sRGB of linear light (IEC 61966-2-1): the cap is white, 26/64 is 171, 15/64 is 133.
  expect(width).toBe(2);
  expect(pixels.filter((_, i) => i % 4 === 0)).toEqual([0, 133, 34, 212, 171, 255]);
  expect(open.paints).toEqual([]);
});

test("what is copied is pasted elsewhere as it was: it floats, arrows move it, Enter writes it as one stroke", async () => {
  await select();
  await press("Control+c");
  await says("2×2 pixels copied, as an array in C and as a picture");
  await press("Escape", "Control+End", "Control+v");
  await says(`2×2 pixels pasted: ${FLOATS}`);
  expect(await open.page.locator(".outline.floats").isVisible()).toBe(true);
  await press("ArrowUp");
  await says("2×2 pixels at column 4, row 1");
  expect(open.paints).toEqual([]);
  await press("Enter");
  await until(() => expect(rows()).toEqual(["0 1 2 3 4 5", "6 7 8 9 7 8", "12 13 14 15 13 14", "18 19 20 21 22 23"]));
  expect(open.paints).toHaveLength(1);
});

test("a pasted piece is dragged, and a press outside of it writes it; Escape drops it", async () => {
  await select();
  await press("Control+c");
  await says("2×2 pixels copied, as an array in C and as a picture");
  const before = await colourAt(open, 0, 0);
  await press("Control+v");
  await says(`2×2 pixels pasted: ${FLOATS}`);
  const [from, to, outside] = [await centreOf(open, 1, 1), await centreOf(open, 0, 0), await centreOf(open, 5, 3)];
  await open.page.mouse.move(from.x, from.y);
  await open.page.mouse.down();
  await open.page.mouse.move(to.x, to.y, { steps: 4 });
  await open.page.mouse.up();
  await says(`2×2 pixels at column 0, row 0: ${FLOATS}`);
  expect(await colourAt(open, 0, 0)).not.toEqual(before);
  expect(open.paints).toEqual([]);
  await open.page.mouse.click(outside.x, outside.y);
  await until(() => expect(rows().slice(0, 2)).toEqual(["7 8 2 3 4 5", "13 14 8 9 10 11"]));
  await press("Control+v");
  await says(`2×2 pixels pasted: ${FLOATS}`);
  await press("Escape");
  await says("paste dropped");
  await settled(open);
  expect(open.paints).toHaveLength(1);
});

test("Ctrl+X erases what it has copied, as one stroke", async () => {
  await select();
  await press("Control+x");
  await until(() => expect(rows()).toEqual(["0 1 2 3 4 5", "6 0 0 9 10 11", "12 0 0 15 16 17", "18 19 20 21 22 23"]));
  await says("2×2 pixels cut, as an array in C and as a picture");
  expect((await clipboard()).text).toContain("2x2 gray4");
  expect(open.paints).toHaveLength(1);
});

test("what floats is copied as it is, and not cut", async () => {
  await fill({ text: "9, 8\n" });
  await press("Control+v");
  await says(`2×1 pixels pasted: ${FLOATS}`);
  await press("r", "Control+x");
  await says("Not cut: put down what floats first");
  await press("Control+c");
  await says("1×2 pixels copied, as an array in C and as a picture");
  expect((await clipboard()).text).toContain("@bitmap 1x2 gray4");
});

test("between formats levels keep their share of full", async () => {
  await fill({ text: "// @bitmap 3x1 mono1\nconst uint8_t a[] = {0xA0};" });
  await press("Control+v");
  await says(`3×1 pixels pasted: ${FLOATS}`);
  await press("Enter");
  await until(() => expect(rows()[0]).toBe("23 0 23 3 4 5"));
});

test("a picture becomes the nearest levels in linear light", async () => {
  await afresh(open, drop());
  await fill({ greys: [255, 170, 0] });
  await press("Control+v");
  await says(`3×1 pixels pasted: ${FLOATS}`);
  await press("Enter");
  await until(() => expect(rows(9)[0]).toBe("64 26 0 0 15 0 0 0 0"));
});

test("on a mono picture white is lit", async () => {
  await afresh(open, mono(8, 8));
  await press("ArrowRight", "ArrowDown");
  await fill({ greys: [255, 100, 230] });
  await press("Control+v");
  await says(`3×1 pixels pasted: ${FLOATS}`);
  await press("Enter");
  await until(() => expect(rows(8)[1]?.slice(0, 8)).toBe("1 1 0 1 "));
});

test("plain numbers are values; what is no picture says what is wrong, and nothing is lost", async () => {
  await fill({ text: "9, 9,\n9, 9\n" });
  await press("Control+v");
  await says(`2×2 pixels pasted: ${FLOATS}`);
  await press("Enter");
  await until(() => expect(rows()[1]).toBe("9 9 8 9 10 11"));
  await fill({ text: "Water the ferns" });
  await press("Control+v");
  await says("Not pasted: “Water the ferns” on the clipboard is neither an array of numbers nor a picture.");
  await fill({ text: "// @bitmap 3x1 gray9\nint a[] = {1, 2, 3};" });
  await press("Control+v");
  await until(async () => expect(await note()).toMatch(/^Not pasted: The text on the clipboard has a mistake: /));
  await settled(open);
  expect(open.paints).toHaveLength(1);
  expect(await open.page.locator(".outline").isVisible()).toBe(false);
});

test("what is larger than the picture says so, and what falls outside is told", async () => {
  await fill({ text: "1, 2, 3, 4, 5, 6, 7\n" });
  await press("s", "Control+v");
  await says(`7×1 pixels pasted, larger than the picture: ${FLOATS}`);
  await press("Enter");
  await until(() => expect(rows()[0]).toBe("1 2 3 4 5 6"));
  await says("7×1 pixels at column 0, row 0 put down; 1 pixel that was lit fell outside: undo brings it back");
});

test("the words do it through the extension, with the text alone where the page may not write", async () => {
  await select();
  await open.page.evaluate(() => {
    navigator.clipboard.write = () => Promise.reject(new Error("not allowed"));
  });
  await word("Copy").click();
  await says("2×2 pixels copied, as an array in C");
  expect(open.clipboard).toContain("@bitmap 2x2 gray4");
  await press("Escape");
  await press("s");
  await word("Paste").click();
  await says(`2×2 pixels pasted: ${FLOATS}`);
  await word("Put down").click();
  await until(() => expect(open.paints).toHaveLength(1));
});

test("where the editor gives a key and no event, the extension is asked", async () => {
  await select();
  await open.page.evaluate(() => {
    for (const type of ["copy", "paste"])
      window.addEventListener(type, (event) => event.stopImmediatePropagation(), { capture: true, once: true });
  });
  await press("Control+c");
  await says("2×2 pixels copied, as an array in C");
  await press("Escape", "Control+Home", "Control+v");
  await says(`2×2 pixels pasted: ${FLOATS}`);
});

test("in the field for levels the keys of the clipboard belong to its text", async () => {
  const field = open.page.locator(".ladder input");
  await field.fill("17");
  await field.press("Control+a");
  await field.press("Control+c");
  await settled(open);
  expect(await open.page.evaluate(() => navigator.clipboard.readText())).toBe("17");
  await field.press("End");
  await field.press("Control+v");
  expect(await field.inputValue()).toBe("1717");
  await field.press("Escape");
});

test("in a document that can't be changed pixels are copied, not cut or pasted", async () => {
  await open.show({ ...open.shown, version: open.shown.version + 1, readOnly: true });
  await select();
  await press("Control+x");
  await says("Not painted: this document can’t be changed");
  await press("Control+c");
  await until(async () => expect(await note()).toMatch(/^2×2 pixels copied/));
  await press("Control+v");
  await says("Not painted: this document can’t be changed");
});

test("the page never broke its content security policy nor threw", () => {
  expect(open.errors).toEqual([]);
});
