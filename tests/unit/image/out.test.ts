import { describe, expect, it } from "vitest";
import { pbmOf, pgmOf, ppmOf } from "../../../shared/image/out/netpbm.ts";
import { svgOfLamps, svgOfPixels } from "../../../shared/image/out/svg.ts";
import { xbmOf } from "../../../shared/image/out/xbm.ts";
import { latticeOf } from "../../../shared/light/lattice.ts";

const latin = (bytes: Uint8Array) => Buffer.from(bytes).toString("latin1");

// netpbm, pbm(5), pgm(5), ppm(5): header of magic number, width, height (and maxval), one white space, then the raster.
describe("netpbm files", () => {
  it("hold bits with 0 as white, rows padded to bytes", () => {
    const pixels = [1, 0, 0, 0, 0, 0, 0, 0, 0, 1, /* */ 0, 0, 0, 0, 0, 0, 1, 1, 1, 0];
    expect(latin(pbmOf({ width: 10, height: 2, pixels }))).toBe("P4\n10 2\n\x7f\x80\xfc\x40");
  });

  it("hold greys as they are, under the highest value", () => {
    expect(latin(pgmOf({ width: 2, height: 1, pixels: [3, 15] }, 15))).toBe("P5\n2 1\n15\n\x03\x0f");
  });

  it("hold colours as three bytes", () => {
    expect(latin(ppmOf({ width: 2, height: 1, pixels: [0x102030, 0xff00fe] }))).toBe(
      "P6\n2 1\n255\n\x10\x20\x30\xff\x00\xfe",
    );
  });
});

// Xlib manual, XReadBitmapFile: its bytes `01 02 80 01 0f fc` as 10x3.
it("an X bitmap has the lowest bit left", () => {
  const rows = ["1000000001", "0000000110", "1111000000"];
  const text = xbmOf("seed", 10, 3, [...rows.join("")].map(Number));
  expect(text).toBe(
    "#define seed_width 10\n#define seed_height 3\nstatic unsigned char seed_bits[] = {\n   0x01, 0x02, 0x80, 0x01, 0x0f, 0x00 };\n",
  );
});

describe("SVG", () => {
  const text = { title: 'a "leaf" <1>', scale: 10 };

  it("merges runs of equal pixels and leaves the commonest to the ground", () => {
    const colours = [0, 0xff0000, 0xff0000, 0, 0, 0x00ff00];
    expect(svgOfPixels({ width: 3, height: 2, colours }, text)).toBe(
      `<svg xmlns="http://www.w3.org/2000/svg" width="30" height="20" viewBox="0 0 3 2" role="img" shape-rendering="crispEdges">
<title>a &quot;leaf&quot; &lt;1&gt;</title>
<rect width="100%" height="100%" fill="#000000"/>
<path fill="#ff0000" d="M1 0h2v1h-2z"/>
<path fill="#00ff00" d="M2 1h1v1h-1z"/>
</svg>
`,
    );
  });

  it("leaves a gap between cells", () => {
    const svg = svgOfPixels({ width: 1, height: 1, colours: [0xff0000] }, text, 0.2, 0x333333);
    expect(svg).toContain('fill="#333333"');
    expect(svg).toContain('<path fill="#ff0000" d="M0.1 0.1h0.8v0.8h-0.8z"/>');
  });

  it("puts lamps where the panel's lattice has them, those that are off as rings", () => {
    const lattice = latticeOf(2, 1, 1, 2, { x: 0, y: 0 });
    const shape = { dots: "round", radius: 0.4, edge: 0x444444, ground: 0 } as const;
    const svg = svgOfLamps({ width: 2, height: 1, colours: [0xff8800, 0] }, lattice, shape, text);
    // A quarter turn: the row runs down.
    expect(svg).toContain('viewBox="0 0 1 2"');
    expect(svg).toContain('<path stroke="#ff8800" stroke-width="0.8" d="M0.5 0.5h0"/>');
    expect(svg).toContain('<path stroke="#444444" stroke-width="0.76" d="M0.5 1.5h0"/>');
  });
});
