/** Selected pixels as selected numbers of the text, and the way back; pure. */
import type { PictureFrame } from "../shared/protocol/lsp.ts";
import type { Place } from "../shared/protocol/webview.ts";

interface Position {
  readonly line: number;
  readonly character: number;
}

/** As the editor has them, or plain ones. */
interface Span {
  readonly start: Position;
  readonly end: Position;
}

interface Shown {
  readonly frames: readonly PictureFrame[];
  readonly shown: { readonly bitmap: { readonly width: number } };
}

type Elements = NonNullable<PictureFrame["elements"]>;

/** More selections than this are slow to work with in the editor, and none that anybody looks at. */
const MOST = 500;

/**
 * The numbers of some pixels of a frame: a span for each run of neighbours on a line, in order of the text. None where
 * they are too many to be of use.
 */
export function spansOfPixels({ frames }: Pick<Shown, "frames">, frame: number, pixels: readonly number[]): Span[] {
  const elements = frames.find((f) => f.frame === frame)?.elements;
  if (!elements) return [];
  const wanted = new Set(pixels.map((pixel) => keyOf(elements, pixel)));
  const spans: Span[] = [];
  let open = false;
  for (const pixel of inOrderOfText(elements)) {
    const span = spanOf(elements, pixel);
    const last = spans.at(-1);
    if (!wanted.has(keyOf(elements, pixel))) open = false;
    else if (open && last?.end.line === span.start.line) spans[spans.length - 1] = { start: last.start, end: span.end };
    else {
      spans.push(span);
      open = true;
    }
  }
  return spans.length > MOST ? [] : spans;
}

/**
 * The pixels whose numbers are selected in the text, if these are several; of the frame `at` if it has any, else of the
 * first that has.
 */
export function pixelsIn(
  { frames, shown }: Shown,
  selections: readonly Span[],
  at = 0,
): { readonly place: Place; readonly pixels: readonly number[] } | undefined {
  const taken = selections.filter(({ start, end }) => before(start, end));
  if (taken.length === 0) return undefined;
  const from = Math.min(...taken.map((s) => s.start.line));
  const to = Math.max(...taken.map((s) => s.end.line));
  const here = frames.filter((f) => f.frame === at);
  for (const { frame, elements = [] } of [...here, ...frames]) {
    const pixels: number[] = [];
    const numbers = new Set<string>();
    for (let pixel = 0; pixel * 4 < elements.length; pixel++) {
      // Asked whenever the selection changes, of tens of thousands of elements: most are on other lines.
      if ((elements[pixel * 4] as number) > to || (elements[pixel * 4 + 2] as number) < from) continue;
      const { start, end } = spanOf(elements, pixel);
      if (!taken.some((s) => before(s.start, end) && before(start, s.end))) continue;
      pixels.push(pixel);
      numbers.add(keyOf(elements, pixel));
    }
    const [first] = pixels;
    if (first === undefined || numbers.size < 2) continue;
    const { width } = shown.bitmap;
    return { place: { frame, x: first % width, y: Math.floor(first / width) }, pixels };
  }
  return undefined;
}

function before(a: Position, b: Position): boolean {
  return a.line < b.line || (a.line === b.line && a.character < b.character);
}

function spanOf(elements: Elements, pixel: number): Span {
  const [line = -1, character = 0, endLine = -1, endCharacter = 0] = elements.slice(pixel * 4, pixel * 4 + 4);
  return { start: { line, character }, end: { line: endLine, character: endCharacter } };
}

/** Where the element of a pixel begins; the same for all pixels of a packed element. */
function keyOf(elements: Elements, pixel: number): string {
  return `${elements[pixel * 4]} ${elements[pixel * 4 + 1]}`;
}

/** One pixel of each element that is written, in order of the text. */
function inOrderOfText(elements: Elements): number[] {
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
