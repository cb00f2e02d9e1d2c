/** The actions that write what a panel's wiring needs in C: its table, functions, and the probe's sketch. */
import type { CodeAction, CodeActionContext, Range, TextDocumentEdit, WorkspaceEdit } from "vscode-languageserver/node";
import { CodeActionKind } from "vscode-languageserver/node";
import { placed, placeNear } from "../../shared/bitmap/place.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import type { WiredKind } from "../../shared/bitmap/wired/made.ts";
import { makeWired, wiringOrRows } from "../../shared/bitmap/wired/made.ts";
import type { WiringTable } from "../../shared/bitmap/wirings.ts";
import type { Panel } from "../../shared/light/panel.ts";
import { eolOf } from "../../shared/source/text.ts";
import type { Parsed } from "../documents.ts";
import { bitmapAt } from "./newLike.ts";
import { workspaceEdit } from "./place.ts";
import type { ClientSettings } from "./settings.ts";
import { isWanted } from "./wanted.ts";

export const WIRING = `${CodeActionKind.Refactor}.wiring`;

/** What an action is resolved by. */
export interface LaterWired {
  readonly uri: string;
  readonly wired: WiredKind;
  readonly panel: string;
  /** The array that a draw function reads: its name and which of that name. */
  readonly of?: readonly [name: string, ordinal: number];
}

/** Actions where the cursor is on the annotation of a panel or of its table, or on the declaration of a bitmap of it. */
export function wiringActions(
  parsed: Parsed,
  range: Range,
  context: CodeActionContext,
  settings: ClientSettings,
): CodeAction[] {
  if (!isWanted(context, WIRING)) return [];
  const { file, document, uri } = parsed;
  const offset = document.offsetAt(range.start);
  const offered: { title: string; data: LaterWired; refused?: string }[] = [];
  const add = (title: string, panel: Panel, wired: WiredKind, bitmap?: Bitmap) => {
    const of = bitmap && ([bitmap.array.name, bitmap.array.ordinal] as const);
    offered.push({ title, data: { uri, wired, panel: panel.name, ...(of ? { of } : {}) } });
  };
  const found = panelAt(file, offset);
  if (found) {
    const { panel, table } = found;
    const known = !("refused" in wiringOrRows(panel));
    if (!table && known) add(`Write the index table of ${panel.name}`, panel, "table");
    add(`Write a function from column and row of ${panel.name} to the driver's address`, panel, "address");
    for (const bitmap of known ? modelsOf(file, panel) : []) add(drawTitle(panel, bitmap), panel, "draw", bitmap);
    if (settings.createFiles && URL.canParse("sketch", uri))
      add(`Write a sketch that probes the wiring of ${panel.name}`, panel, "probe");
  } else {
    const bitmap = bitmapAt(file, offset);
    const panel = bitmap?.panel;
    if (bitmap && panel?.wiring && isWhole(bitmap, panel)) add(drawTitle(panel, bitmap), panel, "draw", bitmap);
  }
  return offered.flatMap(({ title, data }): CodeAction[] => {
    const action: CodeAction = { title, kind: WIRING, data };
    if (settings.lazyActions && data.wired !== "address") return [action];
    const made = resolveWired(parsed, action, data, settings);
    if ("edit" in made) return [settings.lazyActions ? action : { ...made, data: undefined }];
    // Why there is no formula is worth knowing, where the client can say it.
    const why = settings.disabledActions ? refusal(parsed, data) : undefined;
    return why === undefined ? [] : [{ title, kind: WIRING, disabled: { reason: why } }];
  });
}

/** Without an edit where the panel has gone, or what is wanted can't be made. */
export function resolveWired(
  parsed: Parsed,
  action: CodeAction,
  later: LaterWired,
  settings: ClientSettings,
): CodeAction {
  const made = make(parsed, later);
  if (!made || "refused" in made) return action;
  if (later.wired === "probe") return { ...action, edit: newFile(parsed.uri, made.name, made.text) };
  const { file } = parsed;
  const eol = eolOf(file.source.text);
  const body = made.text.split(eol).join(`${eol}${made.place.indent}`);
  return { ...action, edit: workspaceEdit(parsed, [placed(made.place, body, eol).edit], settings) };
}

function refusal(parsed: Parsed, later: LaterWired): string | undefined {
  const made = make(parsed, later);
  return made && "refused" in made ? made.refused : undefined;
}

function make({ file }: Parsed, { wired, panel: name, of }: LaterWired) {
  const [panel] = file.known.get(name);
  const bitmap = of && file.bitmaps.find((b) => b.array.name === of[0] && b.array.ordinal === of[1]);
  if (!panel || (of && !bitmap)) return undefined;
  const table = file.wirings.tables.find((t) => t.panel.name === name);
  const defined = panel.id === file.id ? panel.nameSpan.start : 0;
  const after = Math.max(defined, table?.array.declaration.end ?? 0, bitmap?.array.declaration.end ?? 0);
  const place = placeNear(file.source, after);
  // Functions of another part of the file are found only where they come before.
  const included = [...file.source.included.values()].map(({ text }) => text);
  const known = [...included, file.source.text.slice(0, place.span.start)].join("\n");
  const made = makeWired(file, panel, wired, { bitmap, offset: place.span.start, known });
  return "refused" in made ? made : { ...made, place };
}

/** A sketch stands in a folder of its own name. */
function newFile(beside: string, name: string, text: string): WorkspaceEdit {
  const uri = new URL(`${name}/${name}.ino`, beside).href;
  const start = { line: 0, character: 0 };
  const edit: TextDocumentEdit = {
    textDocument: { uri, version: null },
    edits: [{ range: { start, end: start }, newText: `${text}\n` }],
  };
  return { documentChanges: [{ kind: "create", uri, options: { overwrite: false, ignoreIfExists: false } }, edit] };
}

function panelAt(file: BitmapFile, offset: number): { panel: Panel; table: WiringTable | undefined } | undefined {
  const annotation = file.source.annotations.find(
    (a) => (a.marker === "panel" || a.marker === "wiring") && a.start <= offset && offset <= a.end,
  );
  const name = annotation?.words[0]?.text;
  const [panel] = name === undefined ? [] : file.known.get(name);
  return panel && { panel, table: file.wirings.tables.find((t) => t.panel.name === panel.name) };
}

/** A still picture and frames of the panel, where it has such: one of each is what a draw function is made for. */
function modelsOf(file: BitmapFile, panel: Panel): Bitmap[] {
  const fit = file.bitmaps.filter((b) => b.panel?.name === panel.name && isWhole(b, panel));
  return [fit.find((b) => b.frames === 1), fit.find((b) => b.frames > 1)].filter((b) => b !== undefined);
}

function isWhole({ width, height, why, array }: Bitmap, { options }: Panel): boolean {
  return why === undefined && !array.parts && width === options.width && height === options.height;
}

function drawTitle(panel: Panel, { array, frames }: Bitmap): string {
  return `Write a function that draws ${frames > 1 ? "frames" : "pictures"} like ${array.name} on ${panel.name}`;
}
