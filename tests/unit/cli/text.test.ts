import { describe, expect, it } from "vitest";
import { decodeText } from "../../../server/text.ts";

/** [what, bytes, text, encoding] */
const decoded: [string, number[], string, string][] = [
  ["nothing", [], "", "utf-8"],
  ["ASCII", [0x61, 0x0d, 0x0a], "a\r\n", "utf-8"],
  // RFC 3629, section 7 (from memory): A, U+2262, U+0391.
  ["UTF-8", [0x41, 0xe2, 0x89, 0xa2, 0xce, 0x91], "A\u2262\u0391", "utf-8"],
  ["a byte-order mark stays", [0xef, 0xbb, 0xbf, 0x61], "\ufeffa", "utf-8"],
  ["U+FFFD itself", [0xef, 0xbf, 0xbd], "\ufffd", "utf-8"],
  ["NUL", [0x61, 0, 0x62], "a\0b", "utf-8"],
  ["Latin-1", [0x67, 0x72, 0xfc, 0x6e], "gr\u00fcn", "latin1"],
  ["a UTF-8 sequence cut short", [0x61, 0xc3], "a\u00c3", "latin1"],
  ["an overlong sequence", [0xc0, 0x80], "\u00c0\u0080", "latin1"],
  ["UTF-16 with a mark, little end first", [0xff, 0xfe, 0x61, 0], "", "utf-16"],
  ["UTF-16 with a mark, big end first", [0xfe, 0xff, 0, 0x61], "", "utf-16"],
  ["UTF-16 without a mark", [0x69, 0, 0x6e, 0, 0x74, 0, 0x20, 0, 0x61, 0], "", "utf-16"],
  ["a surrogate", [0xed, 0xa0, 0x80], "\u00ed\u00a0\u0080", "latin1"],
];

describe("bytes to text", () => {
  it.each(decoded)("%s", (_what, bytes, text, encoding) => {
    expect(decodeText(Uint8Array.from(bytes))).toEqual({ text, encoding });
  });

  it("no byte is lost: each of the 256 comes back", () => {
    const all = Uint8Array.from({ length: 256 }, (_, i) => i);
    const { text, encoding } = decodeText(all);
    expect(encoding).toBe("latin1");
    expect(Buffer.from(text, "latin1")).toEqual(Buffer.from(all));
  });

  it("takes a part of a larger buffer", () => {
    expect(decodeText(Uint8Array.from([0x78, 0xfc, 0x79]).subarray(1, 2)).text).toBe("\u00fc");
  });
});
