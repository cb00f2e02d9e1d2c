import { expect, it } from "vitest";
import { annotationEdit } from "../../../shared/bitmap/annotate.ts";
import { openText } from "../../../shared/bitmap/open.ts";
import { applyEdits } from "../../../shared/source/text.ts";

const annotated = (text: string, name: string) => {
  const { source } = openText(text, "art.h");
  const array = source.arrays.find((a) => a.name === name);
  if (!array) throw new Error(`no array ${name}`);
  return applyEdits(text, [annotationEdit(source, array, "2x1 gray8")]);
};

it.each<[string, string, string, string]>([
  [
    "above the statement",
    "int x;\nconst uint8_t a[2] = {1, 2};",
    "a",
    "int x;\n// @bitmap 2x1 gray8\nconst uint8_t a[2] = {1, 2};",
  ],
  [
    "indented as it is",
    "void f() {\n\t  static char a[] = {1, 2};\n}",
    "a",
    "void f() {\n\t  // @bitmap 2x1 gray8\n\t  static char a[] = {1, 2};\n}",
  ],
  [
    "with CR LF where lines end so",
    "int x;\r\nchar a[] = {1, 2};\r\n",
    "a",
    "int x;\r\n// @bitmap 2x1 gray8\r\nchar a[] = {1, 2};\r\n",
  ],
  [
    "with the break before, on a last line",
    "int x;\r\nchar a[] = {1, 2};",
    "a",
    "int x;\r\n// @bitmap 2x1 gray8\r\nchar a[] = {1, 2};",
  ],
  [
    "with a lone CR where lines end so",
    "int x;\rchar a[] = {1, 2};",
    "a",
    "int x;\r// @bitmap 2x1 gray8\rchar a[] = {1, 2};",
  ],
  ["after a byte order mark", "\ufeffchar a[] = {1, 2};\n", "a", "\ufeff/* @bitmap 2x1 gray8 */ char a[] = {1, 2};\n"],
  [
    "within the line behind another statement",
    "int x; char a[] = {1, 2};",
    "a",
    "int x; /* @bitmap 2x1 gray8 */ char a[] = {1, 2};",
  ],
  [
    "before a second declarator",
    "char a[] = {1, 2}, b[] = {3, 4};",
    "b",
    "char a[] = {1, 2}, /* @bitmap 2x1 gray8 */ b[] = {3, 4};",
  ],
  [
    "before the list of a member",
    "struct i { char n; char d[2]; };\nstruct i t[] = { { 1, { 1, 2 } }, { 2, .d = { 3, 4 } } };",
    "t[0].d",
    "struct i { char n; char d[2]; };\nstruct i t[] = { { 1, /* @bitmap 2x1 gray8 */ { 1, 2 } }, { 2, .d = { 3, 4 } } };",
  ],
])("stands %s", (_, text, name, expected) => {
  const written = annotated(text, name);
  expect(written).toBe(expected);
  const { bitmaps, problems } = openText(written, "art.h");
  expect([bitmaps.map((b) => b.array.name), problems]).toEqual([[name], []]);
});
