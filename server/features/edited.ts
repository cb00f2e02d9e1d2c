/** What the requests that change a bitmap have in common: it is found again in the newest version, and edits are made. */
import { type BitmapIdentity, findBitmap } from "../../shared/bitmap/edit.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import type { LspTextEdit } from "../../shared/protocol/lsp.ts";
import type { TextEdit } from "../../shared/source/text.ts";
import type { Parsed } from "../documents.ts";
import { textEdits } from "./place.ts";

/** What the painter saw: the bitmap and, where it is known, the version. */
interface Seen {
  readonly version?: number;
  readonly identity: BitmapIdentity;
}

type Edits = { readonly edits: readonly TextEdit[] };
type Reply<A> =
  | { readonly err: string }
  | { readonly ok: { readonly version: number; readonly edits: LspTextEdit[] } & A };

/**
 * Edits of the newest version, with what `also` tells of them. Refuses a version that has not arrived yet, a bitmap
 * that is not surely the one meant, and what `make` refuses.
 */
export function edited<E extends Edits, A extends object>(
  { version, document, file }: Parsed,
  seen: Seen,
  make: (file: BitmapFile, bitmap: Bitmap) => E | { readonly refused: string },
  also: (made: E) => A = () => ({}) as A,
): Reply<A> {
  if (seen.version !== undefined && seen.version > version)
    return { err: `version ${seen.version} has not arrived yet; the newest is ${version}` };
  const bitmap = findBitmap(file, seen.identity);
  if ("refused" in bitmap) return { err: bitmap.refused };
  const made = make(file, bitmap);
  if ("refused" in made) return { err: made.refused };
  return { ok: { version, edits: textEdits(document, made.edits), ...also(made) } };
}
