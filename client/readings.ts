/**
 * What was asked of the server about the bitmaps of each document, kept until the document changes. Lines are asked
 * for in blocks, so that a large bitmap costs what is in view of it, and scrolling back costs nothing.
 */
import type { CancellationToken, TextDocument } from "vscode";
import { Range } from "vscode";
import type { BitmapInfo, LspResult } from "../shared/protocol/lsp.ts";
import type { Ask } from "./ask.ts";
import type { Beside } from "./besides.ts";
import type { Heat } from "./levels.ts";
import { fullValue, heatOf } from "./levels.ts";
import type { LinePicture } from "./rowPictures.ts";
import { rowPictures } from "./rowPictures.ts";
import { thumbnail } from "./thumbnail.ts";

/** Lines of a block. */
export const BLOCK = 64;

/** What the settings want to be seen. */
export interface Wanted {
  readonly heat: boolean;
  readonly icons: boolean;
  readonly rows: boolean;
}

/** One version of a document. */
export interface Reading {
  readonly uri: string;
  readonly version: number;
  readonly bitmaps: readonly BitmapInfo[];
  readonly seen: Map<string, Promise<Block | undefined>>;
}

/** A bitmap on the lines of one block. */
export interface Block extends Beside {
  readonly heat?: Heat<Range> | undefined;
}

export async function read(ask: Ask, document: TextDocument, token: CancellationToken): Promise<Reading> {
  const uri = document.uri.toString();
  const { version, bitmaps } = await ask("dotwright/bitmaps", { uri }, token);
  return { uri, version, bitmaps, seen: new Map() };
}

/** The bitmaps in some blocks of lines, those that can be shown; an error of one does not hide the others. */
export async function look(
  ask: Ask,
  reading: Reading,
  blocks: readonly number[],
  wanted: Wanted,
  failed: (error: unknown) => void,
): Promise<Block[]> {
  const asked: Promise<Block | undefined>[] = [];
  reading.bitmaps.forEach((bitmap, i) => {
    const { start, end } = bitmap.declaration;
    if (bitmap.why !== undefined) return;
    for (const block of blocks) {
      if (start.line >= (block + 1) * BLOCK || end.line < block * BLOCK) continue;
      const key = `${i} ${block}`;
      let known = reading.seen.get(key);
      if (!known) {
        known = askBlock(ask, reading, bitmap, block, wanted);
        known.catch(() => reading.seen.delete(key));
        reading.seen.set(key, known);
      }
      asked.push(known.catch((error: unknown) => void failed(error)));
    }
  });
  return (await Promise.all(asked)).filter((b) => b !== undefined);
}

async function askBlock(ask: Ask, reading: Reading, bitmap: BitmapInfo, block: number, wanted: Wanted) {
  const { identity, nameRange } = bitmap;
  const named = Math.floor(nameRange.end.line / BLOCK) === block;
  const answer = await ask("dotwright/picture", {
    uri: reading.uri,
    identity,
    frames: wanted.icons && named ? [0] : [],
    lines: [block * BLOCK, (block + 1) * BLOCK - 1],
    rows: wanted.rows,
  });
  return answer.version === reading.version ? shownOf(bitmap, answer, wanted) : undefined;
}

function shownOf(bitmap: BitmapInfo, answer: LspResult<"dotwright/picture">, wanted: Wanted): Block {
  const { frames, peak, lines } = answer;
  const full = fullValue(bitmap, peak);
  const [first] = frames;
  const icon: LinePicture | undefined = first && {
    line: bitmap.nameRange.end.line,
    ...thumbnail(bitmap, first, full),
  };
  return {
    bitmap,
    thumbnail: icon,
    heat: wanted.heat && lines ? heatOf(bitmap, full, lines.numbers, rangeOnLine) : undefined,
    zeros: wanted.heat && lines ? lines.zeros : [],
    rows: lines?.rows ? rowPictures(bitmap, full, lines.rows) : [],
  };
}

function rangeOnLine(line: number, from: number, to: number): Range {
  return new Range(line, from, line, to);
}
