import { describe, expect, it } from "vitest";
import { type ReadFinding, readPictures } from "../../support/readPictures.ts";
import { halfTyped, leftAlone, unknownPanels, type WrongWord, wrongWords } from "./cases/wrongWords.ts";

interface Place {
  start: number;
  end: number;
}

/** Takes the ‹ › out of a source text; gives what stood between them, and the word or words around each. */
function unmark(marked: string): { source: string; pieces: Place[]; words: Place[] } {
  let source = "";
  const pieces: Place[] = [];
  for (const part of marked.split(/(‹[^›]*›)/)) {
    const piece = /^‹(.*)›$/s.exec(part)?.[1];
    if (piece !== undefined) pieces.push({ start: source.length, end: source.length + piece.length });
    source += piece ?? part;
  }
  const words = pieces.map(({ start, end }) => ({
    start: start - (/\S*$/.exec(source.slice(0, start))?.[0].length ?? 0),
    end: end + (/^\S*/.exec(source.slice(end))?.[0].length ?? 0),
  }));
  return { source, pieces, words };
}

/** Where a finding stands, from its 1-based line and column; lines end as the Language Server Protocol has it. */
function placeOf(source: string, { line, column, text }: ReadFinding): Place {
  let start = 0;
  for (let l = 1; l < line; l++) start += /^[^\r\n]*(\r\n|\r|\n)/.exec(source.slice(start))?.[0].length ?? 0;
  start += column - 1;
  return { start, end: start + text.length };
}

const within = (inner: Place, outer: Place) => inner.start >= outer.start && inner.end <= outer.end;
const ofAnnotations = ({ code }: ReadFinding) => code === "annotation" || code === "unknown-panel";
const visible = (text: string) => text.replace(/\r?\n/g, "⏎");

/** The one finding, of this code, on the marked piece, saying so, with a fix that mends the piece and no more. */
function expectOneFinding([marked, says, fix]: WrongWord, code: string) {
  const { source, pieces, words } = unmark(marked);
  const [piece, word] = [pieces[0], words[0]];
  if (pieces.length !== 1 || !piece || !word) throw new Error(`one piece must be marked: ${marked}`);
  const findings = readPictures(source).findings.filter(ofAnnotations);
  expect(findings.map((finding) => finding.code)).toEqual([code]);
  const finding = findings[0] as ReadFinding;
  const place = placeOf(source, finding);
  expect(source.slice(place.start, place.end)).toBe(finding.text);
  expect({ text: finding.text, covers: within(piece, place), inWord: within(place, word) }).toEqual({
    text: finding.text,
    covers: true,
    inWord: true,
  });
  expect(finding.message).toMatch(says);
  if (fix !== undefined) {
    const mended = source.slice(0, piece.start) + fix + source.slice(piece.end);
    expect(finding.fixes.map(({ after }) => after)[0]).toBe(mended);
  }
}

for (const [theme, cases] of Object.entries(wrongWords)) {
  describe(theme, () => {
    it.each(cases.map((wrong) => ({ title: visible(wrong[0]), wrong })))("$title", ({ wrong }) =>
      expectOneFinding(wrong, "annotation"),
    );
  });
}

describe("unknown panels", () => {
  it.each(unknownPanels.map((wrong) => ({ title: visible(wrong[0]), wrong })))("$title", ({ wrong }) =>
    expectOneFinding(wrong, "unknown-panel"),
  );
});

describe("half-typed annotations", () => {
  it.each(halfTyped.map((marked) => ({ title: visible(marked), marked })))("$title", ({ marked }) => {
    const { source, words } = unmark(marked);
    const findings = readPictures(source).findings.filter(ofAnnotations);
    expect(findings).not.toEqual([]);
    const astray = findings.filter((finding) => !words.some((word) => within(placeOf(source, finding), word)));
    expect(astray).toEqual([]);
  });

  it("every beginning of an annotated array is read without a throw", () => {
    const whole =
      "// @panel bed 8x1 mono1\n/* @bitmap bed frames=2 first='a' -- on */\nconst uint8_t a[] = { 0x81, 'B' };\n";
    for (let end = 0; end <= whole.length; end++) {
      const { pictures } = readPictures(whole.slice(0, end));
      expect(pictures.length).toBeLessThanOrEqual(1);
    }
    expect(readPictures(whole).pictures.map(({ frames }) => frames)).toEqual([
      [[[1, 0, 0, 0, 0, 0, 0, 1]], [[0, 1, 0, 0, 0, 0, 1, 0]]],
    ]);
  });
});

describe("texts without an annotation", () => {
  it.each(leftAlone.map((source) => ({ title: visible(source), source })))("$title", ({ source }) => {
    expect(readPictures(source)).toEqual({ pictures: [], findings: [] });
  });
});
