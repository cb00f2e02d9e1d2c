/** Pictures that are brought in: what is chosen for them, and what they would become. */
import type { BitmapIdentity } from "../bitmap/edit.ts";
import type { Range } from "../image/channel.ts";
import type { Channel, Choices, OverCap } from "../image/choices.ts";
import type { Cells } from "../image/sheet.ts";
import type { BitmapInfo, LspPosition, NewBitmapChoices } from "./lsp.ts";

export interface PictureFile {
  readonly name: string;
  /** The bytes of the file in Base64 (RFC 4648). */
  readonly data: string;
}

export interface OpenedPictures {
  readonly id: string;
  readonly kind: "pictures" | "font";
  /** Of the first picture, or the cell of the font. */
  readonly width: number;
  readonly height: number;
  /** How many pictures or glyphs. */
  readonly count: number;
  /** Some pixel is not wholly opaque. */
  readonly transparent: boolean;
}

export type PictureChoices = Choices & {
  /** The cells of a sheet. */
  readonly cells?: Cells;
  /** The characters that are taken of a font, or that pictures show. */
  readonly chars?: string;
  /** The format of a palette that is made. */
  readonly paletteFormat?: string;
};

/** Where the pictures go. */
export type ImportPlace =
  | {
      readonly kind: "new";
      /** The nearest place where a statement may stand. */
      readonly position: LspPosition;
      /** What follows `@bitmap`. Without a size it is the picture's own. */
      readonly words: string;
      /** A free one is chosen where missing. */
      readonly name?: string;
    }
  /** In place of frames of a bitmap, from one on; or behind its last. */
  | { readonly kind: "into"; readonly identity: BitmapIdentity; readonly frame: number }
  | { readonly kind: "further"; readonly identity: BitmapIdentity };

export interface ImportPreview {
  /** The bitmap as it would be read. */
  readonly bitmap: BitmapInfo;
  /** What would be written: the annotation of a new array, else the words of the one that is there. */
  readonly annotation: string;
  /** The frames that hold the pictures, raw values row by row; the first of them is frame `frame` of the bitmap. Of very large ones only the one asked for, the others empty. */
  readonly frames: readonly (readonly number[])[];
  readonly frame: number;
  /** The source as it lies under the bitmap: red, green, blue and alpha, 8 bits each, in Base64. */
  readonly source: { readonly width: number; readonly height: number; readonly data: string };
  readonly notes: readonly string[];
  /** What was taken where nothing was chosen. */
  readonly channel: Channel;
  readonly overCap: OverCap;
  /** How far the channels vary in the size of the bitmap. */
  readonly ranges: readonly Range[];
  /** The channel to take instead of one that is the same everywhere. */
  readonly instead?: Channel;
}

/** As `ImportPlace`, for the page: the extension knows where a new array is to stand. */
export type PagePlace =
  | { readonly kind: "new"; readonly words: string; readonly name?: string }
  | Exclude<ImportPlace, { readonly kind: "new" }>;

/** A bitmap of the file that pictures can go into. */
export interface ImportHome {
  readonly name: string;
  readonly identity: BitmapIdentity;
  readonly width: number;
  readonly height: number;
  readonly frames: number;
  readonly format: string;
  readonly panel?: string;
}

/** What the page begins with. */
export interface ImportBegin {
  /** The files that are brought in, by name. */
  readonly names: readonly string[];
  readonly opened: OpenedPictures;
  /** The source file's name, and the line (from 1) near which a new array would stand. */
  readonly file: string;
  readonly line: number;
  readonly start: NewBitmapChoices;
  readonly homes: readonly ImportHome[];
  /** Where they go unless something else is chosen. */
  readonly place: PagePlace;
  /** What was chosen last, by panel or by the words of the annotation. */
  readonly remembered: Readonly<Record<string, PictureChoices>>;
}

/** What the page of an import asks of the extension. */
export interface ImportToHost {
  readonly ready: { readonly params: Record<string, never>; readonly result: ImportBegin };
  /** What the choices would make; refused in words. Nothing is written. */
  readonly preview: {
    readonly params: { readonly place: PagePlace; readonly choices: PictureChoices; readonly frame: number };
    readonly result: ImportPreview;
  };
  /** One edit, which is one step of undo; then the page is closed. `key` is what the choices are remembered by. */
  readonly write: {
    readonly params: { readonly place: PagePlace; readonly choices: PictureChoices; readonly key: string };
    readonly result: Record<string, never>;
  };
  /** The page is closed, and nothing is written. */
  readonly leave: { readonly params: Record<string, never>; readonly result: Record<string, never> };
}

/** What the extension tells the page of an import. */
export interface ImportToPage {
  /** The document is another one than when the preview was made. */
  readonly changed: {
    readonly params: { readonly line: number; readonly homes: readonly ImportHome[] };
    readonly result: Record<string, never>;
  };
}
