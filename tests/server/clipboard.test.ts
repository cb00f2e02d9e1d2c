/** Pixels to text in C and back, as the server answers. */
import { afterAll, beforeAll, expect, test } from "vitest";
import type { LspParams } from "../../shared/protocol/lsp.ts";
import type { LspClient } from "../support/lspClient.ts";
import { startClient } from "../support/lspClient.ts";

const ART = `// @panel hut 3x3 gray8 cap=64
// @bitmap hut
static const uint8_t hook_icon[9] = {
   0, 26,  0,
   0, 26, 15,
   7, 26,  0,
};
`;
const uri = "file:///garden/clipboard.h";

let client: LspClient;
beforeAll(async () => {
  client = await startClient();
  client.open(uri, ART);
});
afterAll(() => client.stop());

const copied = async (given: Partial<LspParams<"dotwright/copied">> = {}) => {
  const list = await client.own("dotwright/bitmaps", { uri });
  const identity = "ok" in list ? list.ok.bitmaps[0]?.identity : undefined;
  if (!identity) throw new Error("no bitmap");
  return client.own("dotwright/copied", { uri, identity, width: 2, height: 1, pixels: [26, 15], ...given });
};

test("copied pixels are an array of their own, in the style of the file, that needs no panel", async () => {
  expect(await copied()).toEqual({
    ok: { text: "// @bitmap 2x1 gray8 cap=64\nstatic const uint8_t hook_icon_2[2] = {\n  26, 15,\n};\n" },
  });
});

test.each([
  [{ pixels: [26] }, "1 pixels are no 2×1"],
  [{ pixels: [26, 300] }, "300 is not a value of gray8"],
  [{ width: 0, height: 0, pixels: [] }, "0 pixels are no 0×0"],
])("%j can't be copied", async (given, err) => {
  expect(await copied(given)).toEqual({ err });
});

test("pasted text is read with the panels of the document, or refused in words", async () => {
  expect(
    await client.own("dotwright/pasted", { uri, text: "// @bitmap hut 2x1\nuint8_t a[] = {64, 7};", width: 3 }),
  ).toEqual({
    ok: { width: 2, height: 1, pixels: [64, 7], values: { format: "gray8", kind: "gray", most: 255, light: "linear" } },
  });
  expect(await client.own("dotwright/pasted", { uri, text: "1, 2, 3, 4, 5, 6", width: 3 })).toEqual({
    ok: { width: 3, height: 2, pixels: [1, 2, 3, 4, 5, 6] },
  });
  expect(await client.own("dotwright/pasted", { uri, text: "fern", width: 3 })).toEqual({
    err: "“fern” on the clipboard is neither an array of numbers nor a picture.",
  });
});

test("the colours of a palette that comes along are told", async () => {
  const text =
    "// @palette rgb888\nuint32_t hues[2] = {0x000000, 0xff8000};\n// @bitmap 2x1 palette8 palette=hues\nuint8_t a[] = {1, 0};";
  expect(await client.own("dotwright/pasted", { uri, text, width: 3 })).toMatchObject({
    ok: { pixels: [1, 0], values: { format: "palette8", colours: [0, 0xff8000] } },
  });
});
