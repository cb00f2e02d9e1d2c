import { readFileSync } from "node:fs";
import { PNG } from "pngjs";
import { expect, test } from "vitest";
import { askNeovim } from "../support/neovim.ts";

const MISTAKES = readFileSync(new URL("../../sample-workspace/mistakes.h", import.meta.url), "utf8");

test("Neovim, a client of its own, gets pushed diagnostics, the picture and a fix", async () => {
  const seen = await askNeovim(MISTAKES, "glaring_centre");
  expect(seen.diagnostics).toHaveLength(18);
  for (const d of seen.diagnostics) expect(d.source).toBe("dotwright");
  const line = MISTAKES.split("\n").findIndex((l) => l.includes("tnit=#"));
  expect(seen.diagnostics[0]).toMatchObject({ lnum: line, col: 21, severity: 1 });
  const { kind, value } = seen.hover?.contents ?? { kind: "", value: "" };
  expect(kind).toBe("markdown");
  const picture = /!\[glaring_centre\]\(data:image\/png;base64,([^)]+)\)/.exec(value)?.[1] ?? "";
  const png = PNG.sync.read(Buffer.from(picture, "base64"));
  expect([png.width % 5, png.height]).toEqual([0, png.width]);
  expect(seen.fixed).toBe(MISTAKES.trimEnd().replace("tnit=#", "tint=#"));
});
