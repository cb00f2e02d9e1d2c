/** Bytes as the C array that holds them. */

/** `const uintN_t NAME[] = { … };` with the bytes taken N/8 at a time, the first one highest. */
export function arrayText(bytes: Uint8Array, elementBits: 8 | 16 | 32 = 8, name = "art"): string {
  const size = elementBits / 8;
  const words: string[] = [];
  for (let i = 0; i < bytes.length; i += size)
    words.push(`0x${Buffer.from(bytes.subarray(i, i + size)).toString("hex")}`);
  const lines: string[] = [];
  for (let i = 0; i < words.length; i += 16) lines.push(`  ${words.slice(i, i + 16).join(", ")},`);
  return `const uint${elementBits}_t ${name}[] = {\n${lines.join("\n")}\n};\n`;
}
