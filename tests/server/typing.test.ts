import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { CompletionItem, TextEdit } from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { LspClient } from "../support/lspClient.ts";
import { startClient } from "../support/lspClient.ts";

let client: LspClient;
beforeAll(async () => {
  client = await startClient();
});
afterAll(() => client.stop());

let opened = 0;
/** Completes at the `|` of a text; each item comes with the text that it would make. */
async function complete(marked: string): Promise<{ label: string; after: string; item: CompletionItem }[]> {
  const at = marked.indexOf("|");
  const text = marked.replace("|", "");
  const uri = `file:///garden/typing${opened++}.h`;
  client.open(uri, text);
  const doc = TextDocument.create(uri, "cpp", 1, text);
  const params = { textDocument: { uri }, position: doc.positionAt(at) };
  const items: CompletionItem[] = await client.request({ method: "textDocument/completion" }, params);
  return items.map((item) => ({
    label: item.label,
    item,
    after: TextDocument.applyEdits(doc, [item.textEdit as TextEdit]),
  }));
}

const PANEL = "// @panel shelf 5x4 gray8\n";
const MARKERS = ["@bitmap", "@panel", "@wiring", "@palette", "@motion"];
const FORMATS = [
  "mono1",
  "gray2",
  "gray4",
  "gray8",
  "rgb332",
  "rgb565",
  "rgb888",
  "palette1",
  "palette2",
  "palette4",
  "palette8",
];

describe("completion", () => {
  test.each([
    ["a marker", "// @|", MARKERS],
    ["a marker begun", "  /* @bi| */", MARKERS],
    ["a marker in a block", "/*\n * @|\n */", MARKERS],
    ["a marker in its middle", "// @bit|map 9x9", MARKERS],
    ["after a marker", "// @bitmap |", ["5x7", ...FORMATS, "pack=", "frames=", "cap=", "invert", "entries"]],
    ["a panel's name", `${PANEL}// @bitmap |`, ["shelf", "5x4"]],
    ["a word begun", "// @bitmap 9x9 gr|", ["gray8", "pack="]],
    ["inside a list", "const uint8_t a[1] = { // @bitmap |\n 1 };", ["5x7"]],
    ["in a Doxygen comment", "/// @bitmap |", ["5x7"]],
    ["in a row of a block", "/* icon\n   @bitmap 9x9 |\n */", ["gray8"]],
    ["an option of a panel", "// @panel shelf |", ["wire=", "invert"]],
    ["an option of a motion", "// @motion |", ["image=", "mask=", "code"]],
    ["the panel of a wiring", `${PANEL}// @wiring |`, ["shelf"]],
  ])("offers %s", async (_, text, expected) => {
    expect((await complete(text)).map((c) => c.label)).toEqual(expect.arrayContaining(expected));
  });

  test.each([
    ["// @bitmap 9x9 pack=|", ["rows", "columns", "pages", "each"]],
    ["// @bitmap 9x9 pack=pa|ges bits=lsb", ["rows", "columns", "pages", "each"]],
    ["// @bitmap 9x9 scan=|", ["rows", "columns", "serpentine", "serpentine-columns"]],
    ["// @bitmap 9x9 cap=|", ["64", "25%"]],
    ["// @panel shelf 9x9 mount=|", ["0", "90", "180", "270"]],
    ["// @palette rgb565\nconst uint16_t warm[2] = {0, 1};\n// @bitmap 9x9 palette4 palette=|", ["head", "warm"]],
    ["const uint8_t wide[2] = {3, 5};\n// @bitmap 5x7 widths=|", ["wide"]],
    ["// @bitmap 9x9 invert=|", []],
    ["// @bitmap 9x9 wire=|", []],
    ["// @bitmap 9x9 nonsense=|", []],
  ])("of a value: %s", async (text, expected) => {
    expect((await complete(text)).map((c) => c.label)).toEqual(expected);
  });

  test.each([
    ["outside of comments", "const uint8_t a[2] = {1, |2};"],
    ["in code after an @", "@|"],
    ["in a string", 'const char *s = "// @|";'],
    ["in a comment without a marker", "// just words |"],
    ["in a mail address", "// someone@|"],
    ["in free text", "// @bitmap 9x9 -- the kettle |"],
    ["after a blank line", "/* @bitmap 9x9\n\n   more words | */"],
    ["for a panel's new name", "// @panel |"],
    ["behind a closed block", "/* @bitmap */ |int a;"],
    ["after a digit separator", "int a = 1'000; char b = '\"'; // x\nint c; |"],
    ["in a raw string", 'const char *s = R"(// @bitmap )" "|";'],
  ])("offers nothing %s", async (_, text) => {
    expect(await complete(text)).toEqual([]);
  });

  test.each([
    ["// @bi|tmap 9x9", "@panel", "// @panel 9x9"],
    ["// @bitmap 9x9 gr|ay4 cap=64", "gray8", "// @bitmap 9x9 gray8 cap=64"],
    ["// @bitmap 9x9 |", "pack=", "// @bitmap 9x9 pack="],
    ["/* @bitmap 9x9 pack=p| */", "pages", "/* @bitmap 9x9 pack=pages */"],
    ["// @bitmap 9x9 pack=|rows bits=lsb", "pages", "// @bitmap 9x9 pack=pages bits=lsb"],
    ["// \u{1f33f} @bitmap 9x9 |", "", ""],
    ["// @bitmap 9x9 tint=#ffffff \u{1f33f}=1 |", "cap=", "// @bitmap 9x9 tint=#ffffff \u{1f33f}=1 cap="],
  ])("makes of %s with %s: %s", async (text, label, after) => {
    const chosen = (await complete(text)).filter((c) => c.label === label);
    expect(chosen.map((c) => c.after)).toEqual(label === "" ? [] : [after]);
  });

  test("leaves out what is given already, and documents the rest", async () => {
    const found = await complete(`${PANEL}// @bitmap shelf gray8 cap=64 invert |`);
    const labels = found.map((c) => c.label);
    for (const given of ["shelf", "gray8", "mono1", "cap=", "invert"]) expect(labels).not.toContain(given);
    const fps = found.find((c) => c.label === "fps=");
    expect(fps?.item.documentation).toMatchObject({
      kind: "markdown",
      value: expect.stringContaining("Frames a second."),
    });
  });
});
