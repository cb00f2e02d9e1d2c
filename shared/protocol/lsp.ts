/**
 * The requests that Dotwright adds to the Language Server Protocol, each once. Every request, reply and handler type is
 * derived from this map. Positions are those of LSP: zero-based lines and UTF-16 columns.
 */
import type { BitmapIdentity, PixelChange } from "../bitmap/edit.ts";
import type { ColourChange } from "../bitmap/recolour.ts";
import type { Restructuring } from "../bitmap/restructure/change.ts";
import type { Supply } from "../light/current.ts";
import type { ImportPlace, ImportPreview, OpenedPictures, PictureChoices, PictureFile } from "./importing.ts";

export interface LspPosition {
  readonly line: number;
  readonly character: number;
}

interface LspRange {
  readonly start: LspPosition;
  readonly end: LspPosition;
}

export interface LspTextEdit {
  readonly range: LspRange;
  readonly newText: string;
}

/** A bitmap of a document, without its pixels. */
export interface BitmapInfo {
  readonly identity: BitmapIdentity;
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly frames: number;
  readonly format: string;
  readonly kind: "mono" | "gray" | "rgb" | "palette";
  /** Highest raw value of the format. */
  readonly most: number;
  /** The level of full light: `most`, or 255 (a channel in eight bits) for colours. See `levelOf` in pixels/colour. */
  readonly full: number;
  /** Highest level allowed. */
  readonly cap?: number;
  /** Highest level whose driven value is within the cap; missing where no value is over it. */
  readonly limit?: number;
  /** What a level means: a share of time lit, or a code value for a screen. */
  readonly light: "linear" | "srgb";
  /** The array that holds the colours of a palette format. */
  readonly palette?: string;
  /** Its colours, 0xRRGGBB, by index. For the colour of any raw value see `rgbOf` in pixels/colour. */
  readonly colours?: readonly number[];
  /** Of the array that holds them, for whoever changes a colour. */
  readonly paletteArray?: PaletteArray;
  /** Code points of the characters of a glyph set, one a frame. */
  readonly characters?: readonly number[];
  /** Widths of the glyphs, one a frame. */
  readonly widths?: readonly number[];
  /** Share of full scale that the firmware drives, above 0 and up to 1. */
  readonly drive: number;
  readonly fps?: number;
  /** What its pixels draw, in milliamperes (see `light/current`), and what a frame may draw. */
  readonly supply?: Supply & { readonly budget?: number };
  /** Seconds that a frame takes to send at least. */
  readonly sending?: number;
  readonly panel?: string;
  readonly tint?: string;
  readonly lattice?: string;
  /** Degrees by which the panel is turned as it hangs, clockwise. */
  readonly mount?: number;
  readonly dot?: string;
  /** Bytes of the array in the memory of the target; 0 where the element type is not known. */
  readonly bytes: number;
  /** From the first word of the statement to the end of the initialiser. */
  readonly declaration: LspRange;
  readonly nameRange: LspRange;
  /** Why there is no picture; it can be shown and edited where this is missing. */
  readonly why?: string;
}

export interface PaletteArray {
  /** The format of its colours. */
  readonly format: string;
  /** Raw values of its colours, by index. */
  readonly values: readonly number[];
  /** Names of the other bitmaps of the file that it colours. */
  readonly others: readonly string[];
  /** Why its numbers can't be written. */
  readonly fixed?: string;
}

/** Where the pixels of a panel sit at its driver. */
export interface WiringInfo {
  readonly panel: string;
  /** The driver's canvas. */
  readonly width: number;
  readonly height: number;
  /** y · width + x on it for each pixel, row by row; missing where what is said is wrong. */
  readonly index?: readonly number[];
  /** What says it: `wire=`, or a table, which counts before it. Neither where nothing is said: row by row. */
  readonly wire?: string;
  readonly table?: string;
}

