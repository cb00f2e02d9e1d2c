/** `dotwright/restructure`: other frames or another size of a bitmap, or of several, to edits of the newest version. */
import { type BitmapIdentity, findBitmap, identityOf } from "../../shared/bitmap/edit.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import {
  restructure as restructured,
  restructureTogether as restructuredTogether,
} from "../../shared/bitmap/restructure/restructure.ts";
import type { LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import type { Parsed } from "../documents.ts";
import { edited } from "./edited.ts";
import { worldOf } from "./world.ts";

/** Refuses what `edited` refuses, and changes that an array can't follow (see `restructure` in the core). */
export function restructure(
  parsed: Parsed,
  params: LspParams<"dotwright/restructure">,
): LspReply<"dotwright/restructure"> {
  const { together, change } = params;
  if (together)
    return edited(
      parsed,
      params,
      (file, bitmap) => {
        const set = allOf(file, together);
        return "refused" in set ? set : withFirst(bitmap, restructuredTogether(file, set, change, worldOf(parsed)));
      },
      ({ first, bitmaps }) => ({
        identity: identityOf(bitmaps.find((b) => isOf(b, first)) ?? first),
        together: bitmaps.map(identityOf),
      }),
    );
  return edited(
    parsed,
    params,
    (file, bitmap) => restructured(file, bitmap, change, worldOf(parsed)),
    (done) => ({ identity: identityOf(done.bitmap) }),
  );
}

function allOf(file: BitmapFile, identities: readonly BitmapIdentity[]): Bitmap[] | { readonly refused: string } {
  const found: Bitmap[] = [];
  for (const identity of identities) {
    const bitmap = findBitmap(file, identity);
    if ("refused" in bitmap) return bitmap;
    found.push(bitmap);
  }
  return found;
}

function withFirst<T extends object>(first: Bitmap, made: T | { readonly refused: string }) {
  return "refused" in made ? made : { ...made, first };
}

function isOf({ array: a }: Bitmap, { array: b }: Bitmap): boolean {
  return a.name === b.name && a.ordinal === b.ordinal;
}
