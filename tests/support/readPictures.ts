import { openText } from "../../shared/bitmap/open.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { checkFile, fixesOf } from "../../shared/checks/all.ts";
import { applyEdits, lineAt, lineStarts } from "../../shared/source/text.ts";

export interface ReadPicture {
  name: string;
  width: number;
  height: number;
  format: string;
  /** frames[f] = rows[y] = values[x]: pixel values as the display shows them (with `invert` already turned over). */
  frames: number[][][];
  readOnly?: string;
}

export interface ReadFinding {
  code: string;
  severity: string;
  /** 1-based, in UTF-16 units. */
  line: number;
  column: number;
  /** The source text the finding stands on. */
  text: string;
  message: string;
  fixes: { title: string; kind: string; after: string }[];
}

/** Reads a source text as the product does: its pictures and its findings, with what each fix would make of the text. */
export function readPictures(source: string, file = "art.h"): { pictures: ReadPicture[]; findings: ReadFinding[] } {
  const opened = openText(source, file);
  const pictures = opened.bitmaps.map((bitmap): ReadPicture => {
    const frames: number[][][] = [];
    for (let f = 0; f < bitmap.frames && bitmap.why === undefined; f++) {
      const pixels = Array.from(pixelsOf(bitmap, f) ?? []);
      frames.push(
        Array.from({ length: bitmap.height }, (_, y) => pixels.slice(y * bitmap.width, (y + 1) * bitmap.width)),
      );
    }
    const { array, width, height, format, why } = bitmap;
    return {
      name: array.name,
      width,
      height,
      format: format.name,
      frames,
      ...(why === undefined ? {} : { readOnly: why }),
    };
  });
  const starts = lineStarts(source);
  const findings = checkFile(opened).map((finding): ReadFinding => {
    const line = lineAt(starts, finding.span.start);
    return {
      code: finding.code,
      severity: finding.severity,
      line: line + 1,
      column: finding.span.start - (starts[line] ?? 0) + 1,
      text: source.slice(finding.span.start, finding.span.end),
      message: finding.message,
      fixes: fixesOf(opened, finding).map((fix) => ({
        title: fix.title,
        kind: fix.kind,
        after: applyEdits(source, fix.edits),
      })),
    };
  });
  return { pictures, findings };
}
