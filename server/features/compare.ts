/** `dotwright/compare`: what differs between a document and another version of its text, with the pictures of one bitmap. */
import { TextDocument } from "vscode-languageserver-textdocument";
import type { BitmapDifference } from "../../shared/bitmap/compare.ts";
import { changedPixels, compareFiles, differenceInWords, pixelsInWords } from "../../shared/bitmap/compare.ts";
import { withPanelsAround } from "../../shared/bitmap/panels.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import type { ComparedInfo, ComparedPicture, ComparedSide, LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import type { SourceFile } from "../../shared/source/read.ts";
import type { Parsed } from "../documents.ts";
import { infoOf } from "./bitmaps.ts";
import { worldOf } from "./world.ts";

/** Most pixels of each version that are told; frames beyond are left out, the changed ones last. */
const MOST_PIXELS = 1 << 20;

export function compared(parsed: Parsed, params: LspParams<"dotwright/compare">): LspReply<"dotwright/compare"> {
  const before = olderOf(parsed, params.before);
  const found = compareFiles(before.file, parsed.file);
  const differences = found.map(infoOfDifference);
  const { wanted } = params;
  const at = differences.findIndex((d) => d.name === wanted?.name && d.ordinal === wanted.ordinal);
  const difference = found[Math.max(at, 0)];
  return {
    ok: {
      version: parsed.version,
      differences,
      ...(difference ? { shown: pictureOf(before, parsed, difference) } : {}),
    },
  };
}

type Side = Pick<Parsed, "document" | "file">;

let last: { readonly uri: string; readonly text: string; readonly of: SourceFile; readonly side: Side } | undefined;

/** The older text, read as the document is; it stays the same while the document is typed in. */
function olderOf(parsed: Parsed, text: string): Side {
  const { uri, document, file } = parsed;
  const { source, known } = file;
  const same = last?.uri === uri && last.text === text && isReadAlike(last.of, source);
  if (last && same && withPanelsAround(last.side.file, known)) return last.side;
  const older: BitmapFile = worldOf(parsed).reopen(text);
  const side = { document: TextDocument.create(uri, document.languageId, 0, text), file: older };
  last = { uri, text, of: source, side };
  return side;
}

/** Whether two versions of a document were read with the same files. */
function isReadAlike(a: SourceFile, b: SourceFile): boolean {
  if (a.target !== b.target || a.included.size !== b.included.size) return false;
  return [...a.included].every(([id, { text }]) => b.included.get(id)?.text === text);
}

function infoOfDifference(difference: BitmapDifference): ComparedInfo {
  const { array } = bitmapOf(difference);
  return { name: array.name, ordinal: array.ordinal, kind: difference.kind, words: differenceInWords(difference) };
}

function bitmapOf({ before, after }: BitmapDifference): Bitmap {
  return (after ?? before) as Bitmap;
}

function pictureOf(older: Side, newer: Side, difference: BitmapDifference): ComparedPicture {
  const { before, after, frames } = difference;
  const { array, width, height } = bitmapOf(difference);
  const most = Math.max(1, Math.floor(MOST_PIXELS / (width * height)));
  const changed = frames.slice(0, most).map((f) => ({
    frame: f.frame,
    changed: before && after ? changedPixels(before, after, f.frame) : [],
    words: pixelsInWords(f),
  }));
  const told = framesToTell(
    difference,
    changed.map((f) => f.frame),
    most,
  );
  return {
    name: array.name,
    ordinal: array.ordinal,
    words: differenceInWords(difference),
    ...(before ? { before: sideOf(older, before, told) } : {}),
    ...(after ? { after: sideOf(newer, after, told) } : {}),
    changed,
  };
}

/** The frames that changed and those that only one version has; where there are none of either, all of them. */
function framesToTell(
  { before, after }: BitmapDifference,
  changed: readonly number[],
  most: number,
): readonly number[] {
  const counts = [before?.frames ?? 0, after?.frames ?? 0];
  const [shared, all] = [Math.min(...counts), Math.max(...counts)];
  const numbers = Array.from({ length: all }, (_, i) => i);
  const told = [...changed, ...numbers.slice(shared)];
  return (told.length > 0 ? told : numbers).slice(0, most);
}

function sideOf(side: Side, bitmap: Bitmap, frames: readonly number[]): ComparedSide {
  const told = frames.flatMap((frame) => {
    const pixels = frame < bitmap.frames ? pixelsOf(bitmap, frame) : undefined;
    return pixels ? [{ frame, pixels: Array.from(pixels) }] : [];
  });
  return { bitmap: infoOf(side, bitmap), frames: told };
}
