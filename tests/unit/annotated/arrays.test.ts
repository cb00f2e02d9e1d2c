import { describe, expect, it } from "vitest";
import { type ReadPicture, readPictures } from "../../support/readPictures.ts";
import { type ArrayCase, type Drawing, rowsOf } from "./cases/arrayCase.ts";
import { binding } from "./cases/binding.ts";
import { colourPixels } from "./cases/colourPixels.ts";
import { columnPacking } from "./cases/columnPacking.ts";
import { comments } from "./cases/comments.ts";
import { controllers } from "./cases/controllers.ts";
import { corners } from "./cases/corners.ts";
import { declarations } from "./cases/declarations.ts";
import { deepPixels } from "./cases/deepPixels.ts";
import { framesAndGlyphs } from "./cases/framesAndGlyphs.ts";
import { greyPixels } from "./cases/greyPixels.ts";
import { literals } from "./cases/literals.ts";
import { pagePacking } from "./cases/pagePacking.ts";
import { panels } from "./cases/panels.ts";
import { neverKnown, readRightOrNot } from "./cases/readRightOrNot.ts";
import { rowPacking } from "./cases/rowPacking.ts";
import { wideElements } from "./cases/wideElements.ts";
import { xbm } from "./cases/xbm.ts";

const themes: Record<string, ArrayCase[]> = {
  "rows of bits": rowPacking,
  "columns of bits": columnPacking,
  "pages of bits": pagePacking,
  "corners of packed rows": corners,
  "bits in wide elements": wideElements,
  "memories of display controllers": controllers,
  "grey pixels": greyPixels,
  "greys and indices of fewer bits": deepPixels,
  colours: colourPixels,
  "frames and glyphs": framesAndGlyphs,
  panels,
  comments,
  binding,
  declarations,
  literals,
  "X bitmaps": xbm,
};

interface Shown {
  name?: string;
  size: string;
  format: string;
  frames: string[][];
}

/** A picture as it was read, drawn the way the cases draw theirs. */
function shownAsRead(picture: ReadPicture, withName: boolean): Shown {
  const digits = picture.format.startsWith("rgb") ? { rgb332: 2, rgb565: 4, rgb888: 6 }[picture.format] : undefined;
  const value = (v: number) => {
    if (picture.format === "mono1") return v === 0 ? "." : "#";
    return digits === undefined ? String(v) : v.toString(16).padStart(digits, "0");
  };
  const gap = picture.format === "mono1" ? "" : " ";
  return {
    ...(withName ? { name: picture.name } : {}),
    size: `${picture.width}x${picture.height}`,
    format: picture.format,
    frames: picture.frames.map((rows) => rows.map((row) => row.map(value).join(gap))),
  };
}

function shownAsDrawn({ name, frames }: Drawing, format?: string): Shown {
  const rows = frames.map(rowsOf);
  const first = rows[0] ?? [];
  const mono = /[#.]/.test(first.join(""));
  const width = mono ? (first[0] ?? "").length : (first[0] ?? "").split(" ").length;
  return {
    ...(name === undefined ? {} : { name }),
    size: `${width}x${first.length}`,
    format: format ?? (mono ? "mono1" : "gray8"),
    frames: rows,
  };
}

for (const [theme, cases] of Object.entries(themes)) {
  describe(theme, () => {
    it.each(cases)("$what", ({ source, file, format, pictures }) => {
      const read = readPictures(source, file);
      const shown = read.pictures.map((picture, i) => shownAsRead(picture, pictures[i]?.name !== undefined));
      expect(shown).toEqual(pictures.map((picture) => shownAsDrawn(picture, format)));
      expect(read.pictures.map((picture) => picture.readOnly)).toEqual(pictures.map(() => undefined));
      expect(read.findings.filter(({ code }) => code === "annotation" || code === "unknown-panel")).toEqual([]);
    });
  });
}

describe("values that come round a corner", () => {
  it.each(readRightOrNot)("$what: read right, or read-only with a reason", ({ source, file, pictures }) => {
    const [picture, ...others] = readPictures(source, file).pictures;
    expect(others).toEqual([]);
    expect(picture).toBeDefined();
    if (picture?.readOnly === undefined)
      expect([picture && shownAsRead(picture, false)]).toEqual(pictures.map((p) => shownAsDrawn(p)));
    else
      expect({ reason: picture.readOnly, frames: picture.frames }).toEqual({
        reason: expect.stringMatching(/\w/),
        frames: [],
      });
  });

  it.each(neverKnown)("%s: read-only with a reason", (_what, source) => {
    const { pictures } = readPictures(source);
    expect(pictures.map(({ readOnly, frames }) => ({ readOnly, frames }))).toEqual([
      { readOnly: expect.stringMatching(/\w/), frames: [] },
    ]);
  });
});