export interface PictureFrame {
  readonly frame: number;
  /** Raw values, width·height of them, row by row from the top left. */
  readonly pixels: readonly number[];
  /**
   * Where each pixel's element is written: four numbers for each pixel, its first line and column and its last line
   * and column (exclusive); all -1 for a pixel that is not written. Only where asked for.
   */
  readonly elements?: readonly number[];
}

/** A row of a bitmap, or a column or a band of 8 rows where that is how its pixels are packed. */
export interface RowPixels {
  readonly frame: number;
  /** Where it lies in the frame. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** The line of the text on which the last of its written elements begins. */
  readonly line: number;
  /** Raw values, width·height of them, row by row. */
  readonly pixels: readonly number[];
}

/** Elements that the compiler fills with zero, and the closing brace of the list that ends early. */
interface ZeroFill extends LspPosition {
  readonly count: number;
}

/** The written elements of a bitmap that begin on a line of the text. */
export interface NumbersOfLine {
  readonly line: number;
  /**
   * Four numbers for each element that holds pixels, in order of the text: its column, its length on this line, and
   * the mean and the highest raw value of its pixels. Of colours: their mean as 0xRRGGBB, and the highest level.
   */
  readonly numbers: readonly number[];
}

/** What some lines of the text hold of a bitmap. */
export interface BitmapLines {
  /** The lines on which written elements begin that hold pixels, in order. */
  readonly numbers: readonly NumbersOfLine[];
  /** Those whose closing brace is on these lines. */
  readonly zeros: readonly ZeroFill[];
  /** Those that end on these lines, in order of the text. Only where asked for. */
  readonly rows?: readonly RowPixels[];
}

/** A glyph set whose glyphs are greys or lit and dark. */
export interface GlyphSetInfo {
  /** The document that it is in, a header that this includes, or another document that is open. */
  readonly uri: string;
  readonly identity: BitmapIdentity;
  readonly name: string;
  readonly width: number;
  readonly height: number;
  /** The raw value of full light: the highest within its cap, else of its format. */
  readonly full: number;
  /** Code points, one a glyph. */
  readonly characters: readonly number[];
  /** Widths of the glyphs, where they differ. */
  readonly widths?: readonly number[];
}

export interface Glyph {
  readonly character: number;
  /** Raw values, width·height of the set's, row by row from the top left. */
  readonly pixels: readonly number[];
}

/** What computes the frames of a bitmap: its `@motion`. The model is `shared/motion/kernel`. */
export interface MotionInfo {
  /** The words of the annotation by option, without the key: `soft` is "90". */
  readonly words: Readonly<Record<string, string>>;
  /** Levels and mask values, width·height of them, row by row. */
  readonly image: readonly number[];
  readonly mask: readonly number[];
  readonly soft: number;
  readonly rim: number;
  readonly level: number;
  readonly from: number;
  readonly to: number;
  /** How far from frame to frame; missing where `count`, the frames one way, follow from `seconds`. */
  readonly step?: number;
  readonly count: number;
  readonly ease: "linear" | "cubic-in" | "cubic-out" | "cubic-in-out";
  readonly loop: "once" | "around" | "there-and-back";
  /** The highest level that is shown. */
  readonly cap: number;
  /** Frames that baking writes. */
  readonly bakes: number;
  /** The array does not hold them. */
  readonly stale: boolean;
}

/** What a new bitmap can be begun with. */
export interface NewBitmapChoices {
  readonly panels: readonly {
    readonly name: string;
    readonly width: number;
    readonly height: number;
    /** Missing where the panel leaves it to its bitmaps. */
    readonly format?: string;
  }[];
  /** Sizes such as `9x9`: those of this file, then usual ones. */
  readonly sizes: readonly string[];
  /** All formats, with the bits of a pixel. */
  readonly formats: readonly { readonly name: string; readonly depth: number }[];
}

/** A picture read out of text. */
export interface ReadPicture {
  readonly width: number;
  readonly height: number;
  /** Raw values, width·height of them, row by row from the top left. */
  readonly pixels: readonly number[];
  /** What they mean; missing for numbers without an annotation. */
  readonly values?: Pick<BitmapInfo, "format" | "kind" | "most" | "light" | "colours">;
}

