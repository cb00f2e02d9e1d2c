/**
 * Offers for arrays without an annotation: code actions that write one, for one array or for all of the file, and the
 * hover that shows the best before it is taken up. Nothing is worked out until one of them is asked for.
 */
import type { CodeAction, CodeActionContext, Hover, Position, Range } from "vscode-languageserver/node";
import { CodeActionKind } from "vscode-languageserver/node";
import { annotationEdit } from "../../shared/bitmap/annotate.ts";
import type { Offer } from "../../shared/bitmap/suggest.ts";
import { CLEAR, suggest, unannotated } from "../../shared/bitmap/suggest.ts";
import type { SourceArray } from "../../shared/source/arrays.ts";
import type { Parsed } from "../documents.ts";
import { hoverPicture } from "./hoverPicture.ts";
import { rangeOf, workspaceEdit } from "./place.ts";
import type { ClientSettings } from "./settings.ts";
import { isWanted } from "./wanted.ts";
import { sizeAndFormat } from "./words.ts";

export const ANNOTATE_ALL = "source.annotate.dotwright";
export const ANNOTATE = `${CodeActionKind.Refactor}.annotate`;

/** What an action without an edit is resolved by. */
interface LaterOffer {
  readonly uri: string;
  readonly offers: "all";
}

/** Actions at a range: one for each offer of the array declared there, best first, and one for all of the file. */
export function offerActions(
  parsed: Parsed,
  range: Range,
  context: CodeActionContext,
  settings: ClientSettings,
): CodeAction[] {
  const wants = (kind: string) => isWanted(context, kind);
  const actions: CodeAction[] = [];
  const { document, file } = parsed;
  if (wants(ANNOTATE)) {
    const array = declaredAt(parsed, document.offsetAt(range.start), document.offsetAt(range.end));
    for (const { words, evidence } of array ? suggest(file, array) : []) {
      const edit = workspaceEdit(parsed, [annotationEdit(file.source, array as SourceArray, words)], settings);
      actions.push({ title: `Annotate as ${words} (${evidence})`, kind: ANNOTATE, edit });
    }
  }
  // In the menu at an array only if there is something to annotate there; else where the kind is asked for by name.
  const named = context.only !== undefined && wants(ANNOTATE_ALL);
  if (
    !(named ? unannotated(file).some((a) => clearOffer(parsed, a)) : context.only === undefined && actions.length > 0)
  )
    return actions;
  const all: CodeAction = { title: "Annotate all arrays of this file with clear evidence", kind: ANNOTATE_ALL };
  if (settings.lazyActions) {
    const data: LaterOffer = { uri: parsed.uri, offers: "all" };
    actions.push({ ...all, data });
  } else {
    const edit = allEdit(parsed, settings);
    if (edit) actions.push({ ...all, edit });
  }
  return actions;
}

/** The action with its edit, if it is one of ours that was left without; undefined for any other. */
export function resolveOffers(parsed: Parsed, action: CodeAction, settings: ClientSettings): CodeAction | undefined {
  if ((action.data as LaterOffer | undefined)?.offers !== "all") return undefined;
  return { ...action, edit: allEdit(parsed, settings) ?? { changes: {} } };
}

function clearOffer({ file }: Parsed, array: SourceArray): Offer | undefined {
  const [best] = suggest(file, array);
  return best && best.confidence >= CLEAR ? best : undefined;
}

function allEdit(parsed: Parsed, settings: ClientSettings) {
  const { file } = parsed;
  const edits = unannotated(file).flatMap((array) => {
    const best = clearOffer(parsed, array);
    return best ? [annotationEdit(file.source, array, best.words)] : [];
  });
  return edits.length > 0 ? workspaceEdit(parsed, edits, settings) : undefined;
}

/** The hover on the name of an array that has an offer; null for anything else. */
export function hoverOffer(parsed: Parsed, position: Position, settings: ClientSettings): Hover | null {
  const { document, file } = parsed;
  const offset = document.offsetAt(position);
  const array = unannotated(file).find(({ nameSpan: s }) => s.start <= offset && offset <= s.end);
  const offers = array ? suggest(file, array) : [];
  const best = offers[0];
  if (!array || !best) return null;
  const markdown = describeOffer(array, best, offers.slice(1), settings.markdown);
  const range = rangeOf(document, array.nameSpan);
  return settings.markdown
    ? { contents: { kind: "markdown", value: markdown }, range }
    : { contents: { kind: "plaintext", value: markdown.replace(/[*`]/g, "") }, range };
}

function describeOffer({ name }: SourceArray, best: Offer, others: readonly Offer[], picture: boolean): string {
  const { bitmap, words, evidence } = best;
  const parts = [
    `**\`${name}\`** · not annotated; looks like ${sizeAndFormat(bitmap)} (\`@bitmap ${words}\`), because ${evidence}.`,
  ];
  const drawn = picture ? hoverPicture(bitmap) : undefined;
  if (drawn?.markdown) parts.push(drawn.markdown);
  const notes = [...(drawn?.notes ?? [])];
  if (bitmap.why !== undefined) notes.push(`No picture: ${bitmap.why}.`);
  if (others.length > 0) notes.push(`Or ${others.map((o) => `\`${o.words}\``).join(", or ")}.`);
  notes.push("This is an offer: the code action “Annotate as …” writes it into the file.");
  parts.push(notes.map((note) => `- ${note}`).join("\n"));
  return parts.join("\n\n");
}

/** The unannotated array in whose declaration, up to its list, a range lies. */
function declaredAt({ file }: Parsed, start: number, end: number): SourceArray | undefined {
  const { text } = file.source;
  const arrays = unannotated(file);
  const named = arrays.find(({ nameSpan: s }) => s.start <= end && start <= s.end);
  if (named) return named;
  return arrays.find(({ declaration, base, nameSpan }) => {
    if (start < declaration.start || end > base) return false;
    // A statement may declare several arrays: the head of this one begins after the list of the one before.
    return !text.slice(Math.min(start, nameSpan.start), base).includes("{");
  });
}
