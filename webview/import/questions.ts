/** The questions of an import, each with what can be answered; those that mean nothing for the picture at hand are left out. */
import * as l10n from "@vscode/l10n";
import { lightQuestions } from "./lightQuestions.ts";
import { placeQuestion } from "./placeQuestion.ts";
import type { Field, Option, Question } from "./question.ts";
import { chosen, labelOf, whole } from "./question.ts";
import type { Change, State } from "./state.ts";
import { formatIn, sizeIn, withFormat, withSize } from "./words.ts";

export function questionsOf(state: State): Question[] {
  const all = [placeQuestion(state), form(state), many(state), upright(state), size(state), ...lightQuestions(state)];
  return all.filter((question) => question !== undefined);
}

const PACKINGS = [
  "mono1",
  "mono1 pack=pages",
  "mono1 pack=columns",
  "gray2",
  "gray4",
  "gray8",
  "rgb332",
  "rgb565",
  "rgb888",
  "palette1",
  "palette2",
  "palette4",
  "palette8",
];

function form(state: State): Question | undefined {
  const { place, begin, preview } = state;
  if (place.kind !== "new") return undefined;
  const { words, name } = place;
  const panels = begin.start.panels.map((panel) => panel.name);
  const rewrite = (next: string): Change[] => [{ type: "place", place: { ...place, words: next } }];
  const own = begin.opened.kind === "font" ? l10n.t("the font’s own") : l10n.t("the picture’s own");
  const sizes: Option[] = [
    ...begin.start.panels.map((panel) => ({
      value: panel.name,
      label: panel.name,
      hint: `${panel.width}×${panel.height}`,
    })),
    { value: "", label: own, hint: begin.opened.kind === "font" ? `${begin.opened.width}×${begin.opened.height}` : "" },
    ...begin.start.sizes.slice(0, 6).map((size) => ({ value: size, label: size.replace("x", "×") })),
  ];
  const size = sizeIn(words, panels);
  const given = formatIn(words);
  const ofPanel = panels.includes(size);
  const formats: Option[] = [
    ...(ofPanel ? [{ value: "", label: l10n.t("the panel’s") }] : []),
    ...PACKINGS.map((value) => ({ value, label: value })),
  ];
  const format = given === "" && !ofPanel ? "gray8" : given;
  return {
    key: "form",
    word: l10n.t("Form"),
    ask: l10n.t("How is it stored?"),
    answer: words.trim() === "" ? l10n.t("the picture’s own size, gray8") : words,
    fields: [
      {
        kind: "pick",
        name: "size",
        label: l10n.t("Size"),
        value: size,
        options: sizes,
        set: (v) => rewrite(withSize(words, v, panels)),
      },
      {
        kind: "pick",
        name: "format",
        label: l10n.t("Pixels"),
        value: format,
        options: formats,
        set: (v) => rewrite(withFormat(words, v, panels)),
      },
      { kind: "text", name: "words", label: "// @bitmap", value: words, set: rewrite },
      {
        kind: "text",
        name: "name",
        label: l10n.t("Name"),
        value: name ?? preview?.bitmap.name ?? "",
        set: (text) => {
          const { name: _, ...rest } = place;
          const next = text.trim();
          return [{ type: "place", place: next === "" ? rest : { ...rest, name: next } }];
        },
      },
    ],
  };
}

/** One picture may hold several; of a font some glyphs are taken. */
function many({ begin, choices }: State): Question | undefined {
  const { opened } = begin;
  const { cells, chars = "" } = choices;
  const characters: Field = {
    kind: "text",
    name: "chars",
    label: l10n.t("Characters"),
    hint: "0123456789:  U+0030-U+0039",
    value: chars,
    set: (text) => chosen({ chars: text === "" ? undefined : text }),
  };
  if (opened.kind === "font") {
    const answer = chars === "" ? l10n.t("all that can be seen") : chars;
    return { key: "many", word: l10n.t("Glyphs"), ask: l10n.t("Which glyphs?"), answer, fields: [characters] };
  }
  if (opened.count > 1) return undefined;
  const size = cells ?? { width: 8, height: 8, gap: 0, margin: 0 };
  const sheet: Option[] = [
    { value: "one", label: l10n.t("one picture") },
    { value: "cells", label: l10n.t("a sheet of cells"), hint: l10n.t("each becomes a frame") },
  ];
  const side = (name: keyof typeof size, label: string): Field => ({
    kind: "text",
    narrow: true,
    name,
    label,
    value: String(size[name]),
    set: (text) => {
      const value = whole(text);
      return value === undefined ? [] : chosen({ cells: { ...size, [name]: value } });
    },
  });
  const fields: Field[] = [
    {
      kind: "pick",
      name: "sheet",
      label: l10n.t("The file holds"),
      value: cells ? "cells" : "one",
      options: sheet,
      set: (v) => chosen({ cells: v === "cells" ? size : undefined }),
    },
  ];
  if (cells)
    fields.push(
      side("width", l10n.t("Columns")),
      side("height", l10n.t("Rows")),
      side("gap", l10n.t("Gap")),
      side("margin", l10n.t("Margin")),
    );
  const answer = cells ? l10n.t("cells of {0}×{1}", cells.width, cells.height) : l10n.t("one picture");
  return { key: "many", word: l10n.t("Frames"), ask: l10n.t("One picture, or several?"), answer, fields };
}