/** What a copy of a bitmap as text can be made as. */
export interface CopyChoice {
  readonly format: string;
  /** Format and packing, as the annotation has them after the size. */
  readonly words: string;
  /** How pixels become elements, in words. */
  readonly packing: string;
  /** Pixels that look otherwise in it. */
  readonly lost: number;
}

/** A bitmap that looks otherwise in another version of its file. */
export interface ComparedInfo {
  /** Which array it is: of the newer version, or of the older one where it is gone. */
  readonly name: string;
  readonly ordinal: number;
  readonly kind: "added" | "removed" | "renamed" | "changed";
  /** What differs: `14 of 81 pixels changed, up to +32`. */
  readonly words: string;
}

/** One version of a bitmap that is compared. */
export interface ComparedSide {
  readonly bitmap: BitmapInfo;
  /** Those that are compared. */
  readonly frames: readonly PictureFrame[];
}

/** A frame that looks otherwise. */
interface ComparedFrame {
  readonly frame: number;
  /** Pixels of the newer version, counted row by row from the top left. */
  readonly changed: readonly number[];
  /** Such as `14 pixels, up to +32`. */
  readonly words: string;
}

export interface ComparedPicture {
  readonly name: string;
  readonly ordinal: number;
  readonly words: string;
  readonly before?: ComparedSide;
  readonly after?: ComparedSide;
  readonly changed: readonly ComparedFrame[];
}

/** A bitmap in the gallery of the workspace. */
export interface GalleryEntry {
  readonly identity: BitmapIdentity;
  /** From 1, of the name. */
  readonly line: number;
  readonly format: string;
  readonly panel?: string;
  /** Such as `9×9 gray8 · 81 bytes · peak 64 of cap 64`. */
  readonly facts: string;
  /** How many findings there are about it, the worst of them, and the first of these in words. */
  readonly findings?: {
    readonly count: number;
    readonly worst: "error" | "warning" | "information";
    readonly first: string;
  };
  /** There is no picture of it. */
  readonly pictureless?: boolean;
}

/** A file of the workspace that holds bitmaps. */
export interface GalleryFile {
  readonly uri: string;
  /** As people know it. */
  readonly title: string;
  readonly bitmaps: readonly GalleryEntry[];
}

