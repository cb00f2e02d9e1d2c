/** `dotwright/openPictures` and `dotwright/importPicture`: pictures from outside, what they become, and the edits. */

import { TextDocument } from "vscode-languageserver-textdocument";
import { findBitmap } from "../../shared/bitmap/edit.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import type { Source } from "../../shared/image/art.ts";
import { artOf, charactersFrom } from "../../shared/image/art.ts";
import { rangesOf } from "../../shared/image/channel.ts";
import { fitted, sourceView } from "../../shared/image/fit.ts";
import { intoBitmap } from "../../shared/image/into.ts";
import type { Art } from "../../shared/image/write.ts";
import { newPicture } from "../../shared/image/write.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import type { RgbaPicture } from "../../shared/pixels/rgba.ts";
import type { PictureChoices } from "../../shared/protocol/importing.ts";
import type { LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import { freeName, nameProblem } from "../../shared/source/identifiers.ts";
import type { TextEdit } from "../../shared/source/text.ts";
import { base64 } from "../dataUri.ts";
import type { Parsed } from "../documents.ts";
import { infoOf } from "./bitmaps.ts";
import { textEdits } from "./place.ts";
import { worldOf } from "./world.ts";

type Refused = { readonly refused: string };

interface Kept {
  readonly sources: readonly Source[];
  /** Words for a name, from that of the first file. */
  readonly name: string;
}

/** Pictures that were opened, until others take their room. */
export interface Pictures {
  open(params: LspParams<"dotwright/openPictures">): Promise<LspReply<"dotwright/openPictures">>;
  get(id: string): Kept | undefined;
}

const MOST_KEPT = 4;

/** Pixels of all frames up to which all of them are told: 65,536; else only the one that is shown. */
const MOST_SHOWN = 1 << 16;

export function createPictures(read: (bytes: Uint8Array) => Promise<Source | Refused>): Pictures {
  const kept = new Map<string, Kept>();
  let last = 0;
  return {
    async open({ files }) {
      const sources: Source[] = [];
      for (const { name, data } of files) {
        const source = await read(Uint8Array.from(Buffer.from(data, "base64")));
        if ("refused" in source) return { err: `${name}: ${source.refused}` };
        sources.push(source);
      }
      const [first] = sources;
      if (!first) return { err: "There is no picture." };
      if (sources.length > 1 && sources.some(({ kind }) => kind === "font"))
        return { err: "A font is brought in by itself, not with other files." };
      const id = String(++last);
      const name = (files[0]?.name ?? "")
        .replace(/^.*[\\/]/, "")
        .replace(/\..*$/, "")
        .replace(/\W+/g, "_");
      kept.set(id, { sources, name: nameProblem(name) === undefined ? name : "" });
      for (const oldest of kept.keys()) if (kept.size > MOST_KEPT) kept.delete(oldest);
      return { ok: { id, ...toldOf(first, sources) } };
    },
    get: (id) => kept.get(id),
  };
}

function toldOf(first: Source, sources: readonly Source[]) {
  if (first.kind === "font") {
    const { width, height, glyphs } = first.font;
    return { kind: "font", width, height, count: glyphs.length, transparent: false } as const;
  }
  const { width, height } = first.picture;
  const transparent = sources.some((source) => source.kind === "picture" && isTransparent(source.picture));
  return { kind: "pictures", width, height, count: sources.length, transparent } as const;
}

function isTransparent({ data, most }: RgbaPicture): boolean {
  for (let i = 3; i < data.length; i += 4) if (data[i] !== most) return true;
  return false;
}

/** Refuses pictures that are no longer kept, and all that gives no bitmap, in words. */
export function importPicture(
  parsed: Parsed,
  params: LspParams<"dotwright/importPicture">,
  pictures: Pictures,
): LspReply<"dotwright/importPicture"> {
  const kept = pictures.get(params.id);
  if (!kept) return { err: "The pictures are no longer open." };
  const art = artFor(kept.sources, params.choices);
  if ("refused" in art) return { err: art.refused };
  const done = doneIn(parsed, params, art, kept.name);
  if ("refused" in done) return { err: done.refused };
  const { bitmap, file, brought, edits, frame } = done;
  const { uri, languageId, version } = parsed.document;
  const document = TextDocument.create(uri, languageId, version, file.source.text);
  const shown = art.pictures[params.frame ?? 0] ?? (art.pictures[0] as RgbaPicture);
  const source = sourceView(shown, bitmap, params.choices);
  if ("refused" in source) return { err: source.refused };
  const few = brought.frames.length * bitmap.width * bitmap.height <= MOST_SHOWN;
  return {
    ok: {
      version: parsed.version,
      edits: textEdits(parsed.document, edits),
      bitmap: infoOf({ document, file }, bitmap),
      annotation: annotationOf(file, bitmap),
      frames: brought.frames.map((_, i) =>
        few || i === params.frame ? Array.from(pixelsOf(bitmap, frame + i) ?? []) : [],
      ),
      frame,
      source: {
        width: source.width,
        height: source.height,
        data: base64(source.data as Uint8Array),
      },
      notes: [...art.notes, ...brought.notes],
      channel: brought.channel,
      overCap: brought.overCap,
      ranges: rangesOf(fittedOf(art, bitmap, params.choices), params.choices),
      ...(brought.instead ? { instead: brought.instead } : {}),
    },
  };
}

function artFor(sources: readonly Source[], { cells, chars }: PictureChoices) {
  const points = chars === undefined || chars === "" ? undefined : charactersFrom(chars);
  if (chars && !points) return { refused: `“${chars}” are no characters` };
  return artOf(sources, { cells, chars: points });
}

interface Done {
  readonly file: BitmapFile;
  readonly bitmap: Bitmap;
  readonly brought: { readonly frames: readonly unknown[]; readonly notes: readonly string[] } & Pick<
    Extract<ReturnType<typeof intoBitmap>, { readonly brought: unknown }>["brought"],
    "channel" | "overCap" | "instead"
  >;
  readonly edits: readonly TextEdit[];
  readonly frame: number;
}

function doneIn(
  parsed: Parsed,
  { place, choices }: LspParams<"dotwright/importPicture">,
  art: Art,
  own: string,
): Done | Refused {
  const { file, document } = parsed;
  if (place.kind !== "new") {
    const bitmap = findBitmap(file, place.identity);
    if ("refused" in bitmap) return bitmap;
    const at = place.kind === "further" ? "further" : place.frame;
    return intoBitmap(file, bitmap, art.pictures, choices, at, worldOf(parsed));
  }
  const name = place.name ?? freeName(file.source.text, own === "" ? "picture" : own);
  const format = choices.paletteFormat === undefined ? undefined : FORMATS.get(choices.paletteFormat);
  const offset = document.offsetAt(place.position);
  const made = newPicture(file, art, {
    words: place.words,
    name,
    offset,
    choices,
    ...(format ? { paletteFormat: format } : {}),
  });
  return "refused" in made ? made : { ...made, edits: [made.edit], frame: 0 };
}

/** The pictures in the size of the bitmap, as its levels are made of them. */
function fittedOf({ pictures }: Art, size: Bitmap, choices: PictureChoices): RgbaPicture[] {
  return pictures.flatMap((picture) => {
    const fit = fitted(picture, size, choices);
    return "refused" in fit ? [] : [fit.picture];
  });
}

/** The comment as it would stand in the file. */
function annotationOf({ source: { text } }: BitmapFile, { annotation }: Bitmap): string {
  return annotation ? text.slice(annotation.comment.start, annotation.comment.end).trim() : "";
}
