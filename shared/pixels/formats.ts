/** Pixel formats: how many bits a pixel has and what they mean. A new format is a row here; colours are in `colour.ts`. */

export type FormatName =
  | "mono1"
  | "gray2"
  | "gray4"
  | "gray8"
  | "rgb332"
  | "rgb565"
  | "rgb888"
  | "palette1"
  | "palette2"
  | "palette4"
  | "palette8";

export interface Format {
  readonly name: FormatName;
  /** Bits of one pixel. */
  readonly depth: 1 | 2 | 4 | 8 | 16 | 24;
  readonly kind: "mono" | "gray" | "rgb" | "palette";
  /** Highest raw value. */
  readonly most: number;
  /** The level of full light, the scale of caps: the highest raw value; for colours 255, a channel in eight bits. */
  readonly full: number;
}

const row = (name: FormatName, depth: Format["depth"], kind: Format["kind"]): [FormatName, Format] => {
  const most = 2 ** depth - 1;
  return [name, { name, depth, kind, most, full: kind === "rgb" || kind === "palette" ? 255 : most }];
};

export const FORMATS: ReadonlyMap<string, Format> = new Map<string, Format>([
  row("mono1", 1, "mono"),
  row("gray2", 2, "gray"),
  row("gray4", 4, "gray"),
  row("gray8", 8, "gray"),
  row("rgb332", 8, "rgb"),
  row("rgb565", 16, "rgb"),
  row("rgb888", 24, "rgb"),
  row("palette1", 1, "palette"),
  row("palette2", 2, "palette"),
  row("palette4", 4, "palette"),
  row("palette8", 8, "palette"),
]);

/** An 8-bit grey for a raw value of a mono or grey format, at full scale: round(255 · value / most). */
export function greyOf(format: Pick<Format, "most">, value: number): number {
  return Math.round((255 * value) / format.most);
}

/** Whether pixels have a colour of their own, rather than an amount of the panel's light. */
export function isColour(format: Pick<Format, "kind">): boolean {
  return format.kind === "rgb" || format.kind === "palette";
}