/** Every request of ours: what is sent and what comes back where all went well. */
interface LspRequests {
  "dotwright/bitmaps": {
    readonly params: { readonly uri: string };
    readonly result: {
      readonly version: number;
      readonly bitmaps: readonly BitmapInfo[];
      /** Functions that are played as code: what their frames look like. They have no numbers of their own. */
      readonly live?: readonly BitmapInfo[];
    };
  };
  /** Frames of a function that is played as code; played in slices, so that any question is answered soon. */
  "dotwright/liveFrames": {
    readonly params: {
      readonly uri: string;
      readonly identity: BitmapIdentity;
      /** The first frame, from 0. */
      readonly from: number;
      /** As many as are wanted; fewer may come, the rest can be asked for again. */
      readonly count: number;
    };
    readonly result: {
      readonly version: number;
      /** Raw values, row by row. */
      readonly frames: readonly (readonly number[])[];
      /** Why there is no frame after these. */
      readonly stopped?: string;
    };
  };
  "dotwright/picture": {
    readonly params: {
      readonly uri: string;
      readonly identity: BitmapIdentity;
      /** Which frames; only the first where missing. */
      readonly frames?: readonly number[];
      /** Also tell where each pixel's element is written. */
      readonly elements?: boolean;
      /** Also tell what these lines hold, from the first to the last. */
      readonly lines?: readonly [number, number];
      /** And their rows. */
      readonly rows?: boolean;
      /** Also tell of the motion that its frames are of. */
      readonly motion?: boolean;
      /** Also tell how its panel is wired. */
      readonly wiring?: boolean;
    };
    readonly result: {
      readonly version: number;
      readonly bitmap: BitmapInfo;
      readonly frames: readonly PictureFrame[];
      /** Highest raw value of all frames; missing where the cap or the format says what full light is. */
      readonly peak?: number;
      readonly lines?: BitmapLines;
      readonly motion?: MotionInfo;
      /** Where it was asked for, and the bitmap is all of a panel. */
      readonly wiring?: WiringInfo;
    };
  };
  /** Other words in the `@motion` of a bitmap. */
  "dotwright/changeMotion": {
    readonly params: {
      readonly uri: string;
      /** The version that the painter saw. */
      readonly version: number;
      readonly identity: BitmapIdentity;
      /** By option the new value; null takes the word away. */
      readonly words: Readonly<Record<string, string | null>>;
    };
    /** Edits of the version named here, which is the newest one. */
    readonly result: { readonly version: number; readonly edits: readonly LspTextEdit[] };
  };
  /** The frames of its `@motion` written into a bitmap. */
  "dotwright/bake": {
    readonly params: { readonly uri: string; readonly version: number; readonly identity: BitmapIdentity };
    /** Edits of the version named here, which is the newest one, and what the bitmap is found by after them. */
    readonly result: {
      readonly version: number;
      readonly edits: readonly LspTextEdit[];
      readonly identity: BitmapIdentity;
    };
  };
  "dotwright/paint": {
    readonly params: {
      readonly uri: string;
      /** The version that the painter saw. */
      readonly version: number;
      readonly identity: BitmapIdentity;
      readonly changes: readonly PixelChange[];
    };
    /** Edits of the version named here, which is the newest one. */
    readonly result: { readonly version: number; readonly edits: readonly LspTextEdit[] };
  };
  /** Writes what the wiring of a bitmap's panel was found to be: as `wire=`, or as a table where no words say it. */
  "dotwright/wire": {
    readonly params: {
      readonly uri: string;
      /** The version that the finder saw. */
      readonly version: number;
      readonly identity: BitmapIdentity;
      /** The address of each pixel, row by row. */
      readonly index: readonly number[];
      readonly wire?: string;
    };
    /** Edits of the version named here, which is the newest one. */
    readonly result: { readonly version: number; readonly edits: readonly LspTextEdit[] };
  };
  "dotwright/glyphWidth": {
    readonly params: {
      readonly uri: string;
      readonly identity: BitmapIdentity;
      readonly frame: number;
      /** In columns. */
      readonly width: number;
    };
    /** Edits of the version named here, which is the newest one. */
    readonly result: { readonly version: number; readonly edits: readonly LspTextEdit[] };
  };
  /** Another colour for an index of a bitmap's palette, which changes every bitmap that has this palette. */
  "dotwright/recolour": {
    readonly params: {
      readonly uri: string;
      /** The version that the painter saw. */
      readonly version: number;
      readonly identity: BitmapIdentity;
    } & ColourChange;
    /** Edits of the version named here, which is the newest one. */
    readonly result: { readonly version: number; readonly edits: readonly LspTextEdit[] };
  };
  "dotwright/glyphs": {
    readonly params: {
      readonly uri: string;
      /** The glyphs of some characters of a set; those that it lacks are left out of the answer. */
      readonly wanted?: {
        readonly uri: string;
        readonly identity: BitmapIdentity;
        readonly characters: readonly number[];
      };
    };
    readonly result: {
      readonly version: number;
      /** The glyph sets of the document, of the headers that it includes and of what else is open; of one name in one file the first. */
      readonly sets: readonly GlyphSetInfo[];
      readonly glyphs: readonly Glyph[];
    };
  };
  /** Pixels in the format of a bitmap as an array of their own, in the style of its file. */
  "dotwright/copied": {
    readonly params: {
      readonly uri: string;
      readonly identity: BitmapIdentity;
      readonly width: number;
      readonly height: number;
      /** Raw values, width·height of them, row by row. */
      readonly pixels: readonly number[];
    };
    readonly result: { readonly text: string };
  };
  /** What picture a text is that would be pasted into the document; refused in words where it is none. */
  "dotwright/pasted": {
    readonly params: {
      readonly uri: string;
      readonly text: string;
      /** Pixels in a row where the text does not tell. */
      readonly width: number;
    };
    readonly result: ReadPicture;
  };
  "dotwright/restructure": {
    readonly params: {
      readonly uri: string;
      /** The version that the painter saw. */
      readonly version: number;
      readonly identity: BitmapIdentity;
      /** All arrays of a set in the order of the text, this one among them: the change is about their frames, counted through. */
      readonly together?: readonly BitmapIdentity[];
      readonly change: Restructuring;
    };
    /**
     * Edits of the version named here, which is the newest one, and what the bitmap is found by after them; of a set what all
     * its arrays are found by, new ones among them.
     */
    readonly result: {
      readonly version: number;
      readonly edits: readonly LspTextEdit[];
      readonly identity: BitmapIdentity;
      readonly together?: readonly BitmapIdentity[];
    };
  };
  /** A bitmap as the bytes of a picture file. */
  "dotwright/export": {
    readonly params: {
      readonly uri: string;
      readonly identity: BitmapIdentity;
      readonly format: "png" | "apng" | "svg" | "xbm" | "pbm" | "pgm" | "ppm";
      /** Raw values, cells in the light that they give, or the lamps of the panel. */
      readonly look: "values" | "cells" | "panel";
      /** From 0; an APNG has all frames where it is missing. */
      readonly frame?: number;
      /** Screen pixels to a pixel; what is usual where it is missing. */
      readonly scale?: number;
    };
    /** What must be said of it: that it flashes more than is safe for all who see it. */
    readonly result: { readonly base64: string; readonly caution?: string };
  };
  "dotwright/copyChoices": {
    readonly params: { readonly uri: string; readonly identity: BitmapIdentity };
    readonly result: { readonly choices: readonly CopyChoice[] };
  };
  /** All frames of a bitmap as an array of their own, in another format and packing. */
  "dotwright/copyAs": {
    readonly params: { readonly uri: string; readonly identity: BitmapIdentity; readonly words: string };
    readonly result: { readonly text: string };
  };
  /** The bitmaps of a document that look otherwise than in another version of its text. */
  "dotwright/compare": {
    readonly params: {
      readonly uri: string;
      /** The text of the older version. */
      readonly before: string;
      /** The bitmap whose pictures are wanted; the first that differs where it is missing or the same. */
      readonly wanted?: { readonly name: string; readonly ordinal: number };
    };
    readonly result: {
      readonly version: number;
      readonly differences: readonly ComparedInfo[];
      readonly shown?: ComparedPicture;
    };
  };
  /** Reads pictures or a font, and keeps them for `dotwright/importPicture`; refused in words where one can't be read. */
  "dotwright/openPictures": {
    readonly params: { readonly files: readonly PictureFile[] };
    readonly result: OpenedPictures;
  };
  /** What opened pictures become in a document, and the edits that write it. */
  "dotwright/importPicture": {
    readonly params: {
      readonly uri: string;
      /** Of `dotwright/openPictures`. */
      readonly id: string;
      readonly place: ImportPlace;
      readonly choices: PictureChoices;
      /** Of which picture the source is shown. */
      readonly frame?: number;
    };
    readonly result: ImportPreview & {
      readonly version: number;
      /** Edits of that version. */
      readonly edits: readonly LspTextEdit[];
    };
  };
  /** The files of the workspace that hold annotations or X bitmaps, stored and open, in order of their names. */
  "dotwright/galleryFiles": {
    readonly params: Record<string, never>;
    /** `complete` once all files have been looked through. */
    readonly result: { readonly uris: readonly string[]; readonly complete: boolean };
  };
  /** What one of them holds; it need not be open. */
  "dotwright/galleryFile": {
    readonly params: { readonly uri: string };
    readonly result: GalleryFile;
  };
  /** Small pictures of its bitmaps as `data:` URIs, one pixel to a pixel where that is small enough. */
  "dotwright/galleryPictures": {
    readonly params: {
      readonly uri: string;
      readonly wanted: readonly { readonly name: string; readonly ordinal: number }[];
    };
    readonly result: { readonly pictures: readonly (string | null)[] };
  };
  "dotwright/newBitmapChoices": {
    readonly params: { readonly uri: string };
    readonly result: NewBitmapChoices;
  };
  "dotwright/newBitmap": {
    readonly params: {
      readonly uri: string;
      /** It is put at the nearest place where a statement may stand. */
      readonly position: LspPosition;
      /** What follows `@bitmap`: a size or a panel, then the format and options. */
      readonly words: string;
      /** A free one is chosen where missing. */
      readonly name?: string;
      /** Only judge the words and the name: there are no edits then. */
      readonly judge?: boolean;
    };
    readonly result: {
      readonly version: number;
      /** Edits of that version: annotation and array, all pixels dark. */
      readonly edits: readonly LspTextEdit[];
      readonly name: string;
      /** Where the name stands after the edits. */
      readonly nameRange: LspRange;
      readonly elements: number;
      /** The words give a format, or the panel does. */
      readonly formatGiven: boolean;
      /** The words give a number of frames. */
      readonly framesGiven: boolean;
    };
  };
}

