import { describe, expect, it } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { pixelsOf } from "../../../shared/bitmap/resolve.ts";
import { checkFile } from "../../../shared/checks/all.ts";
import { intoBitmap } from "../../../shared/image/into.ts";
import { type NewPicture, newPicture } from "../../../shared/image/write.ts";
import { FORMATS, type Format } from "../../../shared/pixels/formats.ts";
import { applyEdits } from "../../../shared/source/text.ts";
import { greyPicture, rgbaPicture } from "../../support/rgba.ts";

const seed = greyPicture([0, 10], [200, 255]);
const made = (source: string, words: string, more: Partial<NewPicture> = {}, pictures = [seed], file = "art.h") => {
  const home = openText(source, file);
  return newPicture(home, { pictures }, { words, name: "seed", offset: source.length, choices: {}, ...more });
};
const textOf = (...args: Parameters<typeof made>) => {
  const written = made(...args);
  return "refused" in written ? written.refused : written.text;
};

describe("a new bitmap", () => {
  it("takes its size and number of frames from the pictures", () => {
    expect(textOf("", "gray8")).toBe(
      "// @bitmap 2x2 gray8\nstatic const uint8_t seed[4] = {\n    0,  10,\n  200, 255,\n};\n",
    );
    expect(textOf("", "gray8 fps=4 -- it grows", {}, [seed, seed])).toContain(
      "// @bitmap 2x2 gray8 fps=4 frames=2 -- it grows\n",
    );
    expect(textOf("", "2x2 frames=3", {}, [seed])).toBe("the annotation speaks of 3 frames, and there is 1 picture");
    expect(textOf("", "2x2 palette2 palette=x")).toBe(
      "`palette=` and `widths=` name arrays that are made here, so they can't be given",
    );
    expect(textOf("", "2x2 grey8")).toContain("grey8");
  });

  it("follows the style of the file, its panel and its cap, and stands after its bitmaps", () => {
    const source =
      "// @panel lantern 2x2 gray8 cap=64\n// @bitmap lantern\nconst uint8_t drop[4] PROGMEM = {\n\t0x00, 0x01,\n\t0x02, 0x40\n};\n";
    const written = made(source, "lantern");
    if ("refused" in written) throw new Error(written.refused);
    expect(applyEdits(source, [written.edit])).toBe(
      `${source}\n// @bitmap lantern\nconst uint8_t seed[4] PROGMEM = {\n\t0x00, 0x03,\n\t0x32, 0x40\n};\n`,
    );
    expect(written.brought.notes).toEqual(["scaled, so that white is the cap of 64"]);
  });

  it("brings its palette along, which is read back with it", () => {
    const flower = rgbaPicture([
      [255, 0, 0, 255],
      [0, 128, 0, 255],
    ]);
    const format = FORMATS.get("rgb565") as Format;
    expect(textOf("", "palette1", { paletteFormat: format }, [flower])).toBe(
      "// @palette rgb565\nstatic const uint16_t seed_colours[2] = {\n  0xF800, 0x0400,\n};\n\n// @bitmap 2x1 palette1 palette=seed_colours\nstatic const uint8_t seed[1] = {\n  0x40,\n};\n",
    );
    expect(textOf("", "palette1", {}, [flower])).toContain(
      "static const uint32_t seed_colours[2] = {\n  0x00FF0000, 0x00008000,\n};",
    );
    expect(textOf("int seed_colours;\n", "palette1", {}, [flower])).toContain("palette=seed_colours_2");
  });

  it("takes no name that is taken", () => {
    expect(textOf("int seed;\n", "gray8")).toBe("`seed` is already taken in this file.");
  });
});

describe("an array that is there", () => {
  const source = [
    "// @bitmap 2x2 frames=2 cap=64",
    "const uint8_t drip[8] = {",
    "  0x00, 0x01, 0x02, 0x03, // falls",
    "  0x04, 0x05, 0x06, 0x07, // lands",
    "};",
    "",
  ].join("\n");
  const world = { reopen: (text: string) => openText(text, "art.h"), findings: checkFile };
  const into = (at: number | "further", pictures = [seed], text = source) => {
    const file = world.reopen(text);
    const done = intoBitmap(file, file.bitmaps[0] as never, pictures, { overCap: "clamp" }, at, world);
    if ("refused" in done) return done.refused;
    expect(Array.from(pixelsOf(done.bitmap, done.frame) ?? [])).toEqual([0, 10, 64, 64]);
    return applyEdits(text, done.edits);
  };

  it("keeps its style and everything else", () => {
    expect(into(1)).toBe(source.replace("0x04, 0x05, 0x06, 0x07", "0x00, 0x0a, 0x40, 0x40"));
    expect(into(0)).toBe(source.replace("0x01, 0x02, 0x03", "0x0a, 0x40, 0x40"));
  });

  it("gets further frames, with its size and its annotation", () => {
    expect(into("further")).toBe(
      source
        .replace("frames=2", "frames=3")
        .replace("drip[8]", "drip[12]")
        .replace("// lands\n", "// lands\n  0x00, 0x0a, 0x40, 0x40,\n"),
    );
  });

  it("refuses what it has no room or no colours for", () => {
    expect(into(1, [seed, seed])).toBe(
      "drip has 2 frames, numbered from 0; 2 pictures from frame 1 on can only be added as further frames",
    );
    expect(into(0, [seed], source.replace("cap=64", "palette8"))).toBe(
      "the colours of drip are not known: give it a palette first",
    );
    expect(into(0, [seed], source.replace("0x00", "GLOW"))).toBe(
      "drip can't be edited: `GLOW` is not defined in this file",
    );
    expect(into("further", [seed], source.replace("0x00", "GLOW"))).toContain("drip can't be edited");
  });
});
