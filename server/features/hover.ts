import type { Hover, Position } from "vscode-languageserver/node";
import { identityOf } from "../../shared/bitmap/edit.ts";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { motionsOf } from "../../shared/motion/resolve.ts";
import { elementAtOffset, elementSpan } from "../../shared/source/arrays.ts";
import type { Span } from "../../shared/source/text.ts";
import type { Parsed } from "../documents.ts";
import { COPY_AS, EXPORT_PICTURE, PAINT } from "./codeLens.ts";
import { describeAnnotation } from "./hoverAnnotation.ts";
import { describeColour, describePalette } from "./hoverColour.ts";
import { describeMotion, motionFact, runOf } from "./hoverMotion.ts";
import { describeBitmap } from "./hoverName.ts";
import { describeElement } from "./hoverNumber.ts";
import { describeEntry } from "./hoverWiring.ts";
import { describeLive } from "./live.ts";
import { hoverOffer } from "./offers.ts";
import { bitmapAround, bitmapsDeclaredAt, paletteAround, rangeOf } from "./place.ts";
import type { ClientSettings } from "./settings.ts";

/** A word of an annotation, a bitmap by its name, or one number of it; null for anything else. */
export function hover(parsed: Parsed, position: Position, settings: ClientSettings): Hover | null {
  const { document, file } = parsed;
  const offset = document.offsetAt(position);
  const show = (markdown: string, span: Span): Hover => ({
    contents: settings.markdown ? { kind: "markdown", value: markdown } : { kind: "plaintext", value: plain(markdown) },
    range: rangeOf(document, span),
  });
  const play = ({ bitmap }: { bitmap: Bitmap | undefined }) =>
    bitmap && settings.markdown && settings.commands.has(PAINT)
      ? commandLink(parsed, bitmap, PAINT, "Play")
      : undefined;
  const live = describeLive(parsed, offset, settings, play);
  if (live) return show(live.markdown, live.span);
  const motion = motionsOf(file).find(({ annotation: { markerSpan } }) => holds(markerSpan, offset));
  if (motion) return show(describeMotion(motion, settings.markdown), motion.annotation.markerSpan);
  const word = describeAnnotation(file, offset, settings.markdown) ?? describeEntry(file, offset);
  if (word) return show(word.markdown, word.span);
  const around = bitmapAround(file, offset);
  if (around) {
    const index = elementAtOffset(around.array, offset);
    return index < 0 ? null : show(describeElement(around, index), elementSpan(around.array, index));
  }
  const palette = paletteAround(file, offset);
  if (palette) {
    const index = elementAtOffset(palette.array, offset);
    return index < 0 ? null : show(describeColour(palette, index), elementSpan(palette.array, index));
  }
  const [bitmap, ...others] = bitmapsDeclaredAt(file, offset);
  if (bitmap) {
    const { markdown, commands } = settings;
    const links = LINKS.filter(([command]) => markdown && commands.has(command));
    const link = links.map(([command, title]) => commandLink(parsed, bitmap, command, title)).join(" · ") || undefined;
    const held = motionsOf(file).find((m) => m.target === bitmap && m.moving);
    const played = held && runOf(file, held);
    const described = describeBitmap(bitmap, file.source, { picture: markdown, others: others.length, link, played });
    return show(held ? `${described}\n${motionFact(held)}` : described, headOf(bitmap, offset));
  }
  const computed = motionsOf(file).find(({ code }) => code && holds(code.nameSpan, offset));
  if (computed?.code) return show(describeMotion(computed, settings.markdown), computed.code.nameSpan);
  const named = file.palettes.find((p) => holds(p.array.nameSpan, offset));
  if (named) return show(describePalette(named, settings.markdown), named.array.nameSpan);
  return hoverOffer(parsed, position, settings);
}

/** Commands of the client, each with the document and the bitmap. */
const LINKS = [
  [PAINT, "Paint"],
  [EXPORT_PICTURE, "Export…"],
  [COPY_AS, "Copy as…"],
] as const;

/** A client runs the command of a link only where it trusts this one. */
function commandLink({ uri }: Parsed, bitmap: Bitmap, command: string, title: string): string {
  // A bracket that a name holds would end the link.
  const given = encodeURIComponent(JSON.stringify([uri, identityOf(bitmap)]));
  return `[${title}](command:${command}?${given.replaceAll("(", "%28").replaceAll(")", "%29")})`;
}

function holds(span: Span, offset: number): boolean {
  return span.start <= offset && offset <= span.end;
}

function headOf({ array }: Bitmap, offset: number): Span {
  const { nameSpan, declaration, base } = array;
  return holds(nameSpan, offset) ? nameSpan : { start: declaration.start, end: base };
}

function plain(markdown: string): string {
  return markdown.replace(/[*`]/g, "");
}
