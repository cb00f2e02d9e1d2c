/** Findings by where they are in the picture; pure. */
import type { ShownFinding } from "../shared/protocol/webview.ts";

type Severity = ShownFinding["severity"];
type List = readonly ShownFinding[];

/** A finding on a row of the frame at hand. */
export interface OnRow {
  readonly finding: ShownFinding;
  readonly row: number;
  /** The first pixel of it. */
  readonly column: number;
}

export interface PlacedFindings {
  /** About the bitmap as a whole. */
  readonly whole: List;
  /** At the end of the array. */
  readonly end: List;
  /** Those of the frame at hand, from its first row to its last. */
  readonly here: readonly OnRow[];
  /** How grave the findings of each row of that frame are. */
  readonly rows: ReadonlyMap<number, Severity>;
  readonly frames: ReadonlyMap<number, List>;
  /** Those about a frame as a whole, in order of the frames. */
  readonly ofFrames: readonly { readonly frame: number; readonly finding: ShownFinding }[];
}

export function placeFindings(findings: List, frame: number, width: number): PlacedFindings {
  const [whole, end]: [ShownFinding[], ShownFinding[]] = [[], []];
  const here: OnRow[] = [];
  const rows = new Map<number, Severity>();
  const frames = new Map<number, ShownFinding[]>();
  const ofFrames: { frame: number; finding: ShownFinding }[] = [];
  for (const finding of findings) {
    const { place } = finding;
    if (!place) whole.push(finding);
    else if (place.on === "end") end.push(finding);
    else {
      frames.set(place.frame, [...(frames.get(place.frame) ?? []), finding]);
      if (place.on === "frame") ofFrames.push({ frame: place.frame, finding });
      else if (place.frame === frame) {
        const touched = place.on === "rows" ? place.rows : place.pixels.map((pixel) => Math.floor(pixel / width));
        for (const row of touched) rows.set(row, graver(finding.severity, rows.get(row)));
        const column = place.on === "rows" ? 0 : (place.pixels[0] ?? 0) % width;
        here.push({ finding, row: touched[0] ?? 0, column });
      }
    }
  }
  here.sort((a, b) => a.row - b.row || a.column - b.column);
  ofFrames.sort((a, b) => a.frame - b.frame);
  return { whole, end, here, rows, frames, ofFrames };
}

/** Those of the list that touch a row or, with `column`, a pixel; a finding on a row touches all its pixels. */
export function findingsAt(here: readonly OnRow[], width: number, row: number, column?: number): ShownFinding[] {
  return here
    .map((one) => one.finding)
    .filter(({ place }) => {
      if (place?.on === "rows") return place.rows.includes(row);
      if (place?.on !== "pixels") return false;
      return place.pixels.some((p) => Math.floor(p / width) === row && (column === undefined || p % width === column));
    });
}

export function gravest(findings: List): Severity | undefined {
  return findings.reduce<Severity | undefined>((most, { severity }) => graver(severity, most), undefined);
}

function graver(a: Severity, b: Severity | undefined): Severity {
  const order: readonly Severity[] = ["information", "warning", "error"];
  return b !== undefined && order.indexOf(b) > order.indexOf(a) ? b : a;
}
