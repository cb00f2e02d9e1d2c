import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { checkFile } from "../../../shared/checks/all.ts";
import { isWorthReading } from "../../../shared/checks/worth.ts";

test.each<[string, boolean]>([
  ["// @bitmap 1x1\nconst char a[] = { 0 };", true],
  ["/** @panel lantern 9x9 */", true],
  ["// @wiring lantern", true],
  ["// @palette rgb565", true],
  ["// @motion", true],
  ["static char pot_bits[] = {", true],
  ["static char bits[] = {", true],
  ["std::array<char, 1> pot_bits{1};", true],
  ["/** @param bitsPerPixel @brief @bit */ int bits8, bits_; // x@example.org", false],
  ["", false],
])("%j", (text, worth) => {
  expect(isWorthReading(text)).toBe(worth);
});

const SAMPLES = new URL("../../../sample-workspace/", import.meta.url);
const CORPUS = new URL("../../support/offersCorpus/", import.meta.url);
const texts = [SAMPLES, CORPUS].flatMap((folder) =>
  readdirSync(folder)
    .filter((name) => /\.(?:h|c|cpp|ino)$/.test(name))
    .map((name) => readFileSync(new URL(name, folder), "utf8")),
);

test("a text that is not worth reading gives nothing, whatever of a file is left", () => {
  let left = 0;
  for (const text of texts) {
    // Lines of the files, with the marks at hand taken out of some: what remains must hold on its own.
    const lines = text.split("\n");
    for (const piece of [
      text,
      text.replaceAll("@bitmap", "@bit\\\nmap"),
      lines.filter((l) => !l.includes("@")).join("\n"),
    ]) {
      if (isWorthReading(piece)) continue;
      left++;
      const file = openText(piece, "art.h");
      expect([file.bitmaps, file.panels, checkFile(file)]).toEqual([[], [], []]);
    }
  }
  expect(left).toBeGreaterThan(10);
});
