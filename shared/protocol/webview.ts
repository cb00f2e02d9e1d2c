/** What the paint editor's page and the extension say to each other, each message once. */
import type { BitmapIdentity, PixelChange } from "../bitmap/edit.ts";
import type { ColourChange } from "../bitmap/recolour.ts";
import type { Restructuring } from "../bitmap/restructure/change.ts";
import type { PictureFile } from "./importing.ts";
import type { BitmapInfo, LspParams, LspResult, MotionInfo, ReadPicture, WiringInfo } from "./lsp.ts";

/** For several arrays that are shown as one set: which of them each frame is of. */
export interface FrameNames {
  readonly frameNames?: readonly string[];
}

/** Another bitmap of the file that can be painted. */
export interface Other {
  readonly name: string;
  readonly identity: BitmapIdentity;
  /** Its pixels mean the same and there are as many: it can be shown together with the one at hand. */
  readonly alike?: boolean;
  /** It is shown now, alone or with others. */
  readonly shown?: boolean;
}

/** A bitmap with all its frames, as of one version of the document; or several of them as one set of frames. */
export interface Shown {
  readonly version: number;
  readonly bitmap: BitmapInfo & FrameNames;
  /** Raw values of each frame, row by row from the top left. */
  readonly frames: readonly (readonly number[])[];
  /** For each frame the source line (from 1) on which each row's first element is written; 0 where it is not. */
  readonly rowLines: readonly (readonly number[])[];
  /** For each frame the pixels that are not written, which the compiler fills with 0. */
  readonly unwritten: readonly (readonly number[])[];
  /** All bitmaps of the file that can be painted, in the order of its text. */
  readonly others: readonly Other[];
  /** The document can't be changed: show only. */
  readonly readOnly: boolean;
  /** A function draws these frames: they are looked at, not painted. */
  readonly live?: true;
  /** Findings about this bitmap. */
  readonly findings: readonly ShownFinding[];
  /** What computes its frames. */
  readonly motion?: MotionInfo;
  /** Of a bitmap that is all of a panel. */
  readonly wiring?: WiringInfo;
}

export interface ShownFinding {
  readonly severity: "error" | "warning" | "information";
  readonly message: string;
  /** Where in the picture it is; missing for one about the bitmap as a whole. */
  readonly place?: FindingPlace;
}

/** Pixels are counted row by row from the top left of their frame. */
export type FindingPlace =
  | { readonly on: "pixels"; readonly frame: number; readonly pixels: readonly number[] }
  | { readonly on: "rows"; readonly frame: number; readonly rows: readonly number[] }
  | { readonly on: "frame"; readonly frame: number }
  /** Where the array ends. */
  | { readonly on: "end" };

/** A pixel of a frame. */
export interface Place {
  readonly frame: number;
  readonly x: number;
  readonly y: number;
}

/** What the page asks of the extension. */
export interface ToHost {
  /** The page can take messages; the extension answers with `show` or `nothing`. */
  readonly ready: { readonly params: Record<string, never>; readonly result: Record<string, never> };
  /** One stroke: the extension makes one edit of it, which is one step of undo. */
  readonly paint: {
    readonly params: {
      readonly version: number;
      readonly identity: BitmapIdentity;
      readonly changes: readonly PixelChange[];
    };
    /** The version after the edit. */
    readonly result: { readonly version: number };
  };
  /** The glyph of a frame is to be so many columns wide: one edit, which is one step of undo. */
  readonly glyphWidth: {
    readonly params: { readonly identity: BitmapIdentity; readonly frame: number; readonly width: number };
    /** The version after the edit. */
    readonly result: { readonly version: number };
  };
  /** Another colour in the bitmap's palette: one edit, which is one step of undo. */
  readonly recolour: {
    readonly params: { readonly version: number; readonly identity: BitmapIdentity } & ColourChange;
    /** The version after the edit. */
    readonly result: { readonly version: number };
  };
  /** What the wiring of the panel was found to be: one edit, which is one step of undo. */
  readonly wire: {
    readonly params: Omit<LspParams<"dotwright/wire">, "uri">;
    /** The version after the edit. */
    readonly result: { readonly version: number };
  };
  /** Other frames, another size or speed: the extension makes one edit of it, and shows the same bitmap again. */
  readonly restructure: {
    readonly params: {
      readonly version: number;
      readonly identity: BitmapIdentity;
      readonly change: Restructuring;
    };
    /** The version after the edit. */
    readonly result: { readonly version: number };
  };
  /** Other words in the bitmap's motion: one edit, which is one step of undo. */
  readonly changeMotion: {
    readonly params: Omit<LspParams<"dotwright/changeMotion">, "uri">;
    /** The version after the edit. */
    readonly result: { readonly version: number };
  };
  /** The frames of the motion written anew: one edit, and the same bitmap is shown again. */
  readonly bake: {
    readonly params: Omit<LspParams<"dotwright/bake">, "uri">;
    /** The version after the edit. */
    readonly result: { readonly version: number };
  };
  /** The pixel cursor has moved: the text cursor follows to its number. */
  readonly reveal: {
    readonly params: {
      readonly identity: BitmapIdentity;
      readonly place: Place;
      /** Pixels of this frame that were selected: their numbers become what is selected in the text. */
      readonly pixels?: readonly number[];
    };
    readonly result: Record<string, never>;
  };
  /** Pixels as text in C. */
  readonly copied: {
    readonly params: Omit<LspParams<"dotwright/copied">, "uri">;
    readonly result: { readonly text: string };
  };
  /** Puts text on the clipboard, where the page may not. */
  readonly toClipboard: { readonly params: { readonly text: string }; readonly result: Record<string, never> };
  /** The picture that a text is; the text on the clipboard where there is none. */
  readonly pasted: {
    readonly params: { readonly text?: string; readonly width: number };
    readonly result: ReadPicture;
  };
  /** The glyph sets that text can be written with, and glyphs of them. */
  readonly glyphs: {
    readonly params: Omit<LspParams<"dotwright/glyphs">, "uri">;
    readonly result: Omit<LspResult<"dotwright/glyphs">, "version">;
  };
  /** Pictures were dropped on the page: an import begins that would put them in place of this frame. */
  readonly pictures: {
    readonly params: {
      readonly identity: BitmapIdentity;
      readonly frame: number;
      readonly files: readonly PictureFile[];
    };
    readonly result: Record<string, never>;
  };
  /** Another bitmap of the file is wanted, perhaps with others as one set. */
  readonly choose: {
    readonly params: { readonly identity: BitmapIdentity; readonly together?: readonly BitmapIdentity[] };
    readonly result: Record<string, never>;
  };
}

/** What the extension asks of the page. */
export interface ToPage {
  readonly show: { readonly params: Shown; readonly result: Record<string, never> };
  /** There is no bitmap to show, and why. */
  readonly nothing: { readonly params: { readonly why: string }; readonly result: Record<string, never> };
  /** Plays the frames, as the word Play does. */
  readonly play: { readonly params: Record<string, never>; readonly result: Record<string, never> };
  /** The text cursor stands on the number of this pixel; or the selection goes over the numbers of several. */
  readonly cursor: {
    readonly params: Place & { readonly pixels?: readonly number[] };
    readonly result: Record<string, never>;
  };
}
