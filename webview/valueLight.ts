/** Light of raw values as the page shows them, for the count of flashes; pure. */
import type { BitmapInfo } from "../shared/protocol/lsp.ts";
import { decode } from "./levels.ts";
import { scaleOf } from "./scale.ts";

interface Light {
  /** Relative luminance (WCAG 2.2, with the weights of ITU-R BT.709), 1 for the most that the panel gives. */
  readonly luminance: number;
  /** Channels as linear shares of full light. */
  readonly rgb: readonly [number, number, number];
}

/** Full light is the cap, as in every picture of it; of a tinted panel it is its own colour at full. */
export function lightOfValue(bitmap: BitmapInfo): (value: number) => Light {
  const { colour, full, seen } = scaleOf(bitmap);
  const white = colour ? 1 : luminanceOf(channelsOf(seen(full)));
  const known = new Map<number, Light>();
  return (value) => {
    const before = known.get(value);
    if (before) return before;
    const rgb = channelsOf(seen(value));
    const light = { luminance: white > 0 ? luminanceOf(rgb) / white : 0, rgb };
    known.set(value, light);
    return light;
  };
}

function luminanceOf([r, g, b]: Light["rgb"]): number {
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function channelsOf(code: number): Light["rgb"] {
  return [decode(code >> 16), decode((code >> 8) & 255), decode(code & 255)];
}
