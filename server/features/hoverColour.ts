/** What a hover on one number of a palette says: which colour it is. */
import type { Palette } from "../../shared/bitmap/palettes.ts";
import { hexOf, valueInWords } from "../../shared/pixels/colour.ts";
import { slotOf } from "../../shared/source/arrays.ts";

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
