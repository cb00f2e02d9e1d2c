/** Findings as diagnostics, and diagnostics back to the findings they came from. */
import type { Diagnostic, DiagnosticRelatedInformation } from "vscode-languageserver/node";
import { DiagnosticSeverity } from "vscode-languageserver/node";
import type { Finding } from "../../shared/checks/rules.ts";
import type { Related } from "../../shared/pixels/options.ts";
import type { Parsed } from "../documents.ts";
import { rangeOf } from "./place.ts";
import type { ClientSettings } from "./settings.ts";

const SOURCE = "dotwright";

const SEVERITY = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
};

/** Most diagnostics of one file: no one reads more, and a client would take long to show them. */
const MOST = 1000;
/** Lines that are named in words. */
const MOST_LINES = 8;
/** Other places that are named with one of them. */
const MOST_RELATED = 100;

/** The findings in the order of the text; the last one that is told says how many are not. */
export function diagnostics(parsed: Parsed, { related = false }: Partial<ClientSettings> = {}): Diagnostic[] {
  const { findings } = parsed;
  const more = findings.length - MOST;
  return findings.slice(0, MOST).map((finding, i) => ({
    range: rangeOf(parsed.document, finding.span),
    severity: SEVERITY[finding.severity],
    code: finding.code,
    source: SOURCE,
    message: `${finding.message}${related ? "" : placesInWords(parsed, finding)}${more > 0 && i === MOST - 1 ? ` (And ${more} more in this file.)` : ""}`,
    data: dataOf(parsed, finding),
    ...(related && (finding.related || finding.places) ? { relatedInformation: othersOf(parsed, finding) } : {}),
  }));
}

/** For a client that shows no other places. */
function placesInWords({ document }: Parsed, { places = [] }: Finding): string {
  if (places.length === 0) return "";
  const lines = [...new Set(places.map(({ span }) => document.positionAt(span.start).line + 1))];
  const rest = lines.length > MOST_LINES ? ", …" : "";
  return ` (See line${lines.length === 1 ? "" : "s"} ${lines.slice(0, MOST_LINES).join(", ")}${rest}.)`;
}

function othersOf({ uri, document }: Parsed, { places = [], related = [] }: Finding): DiagnosticRelatedInformation[] {
  const here = places.map(({ span, message }) => ({ location: { uri, range: rangeOf(document, span) }, message }));
  return [...here, ...related.map(relatedTo)].slice(0, MOST_RELATED);
}

function relatedTo({ id: uri, line, start, end, message }: Related) {
  return { location: { uri, range: { start: { line, character: start }, end: { line, character: end } } }, message };
}

/** What a client hands back with the diagnostic: the rule's own data and the name of the bitmap. */
function dataOf(parsed: Parsed, finding: Finding) {
  const array = parsed.file.bitmaps[finding.bitmap]?.array;
  return { ...finding.data, ...(array ? { name: array.name, ordinal: array.ordinal } : {}) };
}

/** The diagnostic among `sent` that tells of this finding, by code and data, or by place where data was not kept. */
export function diagnosticOf(parsed: Parsed, finding: Finding, sent: readonly Diagnostic[]): Diagnostic | undefined {
  const data = JSON.stringify(dataOf(parsed, finding));
  const range = JSON.stringify(rangeOf(parsed.document, finding.span));
  const same = sent.filter((d) => d.source === SOURCE && d.code === finding.code);
  return same.find((d) => {
    const { start, end } = d.range;
    const here = JSON.stringify({ start, end }) === range;
    return d.data === undefined ? here : JSON.stringify(d.data) === data && (here || finding.bitmap >= 0);
  });
}
