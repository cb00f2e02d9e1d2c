/** The marker of a finding on a ruler or a strip: its shape tells how grave it is, its colour says the same again. */
import type { ShownFinding } from "../../shared/protocol/webview.ts";
import type { Theme } from "./theme.ts";

/** Its size in CSS pixels. */
export const MARKER = 7;

export function drawMarker(
  context: CanvasRenderingContext2D,
  theme: Theme,
  severity: ShownFinding["severity"] | undefined,
  x: number,
  y: number,
): void {
  if (!severity) return;
  const half = MARKER / 2;
  context.fillStyle = theme[severity];
  context.beginPath();
  if (severity === "error") context.rect(x - half, y - half, MARKER, MARKER);
  else if (severity === "information") context.arc(x, y, half - 0.5, 0, 2 * Math.PI);
  else {
    context.moveTo(x, y - half);
    context.lineTo(x + half, y + half);
    context.lineTo(x - half, y + half);
    context.closePath();
  }
  context.fill();
}
