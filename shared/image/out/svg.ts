/**
 * A still picture as SVG (W3C SVG 1.1). Each colour is one path, so that the file stays small: runs of equal pixels are
 * merged where they touch, lamps are dots of a stroke (a subpath without length is drawn by its line caps).
 */
import type { Lattice } from "../../light/lattice.ts";
import { pointAt } from "../../light/lattice.ts";
import { hexOf } from "../../pixels/colour.ts";

interface Flat {
  readonly width: number;
  readonly height: number;
  /** 0xRRGGBB, row by row from the top left. */
  readonly colours: ArrayLike<number>;
}

interface Text {
  /** What the picture is, for who can't see it. */
  readonly title: string;
  /** Screen pixels to one pixel. */
  readonly scale: number;
}

/** Pixels as squares, edge to edge; with `gap`, a share of a pixel, apart from each other on a ground of `ground`. */
export function svgOfPixels(picture: Flat, text: Text, gap = 0, ground = 0): string {
  const { width, height } = picture;
  const paths = new Map<number, string>();
  const background = gap > 0 ? ground : commonest(picture.colours);
  const add = (colour: number, path: string) => paths.set(colour, (paths.get(colour) ?? "") + path);
  const side = short(1 - gap);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; ) {
      const colour = picture.colours[y * width + x] ?? 0;
      let end = x + 1;
      if (gap > 0) add(colour, `M${short(x + gap / 2)} ${short(y + gap / 2)}h${side}v${side}h-${side}z`);
      else {
        while (end < width && picture.colours[y * width + end] === colour) end++;
        if (colour !== background) add(colour, `M${x} ${y}h${end - x}v1h-${end - x}z`);
      }
      x = end;
    }
  }
  const body = [...paths].map(([colour, path]) => `<path fill="${hexOf(colour)}" d="${path}"/>`);
  return file(width, height, text, ' shape-rendering="crispEdges"', background, body);
}

/** How lamps are drawn, lengths in sides of a pixel. */
export interface LampShape {
  readonly dots: "round" | "square";
  readonly radius: number;
  /** The edge of a lamp that is off, 0xRRGGBB. */
  readonly edge: number;
  /** The ground of the panel. */
  readonly ground: number;
}

/** Lamps where they stand on the panel; the lattice is one of steps of 1. A lamp that is off is a ring. */
export function svgOfLamps(picture: Flat, lattice: Lattice, shape: LampShape, text: Text): string {
  const { colours } = picture;
  const lit = new Map<number, string>();
  let off = "";
  for (let i = 0; i < picture.width * picture.height; i++) {
    const { x, y } = pointAt(lattice, (i % picture.width) + 0.5, Math.floor(i / picture.width) + 0.5);
    const colour = colours[i] ?? 0;
    if (colour === 0) off += `M${short(x)} ${short(y)}h0`;
    else lit.set(colour, `${lit.get(colour) ?? ""}M${short(x)} ${short(y)}h0`);
  }
  const length = Math.hypot(lattice.along.x, lattice.along.y);
  const [across, down] = extentOf(lattice);
  // A slanted square is a straight one that is turned; caps go by the direction of the line, so it slants instead.
  const slanted = shape.dots === "square" && lattice.along.x !== 0 && lattice.along.y !== 0;
  const way = (path: string) =>
    slanted ? path.replaceAll("h0", "l1e-4 1e-4") : shape.dots === "square" ? path.replaceAll("h0", "h1e-4") : path;
  const stroke = (colour: number, radius: number, path: string) =>
    `<path stroke="${hexOf(colour)}" stroke-width="${short(2 * radius * length)}" d="${way(path)}"/>`;
  const body = [`<g fill="none" stroke-linecap="${shape.dots}">`];
  if (off) body.push(stroke(shape.edge, shape.radius - 0.02, off), stroke(shape.ground, shape.radius - 0.08, off));
  for (const [colour, path] of lit) body.push(stroke(colour, shape.radius, path));
  body.push("</g>");
  return file(across, down, text, "", shape.ground, body);
}

/** Width and height of the picture of a lattice whose upper left extent is at 0,0. */
function extentOf(lattice: Lattice): [number, number] {
  const corners = [0, lattice.columns].flatMap((x) => [0, lattice.rows].map((y) => pointAt(lattice, x, y)));
  return [Math.max(...corners.map((c) => c.x)), Math.max(...corners.map((c) => c.y))];
}

function file(
  width: number,
  height: number,
  { title, scale }: Text,
  attributes: string,
  ground: number,
  body: readonly string[],
): string {
  const size = `width="${short(width * scale)}" height="${short(height * scale)}" viewBox="0 0 ${short(width)} ${short(height)}"`;
  return `<svg xmlns="http://www.w3.org/2000/svg" ${size} role="img"${attributes}>
<title>${escaped(title)}</title>
<rect width="100%" height="100%" fill="${hexOf(ground)}"/>
${body.join("\n")}
</svg>
`;
}

function commonest(colours: ArrayLike<number>): number {
  const counts = new Map<number, number>();
  for (let i = 0; i < colours.length; i++)
    counts.set(colours[i] as number, (counts.get(colours[i] as number) ?? 0) + 1);
  let [most, best] = [0, 0];
  for (const [colour, count] of counts) if (count > most) [most, best] = [count, colour];
  return best;
}

/** At most three decimals. */
function short(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}

/** Text for XML and HTML, in elements and in quoted attributes. */
export function escaped(text: string): string {
  return text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");
}
