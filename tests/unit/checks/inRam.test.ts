import { describe, expect, it } from "vitest";
import { readPictures } from "../../support/readPictures.ts";

/** The hints about RAM of a file, each with its message and the text after its fix. */
function hints(source: string, file = "lantern.ino") {
  const found = readPictures(source, file).findings.filter((f) => f.code === "memory" && f.message.includes("RAM"));
  return found.map(({ text, message, fixes }) => ({
    text,
    message,
    fixes: Object.fromEntries(fixes.map((fix) => [fix.title, fix.after])),
  }));
}

const LIST = "{ 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16 }";
const art = (declaration: string, rest = "") => `// @bitmap 4x4\n${declaration} = ${LIST};\n${rest}`;
const READS = "int sum(int i) { return a[0] + a[a[i]]; }\nint n = sizeof(a);\n";

describe("a picture in RAM", () => {
  it("is kept in flash, with all that reads it", () => {
    const [hint, ...more] = hints(art("const uint8_t a[16]", READS));
    expect(more).toEqual([]);
    expect(hint?.text).toBe("a");
    expect(hint?.message).toBe(
      "On AVR, a takes 16 bytes of RAM beside those of flash, as it has no PROGMEM. It is used in 4 places of this file.",
    );
    const after = art(
      "const uint8_t a[16] PROGMEM",
      "int sum(int i) { return pgm_read_byte(&a[0]) + pgm_read_byte(&a[pgm_read_byte(&a[i])]); }\nint n = sizeof(a);\n",
    );
    expect(hint?.fixes).toEqual({ "Keep a in flash, read by `pgm_read_byte` in 3 places": after });
    expect(hints(after)).toEqual([]);
  });

  it("becomes constant if it was writable", () => {
    const [hint] = hints(art("static int16_t a[]", "int f() { return a[1]; }\n"));
    expect(hint?.message).toContain("32 bytes of RAM beside those of flash, as it is not `const` and has no PROGMEM");
    expect(Object.values(hint?.fixes ?? {})).toEqual([
      art("static const int16_t a[] PROGMEM", "int f() { return (int16_t)pgm_read_word(&a[1]); }\n"),
    ]);
  });

  it.each<[string, string, string, string?]>([
    [
      "its uses pass it on",
      art("const uint8_t a[16]", "void f() { draw(a); }"),
      "It is passed on or declared again: what reads it there must be changed by hand.",
    ],
    ["a macro names it", art("const uint8_t a[16]", "#define FIRST a[0]\n"), "A macro names it"],
    [
      "it is in a table",
      art("const uint8_t a[16]", "const uint8_t *const all[] = { a };"),
      "It is passed on or declared again",
    ],
    ["it is on the stack", "void f() {\n// @bitmap 4x4\nconst uint8_t a[16] = { 1 };\n}", "only a `static` array"],
    [
      "other files read it",
      art("const uint8_t a[16]", "extern const uint8_t b[] PROGMEM;"),
      "Files that include this one read it too",
      "art.h",
    ],
    [
      "its elements are too wide",
      art("const uint64_t a[16]").replace("4x4", "4x4 pack=each"),
      "There is no `pgm_read_…`",
    ],
    [
      "two have its name",
      `${art("const uint8_t a[16]")}namespace n {\n${art("const uint8_t a[16]")}}`,
      "Another array has its name",
    ],
  ])("no fix where %s", (_what, source, says, file = "lantern.ino") => {
    const [hint] = hints(source, file);
    expect(hint?.message).toContain(says);
    expect(hint?.fixes).toEqual({});
  });

  it.each<[string, string, string?]>([
    ["in flash", art("const uint8_t a[16] PROGMEM", READS)],
    ["that the firmware writes to", art("uint8_t a[16]", "void f() { a[0] = 1; }")],
    ["of zeros, which are not drawn yet", "// @bitmap 4x4\nuint8_t a[16] = { 0 };"],
    ["of a few bytes", "// @bitmap 5x3\nconst uint8_t a[15] = { 1, 2 };"],
    ["built for another target", art("const uint8_t a[16]", READS), "art.cpp"],
  ])("nothing is said of one %s", (_what, source, file = "lantern.ino") => {
    expect(hints(source, file)).toEqual([]);
  });
});
