/** What of a picture's samples becomes light: one channel, or its colours. */
import { lightness, linearToSrgb, relativeLuminance, srgbToLinear } from "../light/lightness.ts";
import type { RgbaPicture } from "../pixels/rgba.ts";
import type { Channel, Choices } from "./choices.ts";

/** Samples of one or three channels a pixel, 0 to `most`, not rounded. */
export interface Plane {
  readonly most: number;
  readonly channels: 1 | 3;
  readonly data: Float64Array;
}

/** The channel of a picture: one sample a pixel, or three for `colours`. */
export function planeOf(
  picture: RgbaPicture,
  channel: Channel,
  { background = 0 }: Pick<Choices, "background">,
): Plane {
  const { width, height, most, data } = picture;
  const channels = channel === "colours" ? 3 : 1;
  const out = new Float64Array(width * height * channels);
  const ground =
    background === "none" ? [0, 0, 0] : [16, 8, 0].map((shift) => (((background >> shift) & 255) * most) / 255);
  const level = levelOf(channel, most);
  const seen = [0, 0, 0];
  for (let i = 0, to = 0; i < data.length; i += 4, to += channels) {
    const alpha = data[i + 3] as number;
    for (let c = 0; c < 3; c++) {
      const sample = data[i + c] as number;
      const whole = background === "none" || alpha === most;
      // Code values are mixed as they are, as image programs and browsers do.
      seen[c] = whole ? sample : (sample * alpha + (ground[c] as number) * (most - alpha)) / most;
    }
    if (channels === 3) out.set(seen, to);
    else out[to] = channel === "alpha" ? alpha : level(seen[0] as number, seen[1] as number, seen[2] as number);
  }
  return { most, channels, data: out };
}

function levelOf(channel: Channel, most: number): (r: number, g: number, b: number) => number {
  if (channel === "red") return (r) => r;
  if (channel === "green") return (_r, g) => g;
  if (channel === "blue") return (_r, _g, b) => b;
  const light = (r: number, g: number, b: number) =>
    relativeLuminance(srgbToLinear(r / most), srgbToLinear(g / most), srgbToLinear(b / most));
  if (channel === "lightness") return (r, g, b) => (most * lightness(light(r, g, b))) / 100;
  // Luminance (ITU-R BT.709) is of linear light, and is encoded again (IEC 61966-2-1): a grey is its own luminance.
  return (r, g, b) => (r === g && g === b ? r : most * linearToSrgb(light(r, g, b)));
}

/** Lowest and highest share of full (0–1) of a channel. */
export interface Range {
  readonly channel: Channel;
  readonly low: number;
  readonly high: number;
}

const EXAMINED: readonly Channel[] = ["luminance", "alpha", "red", "green", "blue"];

/** How far the channels of pictures vary; colours as they would be taken. */
export function rangesOf(pictures: readonly RgbaPicture[], choices: Pick<Choices, "background">): Range[] {
  return EXAMINED.map((channel) => {
    let [low, high] = [1, 0];
    for (const picture of pictures) {
      const { data, most } = planeOf(picture, channel, choices);
      for (const sample of data) {
        low = Math.min(low, sample / most);
        high = Math.max(high, sample / most);
      }
    }
    return { channel, low, high };
  });
}
