/** The action that writes a lightness table for the panel at the cursor. */
import type { CodeAction, CodeActionContext, Range } from "vscode-languageserver/node";
import { CodeActionKind } from "vscode-languageserver/node";
import { lightnessArray } from "../../shared/bitmap/lightnessArray.ts";
import { placed, placeNear } from "../../shared/bitmap/place.ts";
import { capOf } from "../../shared/bitmap/resolve.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import { freeName } from "../../shared/source/identifiers.ts";
import { eolOf } from "../../shared/source/text.ts";
import type { Parsed } from "../documents.ts";
import { workspaceEdit } from "./place.ts";
import type { ClientSettings } from "./settings.ts";

/** One action on the annotation of a panel whose values are duties of several levels: one for each, up to its cap. */
export function lightnessAction(
  parsed: Parsed,
  range: Range,
  context: CodeActionContext,
  settings: ClientSettings,
): CodeAction[] {
  const { file, document } = parsed;
  const { only } = context;
  if (only !== undefined && !only.some((kind) => kind === "" || kind === CodeActionKind.Refactor)) return [];
  const offset = document.offsetAt(range.start);
  const annotation = file.source.annotations.find((a) => a.marker === "panel" && a.start <= offset && offset <= a.end);
  const panel =
    annotation && file.panels.find(({ nameSpan }) => annotation.words.some((w) => w.start === nameSpan.start));
  const format = panel?.options.format ?? FORMATS.get("gray8");
  if (!annotation || !panel || format?.kind !== "gray" || panel.options.light === "srgb") return [];
  const { text } = file.source;
  const place = placeNear(file.source, annotation.end);
  const name = freeName(text, `${panel.name.replaceAll("-", "_")}_duty`);
  const most = capOf(panel.options.cap, format) ?? format.most;
  const size = { from: format.depth, to: format.depth, most };
  const { edit } = placed(
    place,
    lightnessArray(file, name, size, { offset: place.span.start, indent: place.indent }),
    eolOf(text),
  );
  return [
    {
      title: `Add a table of ${2 ** format.depth} levels even to the eye, ${most} at most`,
      kind: CodeActionKind.Refactor,
      edit: workspaceEdit(parsed, [edit], settings),
    },
  ];
}
