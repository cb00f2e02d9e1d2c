/** What the page says of pixels, frames and light; rows, columns and frames count from 0 as in the source. */
import type { BitmapInfo } from "../shared/protocol/lsp.ts";

export function percent(share: number): string {
  const value = 100 * share;
  return `${value > 0 && value < 1 ? "<1" : Math.round(value)} %`;
}

export function counted(count: number, one: string): string {
  return `${count} ${one}${count === 1 ? "" : "s"}`;
}

/** A raw value: its number, or lit and dark where there are only two. */
function levelWords(value: number, most: number): string {
  return most === 1 ? (value > 0 ? "lit" : "dark") : `level ${value} of ${most}`;
}

export function seconds(frame: number, fps: number): string {
  const time = frame / fps;
  return time === 0 ? "0 s" : `${time < 1 ? Number(time.toFixed(2)) : Number(time.toFixed(1))} s`;
}

/** Where a frame stands: its number and, where the speed is known, its time. */
export function frameWords(frame: number, { frames, fps }: Pick<BitmapInfo, "frames" | "fps">): string {
  return `frame ${frame} of 0–${frames - 1}${fps ? `, ${seconds(frame, fps)}` : ""}`;
}

export interface PixelFacts {
  readonly x: number;
  readonly y: number;
  readonly value: number;
  readonly most: number;
  /** Source line from 1; 0 where the row is not written. */
  readonly line: number;
  readonly over: boolean;
  readonly unwritten: boolean;
  readonly frame?: number;
}

export function pixelWords({ x, y, value, most, line, over, unwritten, frame }: PixelFacts): string {
  const parts = [`row ${y} column ${x}`, levelWords(value, most)];
  if (line > 0) parts.push(`line ${line}`);
  if (over) parts.push("over the cap");
  if (unwritten) parts.push("not written");
  if (frame !== undefined) parts.push(`frame ${frame}`);
  return parts.join(", ");
}