export type LspMethod = keyof LspRequests;
export type LspParams<M extends LspMethod> = LspRequests[M]["params"];
export type LspResult<M extends LspMethod> = LspRequests[M]["result"];

/** A reply always comes: the result, or in words why there is none. */
export type LspReply<M extends LspMethod> = { readonly ok: LspResult<M> } | { readonly err: string };

/** One function for every request. */
export type LspHandlers = {
  readonly [M in LspMethod]: (params: LspParams<M>) => LspReply<M> | Promise<LspReply<M>>;
};

/**
 * What a client that says `files: true` in its initialisation options is asked: the text of a file that lies where
 * only the client reads, `{uri}` to `StoredFile`, or null where there is none. With `worth: true` it may also answer
 * null where the text holds neither an annotation nor an X bitmap (`isWorthReading`).
 */
export const READ_FILE = "dotwright/readFile";

export interface StoredFile {
  readonly text: string;
}

/** And the source files of all its folders, `{most}` to `FoundFiles`: at most about so many. */
export const FIND_FILES = "dotwright/findFiles";

export interface FoundFiles {
  readonly uris: readonly string[];
}

/**
 * Checks all files of the workspace now, with work-done progress where `workDoneToken` is given: to `CheckedWorkspace`.
 * From then on findings of files that are not open are told, also where the setting is off.
 */
