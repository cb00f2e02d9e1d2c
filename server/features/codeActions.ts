/** Quick fixes of findings, one at a time or all of a kind in the file; all safe ones at once; new bitmaps, conversions. */
import type { CodeAction, CodeActionContext, Range } from "vscode-languageserver/node";
import { CodeActionKind } from "vscode-languageserver/node";
import { fixAll, fixesOf } from "../../shared/checks/all.ts";
import type { Code, Finding } from "../../shared/checks/rules.ts";
import type { TextEdit } from "../../shared/source/text.ts";
import type { Parsed } from "../documents.ts";
import type { LaterConversion } from "./convert.ts";
import { conversionActions, conversionFix, resolveConversion } from "./convert.ts";
import { diagnosticOf } from "./diagnostics.ts";
import { lightnessAction } from "./lightnessAction.ts";
import type { LaterMotion } from "./motions.ts";
import { motionActions, resolveMotion } from "./motions.ts";
import type { LaterLike } from "./newLike.ts";
import { newLike, resolveLike } from "./newLike.ts";
import { offerActions, resolveOffers } from "./offers.ts";
import { workspaceEdit } from "./place.ts";
import type { ClientSettings } from "./settings.ts";
import { isWanted } from "./wanted.ts";
import type { LaterWired } from "./wiring.ts";
import { resolveWired, wiringActions } from "./wiring.ts";

export const FIX_ALL = `${CodeActionKind.SourceFixAll}.dotwright`;

/** The findings whose preferred fix says what was surely meant, so that a save may apply it. */
const SAFE: readonly Code[] = ["annotation", "padding-bits", "out-of-range"];

/** Most findings in a range that fixes are worked out for; a wider range is asked for its fix-all actions. */
const MOST_FINDINGS = 20;

/** What a fix-all action is resolved by. */
interface LaterFix {
  readonly uri: string;
  readonly code: Code;
  readonly kind: string;
}

type Later = LaterFix | LaterLike | LaterConversion | LaterMotion | LaterWired;

export function codeActions(
  parsed: Parsed,
  range: Range,
  context: CodeActionContext,
  settings: ClientSettings,
): CodeAction[] {
  const actions: CodeAction[] = [];
  if (isWanted(context, CodeActionKind.QuickFix)) actions.push(...quickFixes(parsed, range, context, settings));
  if (isWanted(context, CodeActionKind.Refactor)) actions.push(...newLike(parsed, range, settings));
  actions.push(...offerActions(parsed, range, context, settings));
  actions.push(...conversionActions(parsed, range, context, settings));
  actions.push(...motionActions(parsed, range, context, settings));
  actions.push(...lightnessAction(parsed, range, context, settings));
  actions.push(...wiringActions(parsed, range, context, settings));
  // In no menu: only where it is asked for.
  if (context.only !== undefined && isWanted(context, FIX_ALL)) {
    const edits = safeEdits(parsed);
    const edit = workspaceEdit(parsed, edits, settings);
    if (edits.length > 0) actions.push({ title: "Fix all that Dotwright can surely fix", kind: FIX_ALL, edit });
  }
  return actions;
}

/** Works out the edit of an action that was offered without one. */
export function resolveAction(parsed: Parsed, action: CodeAction, settings: ClientSettings): CodeAction {
  const annotated = resolveOffers(parsed, action, settings);
  if (annotated) return annotated;
  const data = action.data as Later;
  if ("convert" in data) return resolveConversion(parsed, action, data, settings);
  if ("motion" in data) return resolveMotion(parsed, action, data, settings);
  if ("wired" in data) return resolveWired(parsed, action, data, settings);
  if ("like" in data) return resolveLike(parsed, action, data, settings);
  const { code, kind } = data;
  const edits = editsForAll(parsed, code, kind);
  return { ...action, edit: workspaceEdit(parsed, edits, settings) };
}

/** The document that an action without an edit is about. */
export function uriOfAction(action: CodeAction): string | undefined {
  return (action.data as Later | undefined)?.uri;
}

