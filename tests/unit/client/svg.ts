/** Reads the pictures that the client draws as SVG back into the colours of screen pixels, by a rule of its own. */

/** Rows of `#rrggbb`, one for each CSS pixel, `none` where nothing is drawn. */
export function colours(uri: string): string[][] {
  const svg = Buffer.from(uri.slice(uri.indexOf(",") + 1), "base64").toString();
  const [, width = 0, height = 0] = (/ width="(\d+)" height="(\d+)"/.exec(svg) ?? []).map(Number);
  const [, , boxWidth = 1, boxHeight = 1] = (/ viewBox="(\S+) (\S+) (\S+) (\S+)"/.exec(svg)?.slice(1) ?? []).map(
    Number,
  );
  const out = Array.from({ length: height }, () => new Array<string>(width).fill("none"));
  let place = { x: 0, y: 0, wide: width / boxWidth, high: height / boxHeight };
  const paint = (colour: string, x: number, y: number, w: number, h: number) => {
    for (let row = place.y + y * place.high; row < place.y + (y + h) * place.high; row++)
      for (let column = place.x + x * place.wide; column < place.x + (x + w) * place.wide; column++)
        (out[Math.floor(row)] as string[])[Math.floor(column)] = colour;
  };
  for (const [tag] of svg.matchAll(/<(?:g|path)[^>]*>/g)) {
    const moved = /translate\((\S+) (\S+)\) scale\((\S+) (\S+)\)/.exec(tag)?.slice(1).map(Number);
    if (moved) {
      const [x = 0, y = 0, wide = 1, high = 1] = moved;
      place = { x, y, wide, high };
      continue;
    }
    const ground = /d="M(\d+) 0H(\d+)V(\d+)H\d+z"/.exec(tag)?.slice(1).map(Number);
    if (ground) {
      const [left = 0, right = 0, bottom = 0] = ground;
      place = { x: 0, y: 0, wide: width / boxWidth, high: height / boxHeight };
      paint("#000000", left, 0, right - left, bottom);
    }
    const [, stroke] = /stroke="(#\w{6})"/.exec(tag) ?? [];
    if (!stroke) continue;
    for (const [, x, y, w] of tag.matchAll(/M(\d+) (\d+)\.5h(\d+)/g)) paint(stroke, Number(x), Number(y), Number(w), 1);
  }
  return out;
}

/**
 * `#` where something is lit, `.` where it is dark, a space where nothing is drawn; every `step`th screen pixel, after
 * as many at the left as the picture has for its margin.
 */
export function drawn(uri: string, step: number, margin = 0): string[] {
  const every = <T>(list: readonly T[]) => list.filter((_, i) => i % step === 0);
  return every(colours(uri)).map((row) =>
    every(row.slice(margin, margin === 0 ? undefined : -margin))
      .map((c) => (c === "none" ? " " : c === "#000000" ? "." : "#"))
      .join(""),
  );
}
