import { expect, test } from "vitest";
import type { FindingPlace, ShownFinding } from "../../../shared/protocol/webview.ts";
import { findingsAt, gravest, placeFindings } from "../../../webview/findings.ts";

const finding = (
  message: string,
  place?: FindingPlace,
  severity: ShownFinding["severity"] = "warning",
): ShownFinding => (place ? { severity, message, place } : { severity, message });

const all = [
  finding("words"),
  finding("short", { on: "end" }, "error"),
  finding("bright", { on: "pixels", frame: 0, pixels: [22, 23] }),
  finding("wrong", { on: "pixels", frame: 0, pixels: [4] }, "error"),
  finding("shape", { on: "rows", frame: 0, rows: [0, 2] }, "information"),
  finding("later", { on: "pixels", frame: 3, pixels: [0] }),
  finding("flash", { on: "frame", frame: 3 }, "error"),
];

test("each finding has one place, rows know the gravest of theirs, and frames all of theirs", () => {
  const placed = placeFindings(all, 0, 9);
  expect([placed.whole, placed.end].map((list) => list.map((f) => f.message))).toEqual([["words"], ["short"]]);
  expect(placed.here.map((one) => [one.finding.message, one.row, one.column])).toEqual([
    ["shape", 0, 0],
    ["wrong", 0, 4],
    ["bright", 2, 4],
  ]);
  expect([...placed.rows].sort()).toEqual([
    [0, "error"],
    [2, "warning"],
  ]);
  expect(placed.frames.get(3)?.map((f) => f.message)).toEqual(["later", "flash"]);
  expect(placed.ofFrames.map((one) => one.finding.message)).toEqual(["flash"]);
  expect(placeFindings(all, 3, 9).here.map((one) => one.finding.message)).toEqual(["later"]);
});

test("a pixel has the findings on it and those on its whole row", () => {
  const { here } = placeFindings(all, 0, 9);
  const at = (row: number, column?: number) => findingsAt(here, 9, row, column).map((f) => f.message);
  expect([at(2), at(2, 5), at(2, 0), at(0, 4), at(1)]).toEqual([
    ["shape", "bright"],
    ["shape", "bright"],
    ["shape"],
    ["shape", "wrong"],
    [],
  ]);
});

test("an error is graver than a warning, and that than information", () => {
  expect([gravest(all), gravest(all.slice(2, 3)), gravest([])]).toEqual(["error", "warning", undefined]);
});
