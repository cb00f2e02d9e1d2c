/** Light of raw values as the page shows them, for the count of flashes; pure. */
import { relativeLuminance } from "../shared/light/lightness.ts";
import { remembered } from "../shared/light/remembered.ts";
import type { BitmapInfo } from "../shared/protocol/lsp.ts";
import { decode } from "./levels.ts";
import type { Shows } from "./look.ts";
import { scaleOf } from "./scale.ts";

interface Light {
  /** Relative luminance (WCAG 2.2, with the weights of ITU-R BT.709), 1 for the most that the panel gives. */
  readonly luminance: number;
  /** Channels as linear shares of full light. */
  readonly rgb: readonly [number, number, number];
}

/** Full light is the cap, as in every picture of it; of a tinted panel it is its own colour at full. */
export function lightOfValue(bitmap: BitmapInfo, shows: Shows): (value: number) => Light {
  const { colour, full, seen } = scaleOf(bitmap, shows);
  const white = colour ? 1 : relativeLuminance(...channelsOf(seen(full)));
  return remembered((value) => {
    const rgb = channelsOf(seen(value));
    return { luminance: white > 0 ? relativeLuminance(...rgb) / white : 0, rgb };
  });
}

function channelsOf(code: number): Light["rgb"] {
  return [decode(code >> 16), decode((code >> 8) & 255), decode(code & 255)];
}
