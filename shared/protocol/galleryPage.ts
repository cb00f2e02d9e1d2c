/** What the gallery's page and the extension say to each other. */
import type { BitmapIdentity } from "../bitmap/edit.ts";
import type { GalleryFile } from "./lsp.ts";

/** A bitmap of a file. */
interface InFile {
  readonly uri: string;
  readonly name: string;
  readonly ordinal: number;
}

export interface GalleryToHost {
  /** The page can take messages. */
  readonly ready: { readonly params: Record<string, never>; readonly result: Record<string, never> };
  /** Pictures of bitmaps of one file; null for one that has none or has gone. */
  readonly pictures: {
    readonly params: { readonly uri: string; readonly wanted: readonly Pick<InFile, "name" | "ordinal">[] };
    readonly result: { readonly pictures: readonly (string | null)[] };
  };
  /** The source is to be shown at the array. */
  readonly open: { readonly params: InFile; readonly result: Record<string, never> };
  readonly paint: {
    readonly params: { readonly uri: string; readonly identity: BitmapIdentity };
    readonly result: Record<string, never>;
  };
}

export interface GalleryToPage {
  /** Files that are new or have changed, and those that hold bitmaps no more. */
  readonly files: {
    readonly params: {
      readonly files: readonly GalleryFile[];
      readonly gone: readonly string[];
      /** How many files are still to be read. */
      readonly left: number;
    };
    readonly result: Record<string, never>;
  };
  /** Why there is no gallery. */
  readonly nothing: { readonly params: { readonly why: string }; readonly result: Record<string, never> };
}
