/** The actions that convert the bitmap at the cursor; each is worked out, and tried, when it is chosen. */
import type { CodeAction, CodeActionContext, Range } from "vscode-languageserver/node";
import { CodeActionKind } from "vscode-languageserver/node";
import { conversionsOf, convert } from "../../shared/bitmap/convert/convert.ts";
import type { BitmapIdentity } from "../../shared/bitmap/edit.ts";
import { findBitmap, identityOf } from "../../shared/bitmap/edit.ts";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import type { Parsed } from "../documents.ts";
import { bitmapAt } from "./newLike.ts";
import { workspaceEdit } from "./place.ts";
import type { ClientSettings } from "./settings.ts";
import { isWanted } from "./wanted.ts";
import { worldOf } from "./world.ts";

export const CONVERT = `${CodeActionKind.RefactorRewrite}.dotwright`;

/** What the action is resolved by. */
export interface LaterConversion {
  readonly uri: string;
  readonly convert: BitmapIdentity;
  readonly id: string;
}

/** Most pixels of a bitmap whose conversions are all worked out for a client that can't ask for one later. */
const MOST_AT_ONCE = 1024;

/** One action a conversion, where the cursor is on the declaration or the annotation of a bitmap. */
export function conversionActions(
  parsed: Parsed,
  range: Range,
  context: CodeActionContext,
  settings: ClientSettings,
): CodeAction[] {
  const { only } = context;
  if (!isWanted(context, CONVERT) && !only?.some((asked) => asked.startsWith(`${CONVERT}.`))) return [];
  const bitmap = bitmapAt(parsed.file, parsed.document.offsetAt(range.start));
  if (!bitmap || (!settings.lazyActions && tooLarge(bitmap))) return [];
  return conversionsOf(parsed.file, bitmap)
    .map(({ id, kind, title }) => ({ id, action: { title, kind: `${CONVERT}.${kind}` } }))
    .filter(({ action }) => isWanted(context, action.kind))
    .flatMap(({ id, action }): CodeAction[] => {
      const data: LaterConversion = { uri: parsed.uri, convert: identityOf(bitmap), id };
      if (settings.lazyActions) return [{ ...action, data }];
      const resolved = resolveConversion(parsed, action, data, settings);
      return resolved.edit ? [resolved] : [];
    });
}

/** A conversion as the fix of a finding about a bitmap; undefined where it can't be had. */
export function conversionFix(
  parsed: Parsed,
  index: number,
  id: string,
  settings: ClientSettings,
): CodeAction | undefined {
  const bitmap = parsed.file.bitmaps[index];
  if (!bitmap || (!settings.lazyActions && tooLarge(bitmap))) return undefined;
  const conversion = conversionsOf(parsed.file, bitmap).find((known) => known.id === id);
  if (!conversion) return undefined;
  const data: LaterConversion = { uri: parsed.uri, convert: identityOf(bitmap), id };
  const action = { title: conversion.title, kind: CodeActionKind.QuickFix };
  if (settings.lazyActions) return { ...action, data };
  const resolved = resolveConversion(parsed, action, data, settings);
  return resolved.edit ? resolved : undefined;
}

/** Without an edit where the bitmap has gone or changed, or the conversion is refused. */
export function resolveConversion(
  parsed: Parsed,
  action: CodeAction,
  { convert: identity, id }: LaterConversion,
  settings: ClientSettings,
): CodeAction {
  const { file } = parsed;
  const bitmap = findBitmap(file, identity);
  if ("refused" in bitmap) return action;
  const converted = convert(file, bitmap, id, worldOf(parsed));
  return "refused" in converted ? action : { ...action, edit: workspaceEdit(parsed, converted.edits, settings) };
}

function tooLarge({ width, height, frames }: Bitmap): boolean {
  return width * height * frames > MOST_AT_ONCE;
}
