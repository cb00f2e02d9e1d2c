/** Our diagnostics as the paint editor shows them: where in the picture each one is; pure. */
import type { Diagnostic, Position, Range } from "vscode";
import type { BitmapInfo, PictureFrame } from "../shared/protocol/lsp.ts";
import type { FindingPlace, ShownFinding } from "../shared/protocol/webview.ts";

type Place = Pick<Position, "line" | "character">;
type Span = { readonly [end in keyof Pick<Range, "start" | "end">]: Place };
/** What is needed of the editor's diagnostics. */
export type Found = Pick<Diagnostic, "source" | "code" | "severity" | "message"> & { readonly range: Span };

/** By `DiagnosticSeverity` of VS Code's API: error, warning, information, hint. */
const SEVERITIES = ["error", "warning", "information", "information"] as const;

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

/** Our findings on the bitmap and on the comment above it, of all diagnostics of the file. */
export function findingsOf(
  diagnostics: readonly Found[],
  bitmap: BitmapInfo,
  bitmaps: readonly BitmapInfo[],
  frames: readonly PictureFrame[],
): ShownFinding[] {
  const own = bitmap.declaration;
  let from: Place = { line: 0, character: 0 };
  for (const { declaration } of bitmaps) {
    const { end } = declaration;
    if (!isBefore(own.start, end) && isBefore(from, end)) from = end;
  }
  const found = diagnostics.filter(
    ({ source, range: { start, end } }) => source === "dotwright" && !isBefore(start, from) && !isBefore(own.end, end),
  );
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

function placeOf(diagnostic: Found, held: InFrame | undefined, bitmap: BitmapInfo): FindingPlace | undefined {
  const on = ABOUT[String(diagnostic.code)];
  if (on === "end") return { on };
  if (!on || !held) return undefined;
  const { frame, pixels } = held;
  if (on === "frame") return bitmap.frames > 1 ? { on, frame } : undefined;
  if (on === "pixels") return { on, frame, pixels };
  return { on, frame, rows: [...new Set(pixels.map((pixel) => Math.floor(pixel / bitmap.width)))] };
}

/** The pixels whose elements begin in the range of each diagnostic, those of the first frame that has some. */
function pixelsOf(found: readonly Found[], frames: readonly PictureFrame[]): Map<Found, InFrame> {
  const wanted = found.filter(({ code }) => ABOUT[String(code)] !== undefined && ABOUT[String(code)] !== "end");
  const byLine = new Map<number, Found[]>();
  for (const diagnostic of wanted) {
    const { start, end } = diagnostic.range;
    for (let line = start.line; line <= end.line; line++) {
      byLine.set(line, [...(byLine.get(line) ?? []), diagnostic]);
    }
  }
  const held = new Map<Found, InFrame>();
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

function begins({ start, end }: Span, line: number, character: number): boolean {
  const at = { line, character };
  return !isBefore(at, start) && isBefore(at, end);
}

function isBefore(a: Place, b: Place): boolean {
  return a.line < b.line || (a.line === b.line && a.character < b.character);
}
