import type { Finding, Rule } from "./rules.ts";

/** Words of annotations that are wrong, and panels that are not known. */
export const annotation: Rule = {
  codes: ["annotation", "unknown-panel"],
  doc: "A word of an annotation is unknown, repeated, without a valid value, or stands on nothing.",
  check: (file) =>
    file.problems.map(
      (p): Finding => ({
        code: p.code,
        severity: p.severity ?? "error",
        message: p.message,
        span: { start: p.start, end: p.end },
        bitmap: -1,
        ...(p.related ? { related: p.related } : {}),
        data: p.suggestion === undefined ? {} : { suggestion: p.suggestion },
      }),
    ),
  fixes: (_file, finding) => {
    const { suggestion } = finding.data;
    if (typeof suggestion !== "string") return [];
    const { start, end } = finding.span;
    return [
      {
        kind: "spelling",
        title: `Change to \`${suggestion}\``,
        edits: [{ start, end, text: suggestion }],
        preferred: true,
      },
    ];
  },
};
