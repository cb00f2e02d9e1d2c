import { expect, test } from "vitest";
import { occurrencesIn } from "../../../shared/source/identifiers.ts";

test.each<[string, readonly number[]]>([
  ["int warm = warm + 1;", [4, 11]],
  ["int warmer, _warm, warm2; cold.warm->warm", [31, 37]],
  ["// warm\n/* warm */ warm", [19]],
  ['"warm" \'w\' R"(warm)" L"warm" u8R"x(warm)x" warm', [43]],
  ["0xwarm 1warm #define warm 2", [21]],
  ['"open warm\nwarm', [11]],
  ["/* open warm", []],
  ["", []],
])("%j", (text, starts) => {
  expect(occurrencesIn(text, "warm").map(({ start }) => start)).toEqual(starts);
});
