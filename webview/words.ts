/** What the page says of pixels, frames and light; rows, columns and frames count from 0 as in the source. */
import * as l10n from "@vscode/l10n";
import type { BitmapInfo } from "../shared/protocol/lsp.ts";
import type { FrameNames, ShownFinding } from "../shared/protocol/webview.ts";
import { characterOfFrame } from "./glyphs.ts";

export function percent(share: number): string {
  const value = 100 * share;
  return l10n.t("{0} %", value > 0 && value < 1 ? "<1" : Math.round(value));
}

export function pixelCount(count: number): string {
  return count === 1 ? l10n.t("1 pixel") : l10n.t("{0} pixels", count);
}

export function frameCount(count: number): string {
  return count === 1 ? l10n.t("1 frame") : l10n.t("{0} frames", count);
}

export function byteCount(count: number): string {
  return count === 1 ? l10n.t("1 byte") : l10n.t("{0} bytes", count);
}

export function findingCount(count: number): string {
  return count === 1 ? l10n.t("1 finding") : l10n.t("{0} findings", count);
}

/** The name of a raw value where there are only two, else the number. */
export function levelName(value: number, most: number): string {
  return most > 1 ? String(value) : value > 0 ? l10n.t("lit") : l10n.t("dark");
}

export function seconds(frame: number, fps: number): string {
  const time = frame / fps;
  return l10n.t("{0} s", Number(time.toFixed(time < 1 ? 2 : 1)));
}

/** Where a frame stands: its number and, where the speed is known, its time. */
export function frameWords(
  frame: number,
  bitmap: Pick<BitmapInfo, "frames" | "characters"> & FrameNames & { readonly fps?: number | undefined },
): string {
  const { frames, fps, frameNames } = bitmap;
  const character = frameNames?.[frame] ?? characterOfFrame(bitmap, frame);
  const number = l10n.t("frame {0} of 0–{1}", frame, frames - 1);
  const where = character === "" ? number : `${character}, ${number}`;
  return fps ? `${where}, ${seconds(frame, fps)}` : where;
}

export interface PixelFacts {
  readonly x: number;
  readonly y: number;
  /** Its value, in words. */
  readonly value: string;
  /** Source line from 1; 0 where the row is not written. */
  readonly line: number;
  readonly over: boolean;
  readonly unwritten: boolean;
  readonly frame?: number;
}

export function pixelWords({ x, y, value, line, over, unwritten, frame }: PixelFacts): string {
  const parts = [l10n.t("row {0} column {1}", y, x), value];
  if (line > 0) parts.push(l10n.t("line {0}", line));
  if (over) parts.push(l10n.t("over the cap"));
  if (unwritten) parts.push(l10n.t("not written"));
  if (frame !== undefined) parts.push(l10n.t("frame {0}", frame));
  return parts.join(", ");
}

export function rowWords(row: number, line: number, light: number): string {
  const parts = [l10n.t("row {0}", row), line > 0 ? l10n.t("line {0}", line) : l10n.t("not written")];
  return [...parts, l10n.t("light {0} of full", percent(light))].join(", ");
}

export function columnWords(column: number, light: number): string {
  return `${l10n.t("column {0}", column)}, ${l10n.t("light {0} of full", percent(light))}`;
}

export function severityWord(severity: ShownFinding["severity"]): string {
  const words = { error: l10n.t("error"), warning: l10n.t("warning"), information: l10n.t("information") };
  return words[severity];
}

export function findingWords({ severity, message }: ShownFinding): string {
  return `${severityWord(severity)}: ${message}`;
}
