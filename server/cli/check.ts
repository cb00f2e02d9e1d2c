import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import { checkFile, RULES } from "../../shared/checks/all.ts";
import type { Severity } from "../../shared/checks/rules.ts";
import type { Related } from "../../shared/pixels/options.ts";
import type { Span } from "../../shared/source/text.ts";
import { lineAt, lineStarts } from "../../shared/source/text.ts";
import type { Target } from "../../shared/source/types.ts";
import type { Command, Print } from "./command.ts";
import { needPaths } from "./command.ts";
import { forEachFile, shownPath, UserError } from "./files.ts";

/** 1-based; columns count UTF-16 units. */
interface Region {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

interface Shown extends Region {
  readonly file: string;
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly related: readonly Related[];
}

interface CheckOptions {
  readonly format: "text" | "json" | "sarif";
  readonly target: Target | undefined;
}

export const checkCommand: Command = {
  name: "check",
  usage: "[--json | --sarif] PATH…",
  doc: "what is wrong with them; exit 0 clean, 1 errors or warnings, 2 could not run",
  options: { json: "flag", sarif: "flag" },
  run(paths, { json, sarif }, target, print) {
    needPaths(paths);
    if (sarif && json) throw new UserError("--json and --sarif can't be combined");
    return check(paths, { format: sarif ? "sarif" : json ? "json" : "text", target }, print);
  },
};

/** Prints the findings of the files. Returns 1 where there are errors or warnings, else 0. */
async function check(paths: readonly string[], options: CheckOptions, print: Print): Promise<number> {
  const shown: Shown[] = [];
  const visit = (file: BitmapFile, unread: string | undefined) => {
    if (unread !== undefined) {
      const message = `Nothing in it is checked: ${unread}.`;
      const place = { line: 1, column: 1, endLine: 1, endColumn: 1 };
      shown.push({
        file: shownPath(file.file),
        ...place,
        code: "unreadable",
        severity: "warning",
        message,
        related: [],
      });
    }
    const findings = checkFile(file);
    if (findings.length === 0) return;
    const starts = lineStarts(file.source.text);
    const place = (offset: number) => {
      const line = lineAt(starts, offset);
      // A byte order mark is no column.
      const mark = line === 0 && offset > 0 && file.source.text.startsWith("\ufeff") ? 1 : 0;
      return { line: line + 1, column: offset - (starts[line] as number) + 1 - mark };
    };
    const relatedPlace = ({ span, message }: { span: Span; message: string }): Related => {
      const { line, column } = place(span.start);
      const start = column - 1;
      return { id: file.id, file: file.file, line: line - 1, start, end: start + span.end - span.start, message };
    };
    for (const { code, severity, message, span, related = [], places = [] } of findings) {
      const from = place(span.start);
      const to = place(span.end);
      shown.push({
        file: shownPath(file.file),
        ...from,
        endLine: to.line,
        endColumn: to.column,
        code,
        severity,
        message,
        related: [...places.map(relatedPlace), ...related],
      });
    }
  };
  await forEachFile(paths, options.target, visit, { onlyPictures: true });
  if (options.format === "json") {
    const findings = shown.map(({ endLine: _l, endColumn: _c, related, ...finding }) => ({
      ...finding,
      ...(related.length > 0 ? { related: related.map(placeOf) } : {}),
    }));
    print(`${JSON.stringify({ findings })}\n`);
  } else if (options.format === "sarif") print(`${JSON.stringify(sarif(shown), undefined, 1)}\n`);
  else for (const f of shown) print(inWords(f));
  return shown.some((f) => f.severity !== "information") ? 1 : 0;
}

/** Another place as the command counts: from 1. */
const placeOf = ({ file, line, start, message }: Related) => ({
  file: shownPath(file),
  line: line + 1,
  column: start + 1,
  message,
});

/** Other places stand below the finding, set in. */
function inWords(f: Shown): string {
  const others = f.related.map(placeOf).map((o) => `  ${o.file}:${o.line}:${o.column}: ${o.message}\n`);
  return `${f.file}:${f.line}:${f.column}: ${f.severity}: ${f.message} [${f.code}]\n${others.join("")}`;
}

/** OASIS SARIF 2.1.0: the levels are error, warning and note; regions are 1-based with an exclusive end column. */
function sarif(shown: readonly Shown[]) {
  const level = { error: "error", warning: "warning", information: "note" };
  const rules = RULES.flatMap((rule) => rule.codes.map((id) => ({ id, shortDescription: { text: rule.doc } })));
  return {
    $schema: "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
    version: "2.1.0",
    runs: [
      {
        tool: { driver: { name: "Dotwright", rules } },
        columnKind: "utf16CodeUnits",
        results: shown.map((f) => ({
          ruleId: f.code,
          level: level[f.severity],
          message: { text: f.message },
          locations: [{ physicalLocation: physical(f.file, f) }],
          ...(f.related.length > 0 ? { relatedLocations: f.related.map(relatedLocation) } : {}),
        })),
      },
    ],
  };
}

function relatedLocation({ file, line, start, end, message }: Related) {
  const region = { line: line + 1, column: start + 1, endLine: line + 1, endColumn: end + 1 };
  return { physicalLocation: physical(file, region), message: { text: message } };
}

function physical(file: string, { line, column, endLine, endColumn }: Region) {
  return {
    artifactLocation: { uri: shownPath(file).split(/[\\/]/).map(encodeURIComponent).join("/") },
    region: { startLine: line, startColumn: column, endLine, endColumn },
  };
}
