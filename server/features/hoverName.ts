/** What a hover on a bitmap's name or declaration says: its picture and its facts. */
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { storageOf } from "../../shared/bitmap/storage.ts";
import { sendingOf } from "../../shared/checks/bus.ts";
import { EYES } from "../../shared/checks/cautions.ts";
import { currentsOf } from "../../shared/checks/current.ts";
import { lostByNight } from "../../shared/checks/night.ts";
import { counted } from "../../shared/checks/rules.ts";
import { durationInWords } from "../../shared/light/bus.ts";
import { milliamperes } from "../../shared/light/current.ts";
import { highest } from "../../shared/light/limit.ts";
import { isColour } from "../../shared/pixels/formats.ts";
import type { SourceFile } from "../../shared/source/read.ts";
import { hoverPicture, type Played } from "./hoverPicture.ts";
import { valueRange } from "./range.ts";
import { bytesInWords, bytesOf, percent, sizeAndFormat } from "./words.ts";

interface Told {
  /** False for a client that shows none. */
  readonly picture: boolean;
  /** Counts the bitmaps of the same table. */
  readonly others: number;
  /** What opens the paint editor. */
  readonly link?: string | undefined;
  /** What is played in place of the frames as they stand. */
  readonly played?: Played | undefined;
}

/** Markdown. */
export function describeBitmap(bitmap: Bitmap, source: SourceFile, { picture, others, link, played }: Told): string {
  const { array, options } = bitmap;
  const drawn = picture ? hoverPicture(bitmap, played) : undefined;
  const speed = options.fps === undefined ? "" : ` at ${options.fps} a second`;
  const bytes = array.type ? ` · ${bytesInWords(bytesOf(bitmap))}` : "";
  const parts = [`**\`${array.name}\`** · ${sizeAndFormat(bitmap)}${speed}${bytes}${link ? ` · ${link}` : ""}`];
  if (drawn?.markdown) parts.push(drawn.markdown);
  const facts = [
    ...(drawn?.notes ?? []),
    ...useOf(bitmap),
    ...supply(bitmap),
    ...sending(bitmap),
    ...storage(bitmap),
    ...memory(bitmap, source),
    meaning(bitmap),
  ].filter((f) => f !== "");
  if (bitmap.why !== undefined) facts.unshift(`Read-only, without a picture: ${bitmap.why}.`);
  if (others > 0) facts.push(`The first of ${others + 1} bitmaps in this table.`);
  parts.push(facts.map((fact) => `- ${fact}`).join("\n"));
  return parts.join("\n\n");
}

function useOf(bitmap: Bitmap): string[] {
  const range = valueRange(bitmap);
  if (!range) return [];
  const { format, cap, drive } = bitmap;
  if (format.kind === "mono")
    return [`${range.lit} of ${counted(range.pixels, "pixel")} lit (${percent(range.lit / range.pixels)})`];
  const facts = [
    isColour(format)
      ? `${counted(range.colours, "colour")}, their brightest channel at ${percent(range.peak / format.full)}`
      : `Values ${range.least} to ${range.most}, up to ${percent(range.most / format.most)} of full scale`,
    ...paletteInWords(bitmap),
  ];
  if (drive < 1) facts.push(`Driven at ${percent(drive)}: at most ${Math.round(range.peak * drive * 10) / 10}`);
  if (bitmap.mask) facts.push("A mask: cap, current and flashes are not judged");
  facts.push(...byNight(bitmap));
  if (cap === undefined) return facts;
  const limit = highest(bitmap) ?? format.full;
  const over = range.peak > limit;
  facts.push(`Cap ${cap}: the brightest pixel is ${over ? "over it" : "within it"}; drawn with the cap as full light`);
  if (over) facts.push(EYES);
  return facts;
}

/** What is left of it at the night level. */
function byNight(bitmap: Bitmap): string[] {
  const lost = lostByNight(bitmap);
  if (!lost || bitmap.night === undefined) return [];
  const { lit, dark, merged } = lost;
  const alike = merged.length > 0 ? `, ${counted(merged.flat().length, "value")} become ${merged.length}` : "";
  return [`By night at most ${bitmap.night}: ${dark} of ${counted(lit, "lit pixel")} go dark${alike}`];
}

/** What it draws, where the current of a channel is known. */
function supply(bitmap: Bitmap): string[] {
  const currents = currentsOf(bitmap);
  if (!currents) return [];
  const { budget } = bitmap.options;
  const { worst, mean, frame } = currents;
  const most = bitmap.frames > 1 ? ` in frame ${frame}, ${milliamperes(mean)} in the mean` : "";
  const limit = budget === undefined ? "" : `, of a budget of ${milliamperes(budget)}`;
  return [`Draws about ${milliamperes(worst)}${most}${limit} (an estimate)`];
}

/** How long a frame is on its way, where the bus is known. */
function sending(bitmap: Bitmap): string[] {
  const sent = sendingOf(bitmap);
  if (!sent) return [];
  const { fps } = bitmap.options;
  const time = fps === undefined ? "" : ` of the ${durationInWords(1 / fps)} that it is shown`;
  return [`A frame of ${bytesInWords(sent.bytes)} takes at least ${durationInWords(sent.seconds)}${time} to send`];
}

function paletteInWords({ format, palette, options, array }: Bitmap): string[] {
  if (format.kind !== "palette") return [];
  if (!palette) return ["Its palette is not known: indices are drawn as greys; `palette=` names it"];
  const from = palette.array === array && options.palette === "head" ? "before its pixels" : `of \`${palette.name}\``;
  return [`The ${counted(palette.colours.length, "colour")} ${from}, in ${palette.format.name}`];
}

function storage({ array, layout }: Bitmap): string[] {
  const empty = array.gaps.reduce((sum, gap) => sum + gap.to - gap.from, 0);
  const facts: string[] = [];
  if (array.nul) facts.push("The string ends with a NUL that is not written");
  else if (empty > 0)
    facts.push(`${empty} of ${counted(array.count, "element")} are not written: the compiler fills them with 0`);
  if (array.fixed !== undefined) facts.push(`Can't be painted: ${array.fixed}`);
  if (layout && array.count < layout.elements)
    facts.push(`${array.count} of the ${layout.elements} elements that the picture takes`);
  return facts;
}

/** Where it lies, if that is not flash alone as one would expect. */
function memory({ array }: Bitmap, source: SourceFile): string[] {
  const stored = array.parts ? undefined : storageOf(source, array);
  if (!stored || stored.kind === "flash") return [];
  const { ram } = stored;
  if (stored.kind === "eeprom") return ["Kept in EEPROM"];
  if (stored.kind === "cleared") return [`${bytesInWords(ram)} of RAM, cleared at start; none of flash`];
  return [`${bytesInWords(ram)} of RAM as well as of flash, from which it is copied at start`];
}

/** The annotation's own words, and those of the panel it names. */
function meaning({ annotation, panel }: Bitmap): string {
  if (!annotation) return "An X bitmap: its `_width` and `_height` names say its size.";
  const words = annotation.words.map((w) => w.text).join(" ");
  return `\`@${annotation.marker} ${words}\`${panel ? `, on the panel \`${panel.name}\`` : ""}`;
}
