/** Where an import goes: a new array, or frames of one that is there. */
import * as l10n from "@vscode/l10n";
import type { ImportHome } from "../../shared/protocol/importing.ts";
import type { Field, Option, Question } from "./question.ts";
import { whole } from "./question.ts";
import type { Change, State } from "./state.ts";
import { homeOf } from "./state.ts";

export function placeQuestion(state: State): Question {
  const { begin, place } = state;
  const homes = begin.homes;
  const kinds: Option[] = [
    { value: "new", label: l10n.t("a new array"), hint: l10n.t("near line {0} of {1}", begin.line, begin.file) },
    ...(homes.length > 0
      ? [
          { value: "into", label: l10n.t("in place of a frame") },
          { value: "further", label: l10n.t("behind the last frame") },
        ]
      : []),
  ];
  const home = homeOf(state) ?? homes[0];
  const at = place.kind === "into" ? place.frame : 0;
  const go = (kind: string, to: ImportHome | undefined, frame = 0): Change[] => {
    if (kind === "new" || !to) return [{ type: "place", place: { kind: "new", words: startWords(state) } }];
    const { identity } = to;
    return [{ type: "place", place: kind === "into" ? { kind, identity, frame } : { kind: "further", identity } }];
  };
  const fields: Field[] = [
    {
      kind: "pick",
      name: "kind",
      label: l10n.t("Where"),
      value: place.kind,
      options: kinds,
      set: (kind) => go(kind, home),
    },
  ];
  if (place.kind !== "new") {
    const options = homes.map((one, i) => ({
      value: String(i),
      label: `${one.name} · ${one.width}×${one.height} ${one.format}${one.frames > 1 ? ` · ${l10n.t("{0} frames", one.frames)}` : ""}`,
    }));
    const value = String(home ? homes.indexOf(home) : 0);
    fields.push({
      kind: "list",
      name: "home",
      label: l10n.t("Bitmap"),
      value,
      options,
      set: (i) => go(place.kind, homes[Number(i)]),
    });
  }
  if (place.kind === "into" && home && home.frames > 1)
    fields.push({
      kind: "text",
      narrow: true,
      name: "frame",
      label: l10n.t("Frame, from 0"),
      value: String(at),
      set: (text) => {
        const frame = whole(text);
        return frame === undefined ? [] : go("into", home, frame);
      },
    });
  const answers = {
    new: () => l10n.t("a new array near line {0}", begin.line),
    into: () =>
      home && home.frames > 1
        ? l10n.t("in place of frame {0} of {1}", at, home.name)
        : l10n.t("in place of {0}", home?.name ?? ""),
    further: () => l10n.t("behind the last frame of {0}", home?.name ?? ""),
  };
  return {
    key: "place",
    word: l10n.t("Place"),
    ask: l10n.t("Where does it go?"),
    answer: answers[place.kind](),
    fields,
  };
}

/** A panel of the file, if it has one. */
function startWords({ begin }: State): string {
  return begin.start.panels[0]?.name ?? "gray8";
}
