/** Glyph sets of the lantern's file, as the extension would tell them to the page. */
import type { GlyphSetInfo } from "../../shared/protocol/lsp.ts";
import type { ToHost } from "../../shared/protocol/webview.ts";

interface Drawn {
  readonly info: GlyphSetInfo;
  readonly pictures: ReadonlyMap<number, readonly number[]>;
}

/** A set from pictures, glyphs side by side: `#` is full, `+` half, anything else dark. */
function drawnSet(name: string, characters: string, rows: readonly string[], given: Partial<GlyphSetInfo> = {}) {
  const count = [...characters].length;
  const width = Math.floor(((rows[0]?.length ?? 0) + 1) / count) - 1;
  const full = given.full ?? 1;
  const points = [...characters].map((c) => c.codePointAt(0) ?? 0);
  const pictures = new Map(
    points.map((point, at) => {
      const own = rows.map((row) => row.slice(at * (width + 1), at * (width + 1) + width));
      return [point, [...own.join("")].map((dot) => (dot === "#" ? full : dot === "+" ? Math.round(full / 2) : 0))];
    }),
  );
  const identity = { name, ordinal: 0, siblings: 1, structure: `${width}x${rows.length}x${count}` };
  const own = { uri: "file:///lantern/font.h", identity, name, width, height: rows.length, full, characters: points };
  return { info: { ...own, ...given }, pictures };
}

/** Three digits and a letter of 3×5. */
export const digits = drawnSet("digits3x5", "012i", [
  "### .#. ##. #..",
  "#.# ##. ..# ...",
  "#.# .#. .#. #..",
  "#.# .#. #.. #..",
  "### ### ### #..",
]);

/** Two soft glyphs of 3×3 in four levels, the second one narrower. */
export const soft = drawnSet("soft3x3", "ol", ["+#+ #..", "#.# #..", "+#+ #.."], { full: 2, widths: [3, 1] });

/** Answers as the extension does, from these sets. */
export function glyphsFrom(sets: readonly Drawn[] = [digits, soft]) {
  return ({ wanted }: ToHost["glyphs"]["params"]): ToHost["glyphs"]["result"] => {
    const set = sets.find(({ info }) => info.name === wanted?.identity.name);
    const glyphs = (wanted?.characters ?? []).flatMap((character) => {
      const pixels = set?.pictures.get(character);
      return pixels ? [{ character, pixels }] : [];
    });
    return { sets: sets.map(({ info }) => info), glyphs };
  };
}
