/** Our diagnostics as the paint editor shows them: where in the picture each one is. */
import type { Diagnostic, Range, TextDocument } from "vscode";
import { DiagnosticSeverity, languages, Range as Ranges } from "vscode";
import type { BitmapInfo, PictureFrame } from "../shared/protocol/lsp.ts";
import type { FindingPlace, ShownFinding } from "../shared/protocol/webview.ts";
import { rangeOf } from "./ranges.ts";

const SEVERITIES = {
  [DiagnosticSeverity.Error]: "error",
  [DiagnosticSeverity.Warning]: "warning",
  [DiagnosticSeverity.Information]: "information",
  [DiagnosticSeverity.Hint]: "information",
} as const;

/** What the findings of a code are about; those of other codes are about the bitmap as a whole. */
const ABOUT: Readonly<Record<string, FindingPlace["on"]>> = {
  "over-cap": "pixels",
  "out-of-range": "pixels",
  "padding-bits": "pixels",
  "row-shape": "rows",
  length: "end",
  flashing: "frame",
  current: "frame",
  bus: "frame",
};

/** Our findings on the bitmap and on the comment above it. */
export function findingsOf(
  document: TextDocument,
  bitmap: BitmapInfo,
  bitmaps: readonly BitmapInfo[],
  frames: readonly PictureFrame[],
): ShownFinding[] {
  const own = rangeOf(bitmap.declaration);
  let from = document.positionAt(0);
  for (const { declaration } of bitmaps) {
    const { end } = rangeOf(declaration);
    if (end.isBeforeOrEqual(own.start) && end.isAfter(from)) from = end;
  }
  const about = new Ranges(from, own.end);
  const found = languages
    .getDiagnostics(document.uri)
    .filter((d) => d.source === "dotwright" && about.contains(d.range));
  const pixels = pixelsOf(found, frames);
  return found.map((diagnostic) => {
    const { severity, message } = diagnostic;
    const place = placeOf(diagnostic, pixels.get(diagnostic), bitmap);
    return { severity: SEVERITIES[severity], message, ...(place ? { place } : {}) };
  });
}

interface InFrame {
  readonly frame: number;
  readonly pixels: number[];
}

function placeOf(diagnostic: Diagnostic, held: InFrame | undefined, bitmap: BitmapInfo): FindingPlace | undefined {
  const on = ABOUT[String(diagnostic.code)];
  if (on === "end") return { on };
  if (!on || !held) return undefined;
  const { frame, pixels } = held;
  if (on === "frame") return bitmap.frames > 1 ? { on, frame } : undefined;
  if (on === "pixels") return { on, frame, pixels };
  return { on, frame, rows: [...new Set(pixels.map((pixel) => Math.floor(pixel / bitmap.width)))] };
}

/** The pixels whose elements begin in the range of each diagnostic, those of the first frame that has some. */
function pixelsOf(found: readonly Diagnostic[], frames: readonly PictureFrame[]): Map<Diagnostic, InFrame> {
  const wanted = found.filter(({ code }) => ABOUT[String(code)] !== undefined && ABOUT[String(code)] !== "end");
  const byLine = new Map<number, Diagnostic[]>();
  for (const diagnostic of wanted) {
    const { start, end } = diagnostic.range;
    for (let line = start.line; line <= end.line; line++) {
      byLine.set(line, [...(byLine.get(line) ?? []), diagnostic]);
    }
  }
  const held = new Map<Diagnostic, InFrame>();
  if (byLine.size === 0) return held;
  for (const { frame, elements = [] } of frames) {
    for (let pixel = 0; pixel * 4 < elements.length; pixel++) {
      const line = elements[pixel * 4] as number;
      for (const diagnostic of byLine.get(line) ?? []) {
        if (!begins(diagnostic.range, line, elements[pixel * 4 + 1] as number)) continue;
        const known = held.get(diagnostic) ?? { frame, pixels: [] };
        if (known.frame === frame) known.pixels.push(pixel);
        held.set(diagnostic, known);
      }
    }
  }
  return held;
}

function begins({ start, end }: Range, line: number, column: number): boolean {
  const after = line > start.line || (line === start.line && column >= start.character);
  return after && (line < end.line || (line === end.line && column < end.character));
}
