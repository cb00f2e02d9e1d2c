/** Two versions of a text as the page that compares them is shown them: by the server's own code. */
import { createDocuments } from "../../server/documents.ts";
import { compared } from "../../server/features/compare.ts";
import type { Compared } from "../../shared/protocol/comparePage.ts";

export function comparedFrom(before: string, after: string, wanted?: { name: string; ordinal: number }): Compared {
  const uri = "file:///greenhouse/lantern_art.h";
  const documents = createDocuments(() => ({ target: "host" }));
  documents.open({ uri, languageId: "cpp", version: 1, text: after });
  const parsed = documents.parsed(uri);
  if (!parsed) throw new Error("the text is no source");
  const reply = compared(parsed, { uri, before, ...(wanted ? { wanted } : {}) });
  if ("err" in reply) throw new Error(reply.err);
  const { differences, shown } = reply.ok;
  return { file: "lantern_art.h", versions: ["HEAD", "now"], differences, ...(shown ? { shown } : {}) };
}
