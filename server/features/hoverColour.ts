/** What a hover on a palette, or on one number of it, says: which colours they are. */

import type { Palette } from "../../shared/bitmap/palettes.ts";
import { counted } from "../../shared/checks/rules.ts";
import { hexOf, valueInWords } from "../../shared/pixels/colour.ts";
import { slotOf } from "../../shared/source/arrays.ts";
import { dataUri } from "../dataUri.ts";
import { encodePng, enlarge } from "../png.ts";

/** Colours that are listed in words. */
const MOST_LISTED = 16;
/** Screen pixels of a colour in the picture. */
const SWATCH = 16;

/** Markdown about a whole palette: a picture of its colours side by side, and a list of the first ones. */
export function describePalette({ name, format, colours }: Palette, picture: boolean): string {
  const head = `**\`${name}\`** · ${counted(colours.length, "colour")}, ${format.name}`;
  const listed = Array.from(colours.subarray(0, MOST_LISTED), (rgb, i) => `${i} ${hexOf(rgb)}`).join(", ");
  const rest = colours.length > MOST_LISTED ? `, and ${colours.length - MOST_LISTED} more` : "";
  const data = Uint8Array.from({ length: colours.length * 3 }, (_, i) => {
    const rgb = colours[Math.floor(i / 3)] as number;
    return (rgb >> (16 - 8 * (i % 3))) & 255;
  });
  const png = encodePng(enlarge({ width: colours.length, height: 1, channels: 3, data }, SWATCH));
  const shown = `![${name}](${dataUri(png)})`;
  return [head, ...(picture ? [shown] : []), `${listed}${rest}`].join("\n\n");
}

/** Markdown about the written element `index` of the palette's array; of several colours in it, about each. */
export function describeColour(palette: Palette, index: number): string {
  const { array, layout, values, format, name, colours } = palette;
  const slot = slotOf(array, index);
  const head = `\`${name}\` element ${slot < 0 ? index : slot}`;
  const { element } = layout.table(0);
  const held: string[] = [];
  for (let i = 0; i < values.length; i++) {
    const at = element[i] as number;
    if (at > slot || slot >= at + layout.span) continue;
    const rgb = hexOf(colours[i] as number);
    const words = valueInWords(format, values[i] as number);
    held.push(`Colour ${i} of ${values.length}: ${format.kind === "rgb" ? words : `${words} ${rgb}`}`);
  }
  return [head, ...(held.length > 0 ? held : ["Not a colour of the palette."])].join("\n\n");
}