function quickFixes(parsed: Parsed, range: Range, context: CodeActionContext, settings: ClientSettings): CodeAction[] {
  const { document, findings, file } = parsed;
  const start = document.offsetAt(range.start);
  const end = document.offsetAt(range.end);
  const here = findings.filter((f) => f.span.start <= end && start <= f.span.end);
  const actions = new Map<string, CodeAction>();
  const kinds = new Map<string, { finding: Finding; title: string }>();
  for (const finding of here.slice(0, MOST_FINDINGS)) {
    const diagnostic = diagnosticOf(parsed, finding, context.diagnostics);
    for (const fix of fixesOf(file, finding)) {
      // Two findings may share a fix, such as one for the whole array.
      const key = `${fix.title} ${JSON.stringify(fix.edits.slice(0, 4))} ${fix.edits.length}`;
      const known = actions.get(key);
      if (known) {
        if (diagnostic) known.diagnostics = [...(known.diagnostics ?? []), diagnostic];
        continue;
      }
      actions.set(key, {
        title: fix.title,
        kind: CodeActionKind.QuickFix,
        ...(diagnostic ? { diagnostics: [diagnostic] } : {}),
        ...(fix.preferred ? { isPreferred: true } : {}),
        edit: workspaceEdit(parsed, fix.edits, settings),
      });
      kinds.set(`${finding.code} ${fix.kind}`, { finding, title: fix.title });
    }
  }
  const conversions = here.slice(0, MOST_FINDINGS).flatMap((finding) => {
    const id = finding.data.convert;
    const diagnostic = diagnosticOf(parsed, finding, context.diagnostics);
    const action = typeof id === "string" ? conversionFix(parsed, finding.bitmap, id, settings) : undefined;
    return action ? [{ ...action, ...(diagnostic ? { diagnostics: [diagnostic] } : {}) }] : [];
  });
  return [...actions.values(), ...conversions, ...fixAlls(parsed, kinds, settings)];
}

function fixAlls(
  parsed: Parsed,
  kinds: ReadonlyMap<string, { finding: Finding; title: string }>,
  settings: ClientSettings,
): CodeAction[] {
  const actions: CodeAction[] = [];
  for (const [key, { finding, title }] of kinds) {
    const { code } = finding;
    const kind = key.slice(code.length + 1);
    if (parsed.findings.filter((f) => f.code === code).length < 2) continue;
    const action: CodeAction = {
      title: `${title}, and likewise for every \`${code}\` in this file`,
      kind: CodeActionKind.QuickFix,
    };
    if (settings.lazyActions) {
      const data: LaterFix = { uri: parsed.uri, code, kind };
      actions.push({ ...action, data });
    } else {
      const fix = fixAll(parsed.file, parsed.findings, code, kind);
      if (fix) actions.push({ ...action, edit: workspaceEdit(parsed, fix.edits, settings) });
    }
  }
  return actions;
}

/** The edits of one kind for all findings of a code; those of the only one where there is one. */
function editsForAll({ file, findings }: Parsed, code: Code, kind: string): readonly TextEdit[] {
  const all = fixAll(file, findings, code, kind);
  if (all) return all.edits;
  for (const finding of findings) {
    const fix = finding.code === code ? fixesOf(file, finding).find((f) => f.kind === kind) : undefined;
    if (fix) return fix.edits;
  }
  return [];
}

function safeEdits(parsed: Parsed): TextEdit[] {
  const { file, findings } = parsed;
  const edits: TextEdit[] = [];
  for (const code of SAFE) {
    const first = findings
      .filter((f) => f.code === code)
      .flatMap((f) => fixesOf(file, f))
      .find((f) => f.preferred);
    for (const edit of first ? editsForAll(parsed, code, first.kind) : []) {
      if (edits.every((e) => e.end <= edit.start || edit.end <= e.start)) edits.push(edit);
    }
  }
  return edits;
}