function upright({ begin, choices }: State): Question | undefined {
  if (begin.opened.kind === "font") return undefined;
  const turns: Option[] = [
    { value: "0", label: l10n.t("upright") },
    { value: "90", label: "90°", hint: l10n.t("clockwise") },
    { value: "180", label: "180°" },
    { value: "270", label: "270°" },
  ];
  const mirrors: Option[] = [
    { value: "", label: l10n.t("no") },
    { value: "left-right", label: l10n.t("left to right") },
    { value: "top-bottom", label: l10n.t("top to bottom") },
  ];
  const turn = String(choices.turn ?? 0);
  const mirror = choices.mirror ?? "";
  const mirrored = mirror === "" ? [] : [l10n.t("mirrored {0}", labelOf(mirrors, mirror))];
  return {
    key: "upright",
    word: l10n.t("Way up"),
    ask: l10n.t("Which way up is it?"),
    answer: [labelOf(turns, turn), ...mirrored].join(", "),
    fields: [
      {
        kind: "pick",
        name: "turn",
        label: l10n.t("Turned"),
        value: turn,
        options: turns,
        set: (v) => chosen({ turn: v === "0" ? undefined : (Number(v) as 90) }),
      },
      {
        kind: "pick",
        name: "mirror",
        label: l10n.t("Mirrored"),
        value: mirror,
        options: mirrors,
        set: (v) => chosen({ mirror: v === "" ? undefined : (v as "left-right") }),
      },
    ],
  };
}

function size({ begin, choices }: State): Question | undefined {
  if (begin.opened.kind === "font") return undefined;
  const { crop } = choices;
  const fits: Option[] = [
    { value: "contain", label: l10n.t("all of it"), hint: l10n.t("with dark margins") },
    { value: "cover", label: l10n.t("fills the frame"), hint: l10n.t("its sides cut off") },
    { value: "exact", label: l10n.t("pixel for pixel"), hint: l10n.t("only in the same size") },
    { value: "crop", label: l10n.t("a part, pixel for pixel") },
  ];
  const value = crop ? "crop" : (choices.fit ?? "contain");
  const corner = (name: "x" | "y", label: string): Field => ({
    kind: "text",
    narrow: true,
    name,
    label,
    value: String(crop?.[name] ?? 0),
    set: (text) => {
      const at = whole(text);
      return at === undefined ? [] : chosen({ crop: { x: 0, y: 0, ...crop, [name]: at } });
    },
  });
  const means: Option[] = [
    { value: "area", label: l10n.t("mean of the area") },
    { value: "nearest", label: l10n.t("nearest pixel") },
  ];
  const mean = choices.resample ?? "area";
  const take = (v: string) =>
    v === "crop"
      ? chosen({ crop: { x: 0, y: 0 }, fit: undefined })
      : chosen({ crop: undefined, fit: v === "contain" ? undefined : (v as "cover") });
  const fields: Field[] = [{ kind: "pick", name: "fit", label: l10n.t("Taken"), value, options: fits, set: take }];
  if (crop) fields.push(corner("x", l10n.t("From column")), corner("y", l10n.t("From row")));
  else if (value !== "exact")
    fields.push({
      kind: "pick",
      name: "resample",
      label: l10n.t("A pixel is"),
      value: mean,
      options: means,
      set: (v) => chosen({ resample: v === "area" ? undefined : "nearest" }),
    });
  const answer = crop ? l10n.t("a part from {0},{1}", crop.x, crop.y) : labelOf(fits, value);
  const scaled = crop || value === "exact" ? [] : [labelOf(means, mean)];
  return {
    key: "fit",
    word: l10n.t("Fit"),
    ask: l10n.t("How does it fit?"),
    answer: [answer, ...scaled].join(", "),
    fields,
  };
}
