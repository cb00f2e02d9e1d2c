/** Selected pixels as selected numbers of the text, and the way back. */
import type { Position } from "vscode";
import { Range } from "vscode";
import type { PictureFrame } from "../shared/protocol/lsp.ts";
import type { Place } from "../shared/protocol/webview.ts";
import { elementRange, type Showing } from "./shown.ts";

/** More selections than this are slow to work with in the editor, and none that anybody looks at. */
const MOST = 500;

/**
 * The numbers of some pixels of a frame: a range for each run of neighbours on a line, in order of the text. None where
 * they are too many to be of use.
 */
export function rangesOfPixels({ frames }: Showing, frame: number, pixels: readonly number[]): Range[] {
  const elements = frames.find((f) => f.frame === frame)?.elements;
  if (!elements) return [];
  const wanted = new Set(pixels.map((pixel) => keyOf(elements, pixel)));
  const ranges: Range[] = [];
  let run: { start: Position; end: Position } | undefined;
  const close = () => {
    if (run) ranges.push(new Range(run.start, run.end));
    run = undefined;
  };
  for (const pixel of inOrderOfText(elements)) {
    const range = elementRange(elements, pixel);
    if (!range || !wanted.has(keyOf(elements, pixel))) close();
    else if (run && run.end.line === range.start.line) run = { start: run.start, end: range.end };
    else {
      close();
      run = { start: range.start, end: range.end };
    }
  }
  close();
  return ranges.length > MOST ? [] : ranges;
}

/** The pixels whose numbers are selected in the text, if these are several; of the first frame that has any. */
export function pixelsIn(
  showing: Showing,
  selections: readonly Range[],
): { readonly place: Place; readonly pixels: readonly number[] } | undefined {
  const taken = selections.filter((s) => !s.isEmpty);
  if (taken.length === 0) return undefined;
  const from = Math.min(...taken.map((s) => s.start.line));
  const to = Math.max(...taken.map((s) => s.end.line));
  for (const { frame, elements = [] } of showing.frames) {
    const pixels: number[] = [];
    const numbers = new Set<string>();
    for (let pixel = 0; pixel * 4 < elements.length; pixel++) {
      // Asked whenever the selection changes, of tens of thousands of elements: most are on other lines.
      if ((elements[pixel * 4] as number) > to || (elements[pixel * 4 + 2] as number) < from) continue;
      const range = elementRange(elements, pixel);
      if (!range || !taken.some((s) => !(s.intersection(range)?.isEmpty ?? true))) continue;
      pixels.push(pixel);
      numbers.add(keyOf(elements, pixel));
    }
    const [first] = pixels;
    if (first === undefined || numbers.size < 2) continue;
    const { width } = showing.shown.bitmap;
    return { place: { frame, x: first % width, y: Math.floor(first / width) }, pixels };
  }
  return undefined;
}

/** Where the element of a pixel begins; the same for all pixels of a packed element. */
function keyOf(elements: NonNullable<PictureFrame["elements"]>, pixel: number): string {
  return `${elements[pixel * 4]} ${elements[pixel * 4 + 1]}`;
}

/** One pixel of each element that is written, in order of the text. */
function inOrderOfText(elements: NonNullable<PictureFrame["elements"]>): number[] {
  const seen = new Set<string>();
  const pixels: number[] = [];
  for (let pixel = 0; pixel * 4 < elements.length; pixel++) {
    const key = keyOf(elements, pixel);
    if ((elements[pixel * 4] as number) < 0 || seen.has(key)) continue;
    seen.add(key);
    pixels.push(pixel);
  }
  const by = (a: number, b: number, at: number) => (elements[a * 4 + at] as number) - (elements[b * 4 + at] as number);
  return pixels.sort((a, b) => by(a, b, 0) || by(a, b, 1));
}
