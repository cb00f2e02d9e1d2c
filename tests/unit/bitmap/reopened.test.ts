/** Another version of a text is read as the first was: the same included files, panels, bytes. */
import { expect, test } from "vitest";
import { openText, reopened } from "../../../shared/bitmap/open.ts";
import type { BitmapFile } from "../../../shared/bitmap/resolve.ts";
import { pixelsOf } from "../../../shared/bitmap/resolve.ts";
import { restructure } from "../../../shared/bitmap/restructure/restructure.ts";
import { checkFile } from "../../../shared/checks/all.ts";

const HEADERS: Record<string, string> = {
  "day/value.h": "#define LIT 40\n",
  "night/value.h": "#define DIM 4\n",
  "day/day.h": '#include "value.h"\n',
  "night/night.h": '#include "value.h"\n',
  "rows.inc": "1, 2,\n",
};

/** Files by their path from where the one that names them stands. */
function includes(name: string, from: string) {
  const id = `${from.slice(0, from.lastIndexOf("/") + 1)}${name}`;
  const text = HEADERS[id];
  return text === undefined ? undefined : { id, text };
}

const pixels = (file: BitmapFile) => file.bitmaps.map((bitmap) => [...(pixelsOf(bitmap, 0) ?? [])]);

test("headers of one name in two folders are told apart", () => {
  const text = '#include "day/day.h"\n#include "night/night.h"\n// @bitmap 2x1\nconst uint8_t lamp[] = { LIT, DIM };\n';
  const file = openText(text, "a.cpp", { includes });
  expect(pixels(file)).toEqual([[40, 4]]);
  expect(pixels(reopened(file, `// Evening.\n${text}`))).toEqual([[40, 4]]);
});

test("rows that a list includes are there again", () => {
  const text = '// @bitmap 2x2\nconst uint8_t lamp[] = {\n#include "rows.inc"\n  3, 4 };\n';
  const file = openText(text, "a.cpp", { includes });
  expect(pixels(file)).toEqual([[1, 2, 3, 4]]);
  expect(pixels(reopened(file, `\n${text}`))).toEqual([[1, 2, 3, 4]]);
});

test("a change beside such a list is not refused because of it", () => {
  const text =
    '// @bitmap 2x1\nconst uint8_t spark[] = { 1, 2 };\n// @bitmap 2x2\nconst uint8_t lamp[] = {\n#include "rows.inc"\n  3, 4 };\n';
  const file = openText(text, "a.cpp", { includes });
  const [spark] = file.bitmaps;
  const world = { reopen: (other: string) => reopened(file, other), findings: checkFile };
  const changed = spark && restructure(file, spark, { kind: "frames", order: [0, 0] }, world);
  expect(changed).toHaveProperty("edits");
});

test("characters stay bytes", () => {
  const text = '// @bitmap 2x1\nconst uint8_t lamp[] = "\u00e9\u0001";\n';
  const file = openText(text, "a.cpp", { bytes: true });
  expect(pixels(file)).toEqual([[0xe9, 1]]);
  expect(pixels(reopened(file, `\n${text}`))).toEqual([[0xe9, 1]]);
});
