/** What hovers say of wirings: where pixels sit at the driver, and in which order addresses run over the panel. */
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { wireWordsOf } from "../../shared/bitmap/wired/table.ts";
import type { WiringTable } from "../../shared/bitmap/wirings.ts";
import type { Panel } from "../../shared/light/panel.ts";
import type { Wiring } from "../../shared/light/wiring/wiring.ts";
import { elementAtOffset, elementSpan, slotOf } from "../../shared/source/arrays.ts";
import type { Span } from "../../shared/source/text.ts";
import type { HeldPixel } from "./elementPixels.ts";
import { bodyOf } from "./place.ts";

/** Addresses that are listed for one element. */
const MOST_LISTED = 8;

/** Where pixels of a bitmap sit at the driver, where its panel's wiring is known and the picture is all of the panel. */
export function driverInWords({ panel, width, height }: Bitmap, held: readonly HeldPixel[]): string[] {
  const { wiring, options } = panel ?? {};
  if (!panel || !wiring || width !== options?.width || height !== options.height) return [];
  const indices = held.map(({ x, y }) => wiring.index[y * width + x] as number);
  const [only, ...more] = indices;
  if (only === undefined) return [];
  if (more.length === 0) return [`Driver ${addressInWords(wiring, only)}`];
  const listed = indices.slice(0, MOST_LISTED).join(", ");
  return [`Driver indices ${listed}${indices.length > MOST_LISTED ? ", …" : ""}`];
}

function addressInWords({ width }: Wiring, address: number): string {
  return `x ${address % width}, y ${Math.floor(address / width)}, index ${address}`;
}

/** The hover on a number of an index table; undefined elsewhere. */
export function describeEntry(file: BitmapFile, offset: number): { markdown: string; span: Span } | undefined {
  const table = file.wirings.tables.find((t) => {
    const body = bodyOf(t);
    return body !== undefined && body.start < offset && offset < body.end;
  });
  const index = table ? elementAtOffset(table.array, offset) : -1;
  if (!table || index < 0) return undefined;
  const { array, panel, wiring } = table;
  const slot = slotOf(array, index);
  const { width = 1 } = panel.options;
  const span = elementSpan(array, index);
  const head = `\`${array.name}\` entry ${slot < 0 ? index : slot}`;
  if (slot < 0) return { markdown: `${head}\n\nOne too many.`, span };
  const pixel = `Pixel x ${slot % width}, y ${Math.floor(slot / width)} of \`${panel.name}\``;
  const driver = wiring ? `: driver ${addressInWords(wiring, wiring.index[slot] as number)}` : "";
  return { markdown: `${head}\n\n${pixel}${driver}`, span };
}

/** Markdown about the wiring of a panel; undefined where it has none that is known. */
export function describeWiring(
  panel: Panel | undefined,
  tables: readonly WiringTable[],
  picture: boolean,
): string | undefined {
  const { wiring } = panel ?? {};
  if (!panel || !wiring) return undefined;
  const { width = 1 } = panel.options;
  const cells = wiring.width * wiring.height;
  const spare = cells - wiring.index.length;
  const first = wiring.index.indexOf(wiring.index.reduce((least, address) => Math.min(least, address)));
  const table = tables.find((t) => t.panel.name === panel.name);
  const words = table && wireWordsOf(wiring, panel);
  const facts = [
    `Driver's canvas ${wiring.width}×${wiring.height}: ${cells} addresses${spare > 0 ? `, ${spare} of them without a pixel` : ""}.`,
    `The first address, ${wiring.index[first]}, is pixel x ${first % width}, y ${Math.floor(first / width)}.`,
    ...(table
      ? [`From the table \`${table.array.name}\`${words ? `, which says the same as \`wire=${words}\`` : ""}.`]
      : []),
  ];
  const drawn = picture ? pathPicture(wiring, width) : undefined;
  return [...(drawn ? [drawn] : []), facts.join(" ")].join("\n\n");
}

/** More pixels than that are no path that can be followed in a hover. */
const MOST_DRAWN = 2048;
const WIDEST = 240;
const TALLEST = 180;

/** A line through the pixels by their addresses, from the filled dot on; it breaks where addresses are left out. */
function pathPicture({ index }: Wiring, across: number): string | undefined {
  const down = index.length / across;
  if (index.length > MOST_DRAWN) return undefined;
  const step = Math.max(4, Math.min(20, Math.floor(Math.min(WIDEST / across, TALLEST / down))));
  const order = [...index.keys()].sort((a, b) => (index[a] as number) - (index[b] as number));
  const at = (pixel: number) => [(pixel % across) * step + step / 2, Math.floor(pixel / across) * step + step / 2];
  const path = order
    .map((pixel, i) => {
      const follows = i > 0 && index[pixel] === (index[order[i - 1] as number] as number) + 1;
      return `${follows ? "L" : "M"}${at(pixel).join(" ")}`;
    })
    .join("");
  const dots = order.map((pixel) => `M${at(pixel).join(" ")}h0`).join("");
  const [x, y] = at(order[0] ?? 0);
  const [width, height] = [across * step, down * step];
  // One grey that shows on light and dark grounds.
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}"><g fill="none" stroke="#808080" stroke-linecap="round"><path stroke-width="${Math.max(1, step / 10)}" d="${path}"/><path stroke-width="${Math.max(2, step / 4)}" d="${dots}"/></g><circle cx="${x}" cy="${y}" r="${Math.max(2, step / 3.2)}" fill="#808080"/></svg>`;
  return `![order of addresses](data:image/svg+xml;base64,${Buffer.from(svg).toString("base64")})`;
}
