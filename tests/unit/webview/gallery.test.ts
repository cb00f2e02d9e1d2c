import { describe, expect, it } from "vitest";
import type { GalleryFile } from "../../../shared/protocol/lsp.ts";
import { BITMAP, between, HEADING, layOut } from "../../../webview/gallery/layout.ts";
import { listing, type Row } from "../../../webview/gallery/model.ts";

const entry = (name: string, more: Partial<GalleryFile["bitmaps"][number]> = {}) => ({
  identity: { name, ordinal: 0, siblings: 1, structure: "" },
  line: 1,
  format: "gray8",
  facts: "9×9 gray8 · 81 bytes",
  ...more,
});
const FILES: GalleryFile[] = [
  { uri: "file:///a.h", title: "a.h", bitmaps: [entry("drop", { panel: "lantern" }), entry("leaf")] },
  {
    uri: "file:///deep/b.h",
    title: "deep/b.h",
    bitmaps: [entry("moon", { panel: "lantern", findings: { count: 1, worst: "warning", first: "Pixel 1,2 is 96" } })],
  },
];
const said = (rows: readonly Row[]) =>
  rows.map((row) => (row.kind === "heading" ? `${row.title} (${row.count})` : row.entry.identity.name));

describe("the rows", () => {
  it.each<[string, "file" | "panel", string[], number]>([
    ["", "file", ["a.h (2)", "drop", "leaf", "deep/b.h (1)", "moon"], 3],
    ["", "panel", ["lantern (2)", "drop", "moon", "none (1)", "leaf"], 3],
    ["DEEP", "file", ["deep/b.h (1)", "moon"], 1],
    ["warning 96", "file", ["deep/b.h (1)", "moon"], 1],
    ["lantern  gray8", "file", ["a.h (1)", "drop", "deep/b.h (1)", "moon"], 2],
    ["lantern leaf", "file", [], 0],
  ])("of %j by %s", (filter, grouping, rows, shown) => {
    const found = listing(FILES, filter, grouping, "none");
    expect([said(found.rows), found.shown, found.all]).toEqual([rows, shown, 3]);
  });
});

describe("the place of rows", () => {
  const { rows } = listing(FILES, "", "file", "none");
  const layout = layOut(rows);

  it("adds up their heights", () => {
    expect([...layout.tops]).toEqual([
      0,
      HEADING,
      HEADING + BITMAP,
      HEADING + 2 * BITMAP,
      2 * HEADING + 2 * BITMAP,
      2 * HEADING + 3 * BITMAP,
    ]);
  });

  it.each([
    [0, 1, 0, [0, 1]],
    [0, HEADING, 0, [0, 2]],
    [HEADING + BITMAP, HEADING + BITMAP + 1, 0, [2, 3]],
    [HEADING + BITMAP, HEADING + BITMAP + 1, 1, [1, 4]],
    [9999, 99999, 0, [4, 5]],
  ])("finds those from %i to %i with %i more", (from, to, more, wanted) => {
    expect(between(layout, from, to, more)).toEqual(wanted);
  });

  it("of an empty list there are none", () => {
    expect(between(layOut([]), 0, 500, 5)).toEqual([0, 0]);
  });
});
