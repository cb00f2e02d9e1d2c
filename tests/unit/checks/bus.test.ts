/**
 * Times of frames on a bus. I²C takes nine clocks for a byte, 8 bits and the acknowledge (NXP UM10204, I²C-bus
 * specification, byte format); 400 kHz is its fast mode. SPI shifts eight bits a byte.
 */
import { expect, it } from "vitest";
import { durationInWords, secondsToSend } from "../../../shared/light/bus.ts";
import { bytes } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

it.each([
  // 1 KiB, a frame of 128×64 pixels of one bit: 9216 clocks.
  [1024, { bus: 400e3, overhead: 9 / 8 }, 0.02304],
  [1024, { bus: 100e3, overhead: 9 / 8 }, 0.09216],
  [1024, { bus: 8e6 }, 0.001024],
  [81, { bus: 400e3, overhead: 9 / 8 }, 0.0018225],
])("%i bytes by %j take %f s", (count, bus, seconds) => {
  expect(secondsToSend(count, bus)).toBeCloseTo(seconds, 9);
});

it.each([
  [0.02304, "23 ms"],
  [0.09216, "92 ms"],
  [0.001024, "1 ms"],
  [0.00018, "0.18 ms"],
  [0.1234, "123 ms"],
  [1.25, "1.3 s"],
])("%f s in words", (seconds, words) => {
  expect(durationInWords(seconds)).toBe(words);
});

const oled = (speed: string, size = "128x64", extra = "") =>
  `// @bitmap ${size} mono1 pack=pages frames=2 fps=${speed} bus=400k overhead=9/8${extra}\nconst uint8_t a[2048] = { 1 };`;

const leftOut = { "Slow a to 43 fps": ["length"] };

describeFindings("bus", "warning", [
  {
    // 1 / 23.04 ms = 43.4
    what: "1 KiB on I²C in fast mode",
    source: oled("44"),
    says: "A frame of 1024 bytes takes 23 ms to send, at 44 fps there are 23 ms: this bus carries 43 frames a second at most.",
    on: "fps=44",
    fixes: { "Slow a to 43 fps": oled("43") },
    left: leftOut,
  },
  {
    what: "a picture that is a part of its panel, of which all is sent",
    source: `// @panel door 128x64 mono1 pack=pages bus=400k overhead=9/8\n${bytes("door 8x8 frames=2 fps=50", "{ 1, 2, 3, 4, 5, 6, 7, 8,  1, 2, 3, 4, 5, 6, 7, 9 }")}`,
    says: "A frame of 1024 bytes takes 23 ms to send",
    on: "fps=50",
    fixes: {
      "Slow a to 43 fps": `// @panel door 128x64 mono1 pack=pages bus=400k overhead=9/8\n${bytes("door 8x8 frames=2 fps=43", "{ 1, 2, 3, 4, 5, 6, 7, 8,  1, 2, 3, 4, 5, 6, 7, 9 }")}`,
    },
  },
  {
    what: "a driver whose canvas is larger than the panel",
    source: `// @panel shelf 2x1 bus=640 wire=16x8\n${bytes("shelf frames=2 fps=1", "{ 1, 2, 3, 4 }")}`,
    says: "A frame of 128 bytes takes 1.6 s to send, at 1 fps there are 1 s: this bus carries 0.62 frames a second",
    on: "fps=1",
    fixes: {
      "Slow a to 0.62 fps": `// @panel shelf 2x1 bus=640 wire=16x8\n${bytes("shelf frames=2 fps=0.62", "{ 1, 2, 3, 4 }")}`,
    },
  },
  {
    what: "wide elements, of which only the pixels are sent",
    source: `// @bitmap 4x1 pack=each frames=2 fps=6 bus=160\nconst int a[] = { 1, 2, 3, 4, 5, 6, 7, 8 };`,
    says: "A frame of 4 bytes takes 200 ms to send",
    on: "fps=6",
    fixes: {
      "Slow a to 5 fps": `// @bitmap 4x1 pack=each frames=2 fps=5 bus=160\nconst int a[] = { 1, 2, 3, 4, 5, 6, 7, 8 };`,
    },
  },
]);

describeClean("bus", [
  ["just as fast as it can", oled("43")],
  ["SPI, which has no acknowledge", oled("44").replace(" overhead=9/8", "")],
  ["no bus", oled("44").replace(" bus=400k", "")],
  ["no speed", oled("44").replace(" fps=44", "")],
]);
