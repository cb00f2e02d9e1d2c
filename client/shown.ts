/** What the paint editor's page shows: one bitmap of a document with all its frames. */
import type { Position, TextDocument } from "vscode";
import { l10n, languages, Range } from "vscode";
import type { BitmapInfo, PictureFrame } from "../shared/protocol/lsp.ts";
import type { Place, Shown } from "../shared/protocol/webview.ts";
import type { Ask } from "./ask.ts";
import { isColour } from "./colours.ts";
import { findingsOf } from "./findings.ts";
import { isReadOnly } from "./readOnly.ts";

export type Identity = BitmapInfo["identity"];

/** Sent to the page, and kept to find numbers and pixels by. */
export interface Showing {
  readonly shown: Shown;
  readonly bitmaps: readonly BitmapInfo[];
  readonly frames: readonly PictureFrame[];
}

/** The page paints levels of light; colours are seen in the text, in hovers and in thumbnails. */
export function whyNotShown(bitmap: BitmapInfo): string | undefined {
  if (bitmap.why !== undefined || !isColour(bitmap)) return bitmap.why;
  return l10n.t("The paint editor does not paint {0} yet. Its colours are shown in the text.", bitmap.format);
}

/** The bitmap to show in words where there is none; undefined where the document changed meanwhile. */
export async function readShown(
  ask: Ask,
  document: TextDocument,
  choose: (bitmaps: readonly BitmapInfo[]) => BitmapInfo | undefined,
): Promise<Showing | { readonly why: string } | undefined> {
  const uri = document.uri.toString();
  const { version, bitmaps } = await ask("dotwright/bitmaps", { uri });
  const bitmap = choose(bitmaps);
  if (!bitmap)
    return { why: l10n.t("This file holds no bitmap. Write “@bitmap” and its size in a comment before an array.") };
  const why = whyNotShown(bitmap);
  if (why !== undefined) return { why: `${bitmap.name}: ${why}` };
  const frames = Array.from({ length: bitmap.frames }, (_, i) => i);
  const picture = await ask("dotwright/picture", { uri, identity: bitmap.identity, frames, elements: true });
  if (picture.version !== version || document.version !== version) return undefined;
  const shown: Shown = {
    version,
    bitmap: picture.bitmap,
    frames: picture.frames.map((f) => f.pixels),
    rowLines: picture.frames.map((f) => rowLines(f, bitmap.width)),
    unwritten: picture.frames.map(unwritten),
    others: bitmaps.filter((b) => whyNotShown(b) === undefined).map(({ name, identity }) => ({ name, identity })),
    readOnly: await isReadOnly(document),
    findings: findingsOf(languages.getDiagnostics(document.uri), bitmap, bitmaps, picture.frames),
  };
  return { shown, bitmaps, frames: picture.frames };
}

/** The pixel whose number stands at a position: the first one of a number that holds several. */
export function placeAt({ frames, shown }: Showing, position: Position): Place | undefined {
  for (const { frame, elements = [] } of frames) {
    for (let i = 0; i * 4 < elements.length; i++) {
      // Asked at every move of the text cursor, of tens of thousands of elements: most are on other lines.
      if ((elements[i * 4] as number) > position.line || (elements[i * 4 + 2] as number) < position.line) continue;
      if (!elementRange(elements, i)?.contains(position)) continue;
      return { frame, x: i % shown.bitmap.width, y: Math.floor(i / shown.bitmap.width) };
    }
  }
  return undefined;
}

/** Where a pixel's number is written. */
export function rangeOfPlace({ frames, shown }: Showing, { frame, x, y }: Place): Range | undefined {
  const found = frames.find((f) => f.frame === frame);
  return found?.elements && elementRange(found.elements, y * shown.bitmap.width + x);
}

function elementRange(elements: readonly number[], pixel: number): Range | undefined {
  const [line = -1, column = 0, endLine = 0, endColumn = 0] = elements.slice(pixel * 4, pixel * 4 + 4);
  return line < 0 ? undefined : new Range(line, column, endLine, endColumn);
}

function rowLines({ pixels, elements = [] }: PictureFrame, width: number): number[] {
  const lines: number[] = [];
  for (let i = 0; i < pixels.length; i += width) lines.push((elements[i * 4] ?? -1) + 1);
  return lines;
}

function unwritten({ pixels, elements = [] }: PictureFrame): number[] {
  const found: number[] = [];
  for (let i = 0; i < pixels.length; i++) if ((elements[i * 4] ?? -1) < 0) found.push(i);
  return found;
}
