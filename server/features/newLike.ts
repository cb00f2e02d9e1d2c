/** The action that declares a new bitmap like the one at the cursor, right after it. */
import type { CodeAction, Range } from "vscode-languageserver/node";
import { CodeActionKind } from "vscode-languageserver/node";
import type { BitmapIdentity } from "../../shared/bitmap/edit.ts";
import { findBitmap, identityOf } from "../../shared/bitmap/edit.ts";
import { canMakeLike, makeLike } from "../../shared/bitmap/like.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import type { Parsed } from "../documents.ts";
import { bitmapsDeclaredAt, workspaceEdit } from "./place.ts";
import type { ClientSettings } from "./settings.ts";

/** What the action is resolved by. */
export interface LaterLike {
  readonly uri: string;
  readonly like: BitmapIdentity;
}

/** One action where the cursor is on the declaration or the annotation of a bitmap that stands for itself; else none. */
export function newLike(parsed: Parsed, range: Range, settings: ClientSettings): CodeAction[] {
  const bitmap = bitmapAt(parsed.file, parsed.document.offsetAt(range.start));
  if (!bitmap || !canMakeLike(parsed.file, bitmap)) return [];
  const action: CodeAction = { title: `New bitmap like ${bitmap.array.name}`, kind: CodeActionKind.Refactor };
  const data: LaterLike = { uri: parsed.uri, like: identityOf(bitmap) };
  if (settings.lazyActions) return [{ ...action, data }];
  const resolved = resolveLike(parsed, action, data, settings);
  return resolved.edit ? [resolved] : [];
}

/** Without an edit where the bitmap has gone or can't be copied. */
export function resolveLike(
  parsed: Parsed,
  action: CodeAction,
  { like }: LaterLike,
  settings: ClientSettings,
): CodeAction {
  const bitmap = findBitmap(parsed.file, like);
  if ("refused" in bitmap) return action;
  const edit = makeLike(parsed.file, bitmap);
  return "refused" in edit ? action : { ...action, edit: workspaceEdit(parsed, [edit], settings) };
}

/** The one bitmap in whose declaration or annotation an offset stands. */
export function bitmapAt(file: BitmapFile, offset: number): Bitmap | undefined {
  const annotated = file.bitmaps.filter((b) => {
    const comment = b.annotation?.comment;
    return comment && comment.start <= offset && offset <= comment.end;
  });
  const [only, ...others] = annotated.length > 0 ? annotated : bitmapsDeclaredAt(file, offset);
  return others.length === 0 ? only : undefined;
}
