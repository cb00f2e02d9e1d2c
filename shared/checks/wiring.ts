import type { BitmapFile } from "../bitmap/resolve.ts";
import { tableEdits, wireWordsOf } from "../bitmap/wired/table.ts";
import { rewriteElements } from "../source/rewrite.ts";
import type { TextEdit } from "../source/text.ts";
import type { Finding, Fix, Rule } from "./rules.ts";

/** Pixels without an address of their own at the driver, and tables that say otherwise than `wire=`. */
export const wiring: Rule = {
  codes: ["wiring"],
  doc: "The wiring of a panel does not give every pixel one address of its own within the driver's canvas.",
  check: (file) =>
    file.wirings.problems.map(
      ({ span, message, severity, data }): Finding => ({ code: "wiring", severity, message, span, bitmap: -1, data }),
    ),
  fixes: (file, finding) => {
    const { data, span } = finding;
    if (typeof data.suggestion === "string") return [part(file, finding, data.suggestion)];
    if (data.fix === "add" && typeof data.add === "string" && typeof data.at === "number") {
      const edit = { start: data.at, end: data.at, text: `;${data.add}` };
      return [{ kind: "add-block", title: `Add the block \`${data.add}\``, edits: [edit], preferred: true }];
    }
    const table = file.wirings.tables.find(
      (t) => t.array.nameSpan.start <= span.start && span.end <= t.array.declaration.end,
    );
    if (!table) return [];
    const fixes: Fix[] = [];
    const add = (kind: string, title: string, edits: readonly TextEdit[] | undefined) => {
      if (edits && edits.length > 0) fixes.push({ kind, title, edits });
    };
    const { entry, spare } = data;
    if (typeof entry === "number" && typeof spare === "number") {
      const made = rewriteElements(file.source.text, table.array, [{ slot: entry, bits: BigInt(spare) }]);
      if ("edits" in made) add("spare", `Change it to ${spare}, the one address that no other entry has`, made.edits);
    }
    if (data.fix === "table") add("table", "Write the table from `wire=`", tableEdits(file, table));
    if (data.differs === 1 && table.wiring) {
      const words = wireWordsOf(table.wiring, table.panel);
      if (words !== undefined)
        add("words", `Change \`wire=\` to \`${words}\``, panelEdit(file, table.panel.name, words));
    }
    return fixes;
  },
};

/** A part of `wire=` changed, or taken away with the `;` beside it. */
function part(file: BitmapFile, { span }: Finding, suggestion: string): Fix {
  const { text } = file.source;
  const { start, end } = span;
  if (suggestion !== "")
    return {
      ...{ kind: "spelling", title: `Change to \`${suggestion}\`` },
      edits: [{ start, end, text: suggestion }],
      preferred: true,
    };
  const what = text.slice(start, end);
  const edit = what === ";" || text[start - 1] !== ";" ? { start, end } : { start: start - 1, end };
  return { kind: "remove", title: `Remove \`${what}\``, edits: [{ ...edit, text: "" }], preferred: true };
}

/** The edit of a panel's `wire=`, where it is defined in this file. */
function panelEdit(file: BitmapFile, panel: string, words: string): TextEdit[] | undefined {
  const definition = file.source.annotations.find((a) => a.marker === "panel" && a.words[0]?.text === panel);
  const word = definition?.words.find((w) => w.key === "wire");
  return word && [{ start: word.valueStart, end: word.end, text: words }];
}
