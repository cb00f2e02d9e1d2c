/** A small palette for many colours: median cut (Heckbert, Proc. SIGGRAPH 1982), the same for the same picture always. */

interface Counted {
  readonly rgb: number;
  readonly count: number;
}

/**
 * At most `most` colours (0xRRGGBB) for the pixels of a picture, dark ones first. A picture with no more colours than
 * that keeps them all; else the box of colours with the largest share of pixels times extent is cut at its median, and
 * each box gives the mean of its pixels.
 */
export function paletteFor(pixels: Iterable<number>, most: number): number[] {
  const counts = new Map<number, number>();
  for (const rgb of pixels) counts.set(rgb, (counts.get(rgb) ?? 0) + 1);
  const colours = [...counts].map(([rgb, count]): Counted => ({ rgb, count })).sort((a, b) => a.rgb - b.rgb);
  const boxes = colours.length > most ? cut(colours, most) : colours.map((colour) => [colour]);
  const found = new Set(boxes.map(meanOf));
  return [...found].sort((a, b) => weight(a) - weight(b) || a - b);
}

function cut(colours: Counted[], most: number): Counted[][] {
  const boxes = [colours];
  while (boxes.length < most) {
    let [chosen, largest] = [-1, 0];
    for (const [i, box] of boxes.entries()) {
      const size = pixelsIn(box) * (box.length > 1 ? widest(box).extent : 0);
      if (size > largest) [chosen, largest] = [i, size];
    }
    const box = boxes[chosen];
    if (!box) break;
    const { shift } = widest(box);
    const sorted = [...box].sort((a, b) => channel(a.rgb, shift) - channel(b.rgb, shift) || a.rgb - b.rgb);
    const half = pixelsIn(sorted) / 2;
    let [at, before] = [0, 0];
    while (at < sorted.length - 1 && (at === 0 || before + (sorted[at] as Counted).count / 2 <= half))
      before += (sorted[at++] as Counted).count;
    boxes.splice(chosen, 1, sorted.slice(0, at), sorted.slice(at));
  }
  return boxes;
}

/** The channel in which the colours of a box are furthest apart; the first of several. */
function widest(box: readonly Counted[]): { readonly shift: number; readonly extent: number } {
  let best = { shift: 16, extent: -1 };
  for (const shift of [16, 8, 0]) {
    let [low, high] = [255, 0];
    for (const { rgb } of box) {
      low = Math.min(low, channel(rgb, shift));
      high = Math.max(high, channel(rgb, shift));
    }
    if (high - low > best.extent) best = { shift, extent: high - low };
  }
  return best;
}

function pixelsIn(box: readonly Counted[]): number {
  return box.reduce((sum, { count }) => sum + count, 0);
}

function meanOf(box: readonly Counted[]): number {
  const all = pixelsIn(box);
  let rgb = 0;
  for (const shift of [16, 8, 0])
    rgb = rgb * 256 + Math.round(box.reduce((sum, c) => sum + c.count * channel(c.rgb, shift), 0) / all);
  return rgb;
}

const channel = (rgb: number, shift: number) => (rgb >> shift) & 255;

/** Orders colours from dark to light, by the weights of luminance (ITU-R BT.709). */
const weight = (rgb: number) => 2126 * (rgb >> 16) + 7152 * ((rgb >> 8) & 255) + 722 * (rgb & 255);
