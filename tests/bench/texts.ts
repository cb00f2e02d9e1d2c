/** Firmware with arrays, made by a fixed rule: mostly page-packed and grey art, with the code that draws it between. */

function random(seed: number): () => number {
  let state = seed;
  return () => {
    // A linear congruential generator (Numerical Recipes' constants): the same text on every run.
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const hex = (value: number) => `0x${value.toString(16).toUpperCase().padStart(2, "0")}`;

const PANEL = "// @panel lantern 9x9 gray8 cap=255\n";

/** A text of about `bytes` characters. */
export function firmware(bytes: number, panel = PANEL): string {
  const next = random(2026);
  const parts: string[] = [`#include <stdint.h>\n#define PROGMEM\n\n${panel}`];
  let length = 0;
  for (let n = 0; length < bytes; n++) {
    const kind = n % 4;
    const lines: string[] = [];
    if (kind === 0) {
      lines.push(`// @bitmap 128x64 mono1 pack=pages\nconst uint8_t screen_${n}[1024] PROGMEM = {`);
      for (let i = 0; i < 64; i++)
        lines.push(`  ${Array.from({ length: 16 }, () => hex(Math.floor(next() * 256))).join(", ")},`);
    } else if (kind === 1) {
      lines.push(`// @bitmap lantern frames=8 fps=12\nstatic const uint8_t glow_${n}[8 * 81] PROGMEM = {`);
      for (let i = 0; i < 72; i++)
        lines.push(`  ${Array.from({ length: 9 }, () => String(Math.floor(next() * 256)).padStart(3)).join(", ")},`);
    } else if (kind === 2) {
      lines.push(`// @bitmap 16x16 mono1\nconst unsigned char icon_${n}[] = {`);
      for (let i = 0; i < 16; i++)
        lines.push(`  ${hex(Math.floor(next() * 256))}, ${hex(Math.floor(next() * 256))}, /* row ${i} */`);
    } else {
      lines.push(`const uint16_t plain_${n}[] = {`);
      for (let i = 0; i < 32; i++)
        lines.push(`  ${Array.from({ length: 12 }, () => String(Math.floor(next() * 65536))).join(",")},`);
    }
    lines.push("};\n");
    lines.push(
      `void show_${n}(uint8_t level) {\n  for (uint8_t i = 0; i < 8; i++) {\n    if (level > i) write(i, level - i); // step down\n  }\n}\n`,
    );
    const part = lines.join("\n");
    parts.push(part);
    length += part.length;
  }
  return parts.join("\n");
}

/** Code without pictures, of about `bytes` characters: with tables of numbers, and comments that speak of bits. */
export function code(bytes: number): string {
  const next = random(11);
  const parts: string[] = ["#pragma once\n#include <stdint.h>\n"];
  let length = 0;
  for (let n = 0; length < bytes; n++) {
    const part = `
/**
 * @brief Writes channel ${n} of the vents. @param level from 0 to 255
 * @return whether it was taken
 */
bool vent_${n}(uint8_t level) {
  static const uint16_t steps[] = { ${Array.from({ length: 16 }, () => Math.floor(next() * 4096)).join(", ")} };
  if (level > ${n % 200}) return false; // nothing to do
  send(VENT_BASE + ${n}, steps[level >> 4] << SHIFT, "vent ${n} set to %u\\n");
  return true;
}
`;
    parts.push(part);
    length += part.length;
  }
  return parts.join("");
}

/** One large frame: a 320×240 grey picture, 76,800 elements. */
export function largeFrame(): string {
  const next = random(7);
  const rows = Array.from(
    { length: 240 },
    () => `  ${Array.from({ length: 320 }, () => hex(Math.floor(next() * 256))).join(", ")},`,
  );
  return `#include <stdint.h>\n// @bitmap 320x240 gray8\nconst uint8_t frame[76800] = {\n${rows.join("\n")}\n};\n`;
}
