/** What the paint editor's page shows: one bitmap of a document with all its frames. */
import type { Position, TextDocument } from "vscode";
import { l10n, languages, Range } from "vscode";
import type { BitmapInfo, LspResult, PictureFrame } from "../shared/protocol/lsp.ts";
import type { Place, Shown, ShownFinding } from "../shared/protocol/webview.ts";
import type { Ask } from "./ask.ts";
import { findingsOf } from "./findings.ts";
import { type LiveFrames, readLive } from "./live.ts";
import { alike, framesOf, joined, type Member, membersOf } from "./together.ts";

export type Identity = BitmapInfo["identity"];

/** Sent to the page, and kept to find numbers and pixels by. */
export interface Showing {
  readonly shown: Shown;
  readonly frames: readonly PictureFrame[];
  /** The arrays that are shown: one, or those of a set. */
  readonly members: readonly Member[];
}

/** What is to be shown of a document. */
export interface Choice {
  readonly choose: (bitmaps: readonly BitmapInfo[]) => BitmapInfo | undefined;
  /** Further arrays to show with it, as one set. */
  readonly together: readonly Identity[];
  /** The document can't be written. */
  readonly readOnly: boolean;
  /** Takes what there is so far of what takes long. */
  readonly part: (showing: Showing) => void;
}

/** Bitmaps and functions that are played, in the order of the text. */
export function allOf({ bitmaps, live = [] }: LspResult<"dotwright/bitmaps">): readonly BitmapInfo[] {
  if (live.length === 0) return bitmaps;
  const line = ({ declaration: { start } }: BitmapInfo) => start.line;
  return [...bitmaps, ...live].sort((a, b) => line(a) - line(b));
}

/** The bitmap to show in words where there is none; undefined where the document changed meanwhile. */
export async function readShown(
  ask: Ask,
  document: TextDocument,
  { choose, together, readOnly, part }: Choice,
): Promise<Showing | { readonly why: string } | undefined> {
  const uri = document.uri.toString();
  const listed = await ask("dotwright/bitmaps", { uri });
  const { version } = listed;
  const bitmaps = allOf(listed);
  const bitmap = choose(bitmaps);
  if (!bitmap)
    return { why: l10n.t("This file holds no bitmap. Write “@bitmap” and its size in a comment before an array.") };
  if (bitmap.why !== undefined) return { why: `${bitmap.name}: ${bitmap.why}` };
  const live = new Set(listed.live);
  if (live.has(bitmap)) {
    const show = ({ frames, stopped }: LiveFrames) =>
      liveShowing(document, version, bitmap, { bitmaps, frames, stopped });
    const read = await readLive(ask, document, version, bitmap, (frames) => part(show({ frames })));
    if (!read) return undefined;
    return read.frames.length > 0 ? show(read) : { why: `${bitmap.name}: ${read.stopped ?? ""}` };
  }
  const members = membersOf(bitmap, listed.bitmaps, together);
  const pictures = await Promise.all(
    members.map(({ bitmap: { identity, frames } }) =>
      ask("dotwright/picture", {
        uri,
        identity,
        frames: Array.from({ length: frames }, (_, i) => i),
        elements: true,
        motion: members.length === 1,
        wiring: true,
      }),
    ),
  );
  if (pictures.some((p) => p.version !== version) || document.version !== version) return undefined;
  const all = framesOf(
    members,
    pictures.map((p) => p.frames),
  );
  const wiring = pictures[0]?.wiring;
  const shown: Shown = {
    version,
    bitmap: members.length > 1 ? joined(members) : bitmap,
    frames: all.map((f) => f.pixels),
    rowLines: all.map((f) => rowLines(f, bitmap.width)),
    unwritten: all.map(unwritten),
    others: bitmaps
      .filter((b) => b.why === undefined)
      .map((b) => ({
        name: b.name,
        identity: b.identity,
        alike: !live.has(b) && alike(b, bitmap),
        shown: members.some((m) => m.bitmap === b),
      })),
    readOnly,
    ...(wiring ? { wiring } : {}),
    findings: members.flatMap((m, i) =>
      moved(
        findingsOf(languages.getDiagnostics(document.uri), m.bitmap, bitmaps, pictures[i]?.frames ?? []),
        m,
        members,
      ),
    ),
    ...(pictures[0]?.motion ? { motion: pictures[0].motion } : {}),
  };
  return { shown, frames: all, members };
}

/** Frames that a function draws: they are looked at, not painted. */
function liveShowing(
  { uri }: TextDocument,
  version: number,
  info: BitmapInfo,
  { bitmaps, frames, stopped }: LiveFrames & { readonly bitmaps: readonly BitmapInfo[] },
): Showing {
  const bitmap = { ...info, frames: frames.length };
  const found = findingsOf(languages.getDiagnostics(uri), info, bitmaps, []);
  const told = stopped === undefined || found.some((f) => f.message.startsWith(stopped));
  const shown: Shown = {
    version,
    bitmap,
    frames: frames.map((f) => f.pixels),
    rowLines: frames.map(() => []),
    unwritten: frames.map(() => []),
    others: bitmaps
      .filter((b) => b.why === undefined)
      .map((b) => ({ name: b.name, identity: b.identity, alike: false, shown: b === info })),
    readOnly: true,
    live: true,
    findings: told ? found : [...found, { severity: "error", message: stopped }],
  };
  return { shown, frames, members: [{ bitmap, first: 0 }] };
}

/** Findings of one array of a set, at its frames in the set. */
function moved(
  findings: readonly ShownFinding[],
  { bitmap, first }: Member,
  { length }: readonly Member[],
): ShownFinding[] {
  if (length === 1) return [...findings];
  return findings.map(({ place, ...finding }) => {
    const message = `${bitmap.name}: ${finding.message}`;
    // Where an array of the set ends is not where the picture ends.
    if (!place || place.on === "end") return { ...finding, message };
    return { ...finding, message, place: { ...place, frame: place.frame + first } };
  });
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
