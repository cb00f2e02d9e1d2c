/**
 * Animations judged by W3C WCAG 2.2, success criterion 2.3.1, general and red flash thresholds; counting as in technique
 * G19. Grey levels of an LED are linear light; code values are decoded by IEC 61966-2-1.
 */
import { bytes } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

const blink = (options: string, dark: number, lit: number) => bytes(`1x1 frames=2 ${options}`, `{ ${dark}, ${lit} }`);
const says = (fps: number, flashes: number) =>
  `At ${fps} fps light flashes ${flashes} times within one second (all frames), on 100 % of the pixels`;
const slowed = (source: string, fps: number, to: number) => ({
  [`Slow a to ${to} fps`]: source.replace(`fps=${fps}`, `fps=${to}`),
});

describeFindings("flashing", "warning", [
  {
    what: "dark and full ten times a second",
    source: blink("fps=20", 0, 255),
    says: says(20, 10),
    on: "0",
    fixes: slowed(blink("fps=20", 0, 255), 20, 6),
  },
  {
    // Seven changes in a second fail, six pass.
    what: "seven changes in a second",
    source: blink("fps=7", 0, 255),
    says: says(7, 3.5),
    on: "0",
    fixes: slowed(blink("fps=7", 0, 255), 7, 6),
  },
  {
    what: "a change of a tenth of full light",
    source: blink("fps=20", 0, 26),
    says: says(20, 10),
    on: "0",
    fixes: slowed(blink("fps=20", 0, 26), 20, 6),
  },
  {
    what: "the smallest change of code values on a screen",
    source: blink("light=srgb fps=20", 64, 109),
    says: says(20, 10),
    on: "64",
    fixes: slowed(blink("light=srgb fps=20", 64, 109), 20, 6),
  },
  {
    what: "red lamps, between two shades of which light alone would not flash",
    source: "// @bitmap 1x1 rgb888 frames=2 fps=20\nconst uint32_t a[] = { 0x000000, 0x480000 };",
    says: "At 20 fps red light flashes",
    on: "0x000000",
    fixes: {
      "Slow a to 6 fps": "// @bitmap 1x1 rgb888 frames=2 fps=6\nconst uint32_t a[] = { 0x000000, 0x480000 };",
    },
  },
  {
    what: "a quarter of the pixels",
    source: bytes("2x2 frames=2 fps=12", "{ 9, 9, 9, 0,  9, 9, 9, 255 }"),
    says: "on 25 % of the pixels",
    on: "9",
    fixes: { "Slow a to 6 fps": bytes("2x2 frames=2 fps=6", "{ 9, 9, 9, 0,  9, 9, 9, 255 }") },
  },
]);

describeFindings("flashing", "warning", [
  {
    // The first of the seconds that hold all ten changes, which goes on into the next round.
    what: "a second of a longer run",
    source: bytes("1x1 frames=40 fps=20", `{ ${"1, ".repeat(30)}${"255, 2, ".repeat(5)} }`),
    says: "At 20 fps light flashes 5 times within one second (frames 21 to 0, from 1.05 s)",
    on: "1",
    fixes: { "Slow a to 6 fps": bytes("1x1 frames=40 fps=6", `{ ${"1, ".repeat(30)}${"255, 2, ".repeat(5)} }`) },
  },
]);

describeClean("flashing", [
  ["six changes in a second", blink("fps=6", 0, 255)],
  ["less than a tenth of full light", blink("fps=20", 0, 25)],
  ["code values just below", blink("light=srgb fps=20", 64, 108)],
  ["the darker state at 0.8 of full", blink("fps=20", 204, 255)],
  ["full-scale art that is driven at a twelfth", blink("fps=20 drive=8%", 0, 255)],
  ["less than a quarter of the pixels", bytes("5x1 frames=2 fps=20", "{ 9, 9, 9, 9, 0,  9, 9, 9, 9, 255 }")],
  ["a fade over many frames", bytes("1x1 frames=8 fps=20", "{ 0, 64, 128, 192, 255, 192, 128, 64 }")],
  ["no speed", blink("", 0, 255)],
  ["a glyph set", blink("fps=20 first='0'", 0, 255)],
  ["a still picture", bytes("2x1 fps=20", "{ 0, 255 }")],
]);
