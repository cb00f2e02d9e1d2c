/** What a hover on a word of an annotation says. */
import type { Palette } from "../../shared/bitmap/palettes.ts";
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import { panelCurrent } from "../../shared/checks/panelCurrent.ts";
import { milliamperes } from "../../shared/light/current.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import { readSize, rowOf } from "../../shared/pixels/options.ts";
import type { Word } from "../../shared/source/annotationSyntax.ts";
import type { BoundAnnotation } from "../../shared/source/read.ts";
import type { Span } from "../../shared/source/text.ts";
import { formatDoc, MARKER_DOCS, optionDoc, panelDoc } from "./annotationDocs.ts";
import { describePalette } from "./hoverColour.ts";
import { describeWiring } from "./hoverWiring.ts";

export interface Described {
  readonly markdown: string;
  readonly span: Span;
}

const holds = (span: Span, offset: number) => span.start <= offset && offset <= span.end;

/** undefined where no annotation stands, or where nothing can be said about the word. `picture`: the client shows them. */
export function describeAnnotation(file: BitmapFile, offset: number, picture = false): Described | undefined {
  const annotation = file.source.annotations.find((a) => holds(a, offset));
  if (!annotation) return undefined;
  const { marker, markerSpan } = annotation;
  const wiring = wiringOf(file, annotation, picture);
  if (holds(markerSpan, offset)) {
    const more = marker === "wiring" && wiring !== undefined ? `\n\n${wiring}` : "";
    return { markdown: `**\`@${marker}\`**\n\n${MARKER_DOCS[marker]}${more}`, span: markerSpan };
  }
  const word = annotation.words.find((w) => holds(w, offset));
  const said = word && describeWord(file, annotation, word);
  const text = word?.key === "wire" && wiring !== undefined ? `${wiring}\n\n${said}` : said;
  return word && text !== undefined ? { markdown: `**\`${word.text}\`**\n\n${text}`, span: word } : undefined;
}

/** The wiring that an annotation speaks of. */
function wiringOf(file: BitmapFile, { marker, words }: BoundAnnotation, picture: boolean): string | undefined {
  if (marker !== "panel" && marker !== "wiring") return undefined;
  const table = file.wirings.tables.find((t) => t.panel.name === words[0]?.text);
  const elsewhere = table && { ...table.panel, wiring: table.wiring };
  const panel = file.panels.find((p) => p.name === words[0]?.text) ?? elsewhere;
  return describeWiring(panel, file.wirings.tables, picture);
}

function paletteNamed(file: BitmapFile, annotation: BoundAnnotation, word: Word): Palette | undefined {
  const named = file.palettes.find((p) => p.name === word.value);
  return named ?? file.bitmaps.find((b) => b.annotation === annotation)?.palette;
}

function describeWord(file: BitmapFile, annotation: BoundAnnotation, word: Word): string | undefined {
  const { marker } = annotation;
  if (word.key !== undefined || rowOf(marker, word.text)?.flag) {
    const palette = word.key === "palette" ? paletteNamed(file, annotation, word) : undefined;
    return palette ? describePalette(palette, false) : optionDoc(marker, word.key ?? word.text);
  }
  const format = FORMATS.get(word.text);
  if (format) return formatDoc(format);
  const size = readSize(word.text);
  if (size && !("problem" in size)) return `${size.width} columns × ${size.height} rows of one frame.`;
  const [panel] = file.known.get(word.text);
  if (!panel) return undefined;
  return `${panelDoc(panel, file)}\n\n\`\`\`\n${panel.text}\n\`\`\`${supplyOf(file, panel.name)}`;
}

/** What the panel draws at most, of the bitmaps of the file that are shown on it. */
function supplyOf({ bitmaps }: BitmapFile, panel: string): string {
  const found = panelCurrent(bitmaps.filter((b) => b.panel?.name === panel));
  if (!found) return "";
  const { worst, mean, bitmap, frame } = found;
  const where = bitmap.frames > 1 ? `frame ${frame} of \`${bitmap.array.name}\`` : `\`${bitmap.array.name}\``;
  const { budget } = bitmap.options;
  const limit = budget === undefined ? "" : `, of a budget of ${milliamperes(budget)}`;
  return `\n\nDraws about ${milliamperes(worst)} at most in ${where}${limit}, ${milliamperes(mean)} in the mean of all frames (an estimate)`;
}
