import { openText } from "../../shared/bitmap/open.ts";
import { liveMotions } from "../../shared/motion/live.ts";
import { playerOf } from "../../shared/motion/play.ts";
import { median, type Row, row } from "./measure.ts";

/** A soft ring that grows from the middle, in floats: what the sample workspace has, for a panel of any size. */
const ring = (width: number, height: number) => `
// @panel lantern ${width}x${height} gray8 cap=64
static float smoothstep(float low, float high, float v) {
  float s = (v - low) / (high - low);
  if (s < 0.0f) s = 0.0f;
  if (s > 1.0f) s = 1.0f;
  return s * s * (3.0f - 2.0f * s);
}
// @motion lantern code
uint8_t ripple(int16_t x, int16_t y, uint16_t frame) {
  const float dx = x - ${(width - 1) / 2}f;
  const float dy = y - ${(height - 1) / 2}f;
  const float distance = sqrtf(dx * dx + dy * dy);
  const float front = (frame % 40) * 0.25f - 1.0f;
  const float shape = smoothstep(front - 1.5f, front, distance) * (1.0f - smoothstep(front, front + 1.5f, distance));
  return (uint8_t)(shape * 64.0f + 0.5f);
}
`;

/** Two waves in 8-bit integers, which fill a buffer. */
const waves = (width: number, height: number) => `
// @panel lantern ${width}x${height} gray8
uint8_t lamps[${width * height}];
static uint8_t wave(uint8_t v) { return v < 128 ? v : 255 - v; }
// @motion lantern code buffer=lamps
void waves(uint8_t t) {
  uint16_t i = 0;
  for (uint8_t y = 0; y < ${height}; y++)
    for (uint8_t x = 0; x < ${width}; x++) lamps[i++] = (wave(x * 9 + t * 4) + wave(y * 13 - t * 3)) / 4;
}
`;

/** Frames of live code a second: interpreted, one after the other. */
export function liveRows(): Row[] {
  const rows: Row[] = [];
  for (const [name, code] of [
    ["a soft ring, in floats", ring],
    ["two waves, in integers", waves],
  ] as const)
    for (const [width, height] of [
      [9, 9],
      [16, 16],
      [128, 64],
    ] as const) {
      const [motion] = liveMotions(openText(code(width, height), "bench.ino"));
      const player = motion && playerOf(motion);
      if (!player) throw new Error(`the bench function is not played: ${motion?.why}`);
      let frame = 0;
      const rate = 1000 / median(() => player.frame(frame++), 1);
      const what = `Live code, ${width}×${height}, ${name}: frames played`;
      rows.push(row(what, `${Math.round(rate)} a second`, "≥ 60 a second", rate >= 60));
    }
  return rows;
}
