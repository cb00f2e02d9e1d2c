/** What the page that compares two versions of a bitmap and the extension say to each other. */
import type { ComparedInfo, ComparedPicture } from "./lsp.ts";

/** Which of the bitmaps that differ. */
type Which = Pick<ComparedInfo, "name" | "ordinal">;

export interface CompareToHost {
  /** The page can take messages. */
  readonly ready: { readonly params: Record<string, never>; readonly result: Record<string, never> };
  /** Another bitmap is to be shown. */
  readonly choose: { readonly params: Which; readonly result: Record<string, never> };
  /** The source of a bitmap is to be shown. */
  readonly source: { readonly params: Which; readonly result: Record<string, never> };
}

export interface Compared {
  /** The name of the file. */
  readonly file: string;
  /** The two versions in words, such as `HEAD` and `now`. */
  readonly versions: readonly [before: string, after: string];
  readonly differences: readonly ComparedInfo[];
  readonly shown?: ComparedPicture;
}

export interface CompareToPage {
  readonly show: { readonly params: Compared; readonly result: Record<string, never> };
  /** There is nothing to compare with, and why. */
  readonly nothing: { readonly params: { readonly why: string }; readonly result: Record<string, never> };
}
