/**
 * Where AVR keeps data: avr-libc user manual, "Data in Program Space": constants are in RAM too unless PROGMEM or
 * `__flash` places them. What is writable and all zeros is cleared at start, not copied (.bss).
 */
import { expect, test } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { storageOf } from "../../../shared/bitmap/storage.ts";

function stored(declaration: string, list = "{ 1, 2, 3 }", file = "lantern.ino") {
  const opened = openText(`// @bitmap 3x1\n${declaration} ${list};\n`, file);
  const [bitmap] = opened.bitmaps;
  const found = bitmap && storageOf(opened.source, bitmap.array);
  return found && `${found.kind} ${found.flash} ${found.ram}`;
}

test.each<[string, string]>([
  ["const uint8_t a[3] PROGMEM =", "flash 3 0"],
  ["PROGMEM const uint16_t a[] =", "flash 6 0"],
  ["static const __flash uint8_t a[] =", "flash 3 0"],
  ['const uint8_t a[] __attribute__((section(".progmem.data"))) =', "flash 3 0"],
  ["const uint8_t a[] __attribute__((__progmem__)) =", "flash 3 0"],
  ["#define ART static const uint8_t PROGMEM\nART a[] =", "flash 3 0"],
  ["const uint8_t a[3] =", "copied 3 3"],
  ["constexpr uint8_t a[3] = /* not PROGMEM */", "copied 3 3"],
  ["uint8_t a[3] =", "copied 3 3"],
  ["uint8_t a[3] EEMEM =", "eeprom 0 0"],
])("%s", (declaration, expected) => {
  expect(stored(declaration)).toBe(expected);
});

test("what is all zeros takes no flash where it is writable", () => {
  expect(stored("uint8_t a[3] =", "{ 0 }")).toBe("cleared 0 3");
  expect(stored("const uint8_t a[3] =", "{ 0 }")).toBe("copied 3 3");
});

test("elsewhere constants are in flash alone", () => {
  expect(stored("const uint8_t a[3] =", undefined, "art.cpp")).toBe("flash 3 0");
  expect(stored("uint8_t a[3] =", undefined, "art.cpp")).toBe("copied 3 3");
});