export const CHECK_WORKSPACE = "dotwright/checkWorkspace";

/** How many files with annotations or X bitmaps there are, and what was found in them. */
export interface CheckedWorkspace {
  readonly files: number;
  readonly error: number;
  readonly warning: number;
  readonly information: number;
}

/** What such a client is told, as `Reread`: the text of these documents is the same, what it means has changed. */
export const REREAD = "dotwright/reread";

export interface Reread {
  readonly uris: readonly string[];
}

/**
 * What a client is told that has asked for the gallery, as `GalleryChanged`: these files hold other bitmaps than before,
 * or any may, and there may be others.
 */
export const GALLERY_CHANGED = "dotwright/galleryChanged";

export interface GalleryChanged {
  /** Any may have changed where it is missing. */
  readonly uris?: readonly string[];
}

/** What would bring all bitmaps of the workspace within cap and budget, with work-done progress as `CHECK_WORKSPACE`. */
export const DIM_WORKSPACE = "dotwright/dimWorkspace";

export interface DimWorkspace {
  readonly way: "clamp" | "linear" | "even";
}

export interface DimmedWorkspace {
  readonly files: readonly {
    readonly uri: string;
    /** Of the text that the edits are meant for (`fingerprintOf` in source/text). */
    readonly fingerprint: string;
    readonly bitmaps: readonly {
      readonly name: string;
      /** From 0. */
      readonly line: number;
      /** What is done to it, or why it is left; then without edits. */
      readonly words: string;
      readonly edits: readonly LspTextEdit[];
    }[];
  }[];
}
