/** The questions about light: which channel, over which ground, how bright, in which steps. */
import * as l10n from "@vscode/l10n";
import type { Channel } from "../../shared/image/choices.ts";
import { hexOf } from "../../shared/pixels/colour.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import type { Field, Option, Question } from "./question.ts";
import { chosen, labelOf, whole } from "./question.ts";
import type { State } from "./state.ts";
import { channelOf, formatOf, kindOf } from "./state.ts";

export function lightQuestions(state: State): (Question | undefined)[] {
  return state.begin.opened.kind === "font" ? [] : [channel(state), ground(state), bright(state), steps(state)];
}

/** What each channel is, in a word. */
export function channelName(name: Channel): string {
  return {
    luminance: l10n.t("luminance"),
    lightness: l10n.t("lightness"),
    alpha: l10n.t("alpha"),
    red: l10n.t("red"),
    green: l10n.t("green"),
    blue: l10n.t("blue"),
    colours: l10n.t("its colours"),
  }[name];
}

function channel(state: State): Question {
  const kind = kindOf(state);
  const names: Channel[] = ["luminance", "lightness", "alpha", "red", "green", "blue"];
  if (kind === "rgb" || kind === "palette") names.unshift("colours");
  const percent = (share: number) => Math.round(100 * share);
  const options = names.map((name): Option => {
    const range = state.preview?.ranges.find((r) => r.channel === name);
    if (!range) return { value: name, label: channelName(name) };
    const [low, high] = [percent(range.low), percent(range.high)];
    const hint = range.low === range.high ? l10n.t("{0} % everywhere", low) : l10n.t("{0}–{1} %", low, high);
    return { value: name, label: channelName(name), hint };
  });
  const value = channelOf(state);
  return {
    key: "light",
    word: l10n.t("Light"),
    ask: l10n.t("What of it becomes light?"),
    answer: channelName(value),
    fields: [
      {
        kind: "pick",
        name: "channel",
        label: l10n.t("Channel"),
        value,
        options,
        set: (v) => chosen({ channel: v as Channel }),
      },
    ],
  };
}

/** Only of pictures that something shows through. */
function ground({ begin, choices }: State): Question | undefined {
  if (!begin.opened.transparent) return undefined;
  const { background = 0 } = choices;
  const value =
    background === "none" ? "none" : background === 0 ? "black" : background === 0xffffff ? "white" : "other";
  const options: Option[] = [
    { value: "black", label: l10n.t("black"), hint: l10n.t("dark pixels") },
    { value: "white", label: l10n.t("white") },
    { value: "other", label: l10n.t("another colour") },
    { value: "none", label: l10n.t("nothing"), hint: l10n.t("colours as they are stored") },
  ];
  const take = (v: string) =>
    chosen({ background: v === "black" ? undefined : v === "white" ? 0xffffff : v === "none" ? "none" : 0x808080 });
  const fields: Field[] = [{ kind: "pick", name: "ground", label: l10n.t("Behind it"), value, options, set: take }];
  if (value === "other" && background !== "none")
    fields.push({
      kind: "text",
      narrow: true,
      name: "colour",
      label: "#rrggbb",
      value: hexOf(background),
      set: (text) =>
        /^#?[\da-f]{6}$/i.test(text.trim())
          ? chosen({ background: Number.parseInt(text.trim().replace("#", ""), 16) })
          : [],
    });
  const answer = value === "other" && background !== "none" ? hexOf(background) : labelOf(options, value);
  return { key: "ground", word: l10n.t("Ground"), ask: l10n.t("What is behind transparent pixels?"), answer, fields };
}

function bright(state: State): Question {
  const { choices, preview } = state;
  const kind = kindOf(state);
  const turns: Option[] = [
    { value: "", label: l10n.t("as it is") },
    { value: "invert", label: l10n.t("inverted"), hint: l10n.t("dark becomes light") },
  ];
  const invert = choices.invert ? "invert" : "";
  const fields: Field[] = [
    {
      kind: "pick",
      name: "invert",
      label: l10n.t("Light"),
      value: invert,
      options: turns,
      set: (v) => chosen({ invert: v === "" ? undefined : true }),
    },
  ];
  const answer = [labelOf(turns, invert)];
  const cap = preview?.bitmap.limit;
  if (kind !== "mono" && cap !== undefined) {
    const options: Option[] = [
      { value: "scale", label: l10n.t("white is the cap"), hint: String(cap) },
      { value: "clamp", label: l10n.t("what is over it becomes the cap") },
    ];
    const value = choices.overCap ?? preview?.overCap ?? "scale";
    fields.push({
      kind: "pick",
      name: "overCap",
      label: l10n.t("Cap"),
      value,
      options,
      set: (v) => chosen({ overCap: v as "scale" }),
    });
    answer.push(labelOf(options, value));
  }
  // Only where a value is a share of time: a screen's code values need no decoding.
  if (kind === "gray" && preview?.bitmap.light !== "srgb") {
    const options: Option[] = [
      { value: "", label: l10n.t("greys stay their numbers") },
      { value: "linear", label: l10n.t("greys become shares of time"), hint: l10n.t("as bright as on a screen") },
    ];
    const value = choices.linear ? "linear" : "";
    fields.push({
      kind: "pick",
      name: "linear",
      label: l10n.t("Values"),
      value,
      options,
      set: (v) => chosen({ linear: v === "" ? undefined : true }),
    });
    if (value !== "") answer.push(labelOf(options, value));
  }
  return { key: "levels", word: l10n.t("Levels"), ask: l10n.t("How bright is it?"), answer: answer.join(", "), fields };
}

function steps(state: State): Question {
  const { choices } = state;
  const kind = kindOf(state);
  const options: Option[] = [
    { value: "none", label: kind === "rgb" || kind === "palette" ? l10n.t("nearest colour") : l10n.t("nearest level") },
    { value: "floyd-steinberg", label: "Floyd–Steinberg", hint: l10n.t("errors handed on") },
    ...(kind === "palette"
      ? []
      : (["2", "4", "8"] as const).map((n) => ({ value: `ordered-${n}`, label: l10n.t("ordered {0}×{0}", n) }))),
  ];
  const value = choices.dither ?? "none";
  const fields: Field[] = [
    {
      kind: "pick",
      name: "dither",
      label: l10n.t("Shades"),
      value,
      options,
      set: (v) =>
        chosen({
          dither: v === "none" ? undefined : (v as "ordered-2"),
          ...(v.startsWith("ordered") ? { threshold: undefined } : {}),
        }),
    },
  ];
  const answer = [labelOf(options, value)];
  const { threshold } = choices;
  if ((kind === "mono" && !value.startsWith("ordered")) || (kind === "gray" && value === "none")) {
    fields.push({
      kind: "text",
      narrow: true,
      name: "threshold",
      label: l10n.t("Lit from, of 255"),
      hint: kind === "mono" ? "128" : "",
      value: threshold === undefined ? "" : String(Math.round(threshold * 255)),
      set: (text) => {
        const level = whole(text);
        if (text.trim() === "") return chosen({ threshold: undefined });
        return level === undefined || level > 255 ? [] : chosen({ threshold: level / 255 });
      },
    });
    if (threshold !== undefined) answer.push(l10n.t("lit from {0}", Math.round(threshold * 255)));
  }
  if (kind === "palette" && state.place.kind === "new") {
    const most = 2 ** (FORMATS.get(formatOf(state))?.depth ?? 8);
    const counts = [2, 4, 16, 256].filter((n) => n <= most).map((n) => ({ value: String(n), label: String(n) }));
    const count = String(choices.colours ?? most);
    fields.push({
      kind: "pick",
      name: "colours",
      label: l10n.t("Colours at most"),
      value: count,
      options: counts,
      set: (v) => chosen({ colours: Number(v) === most ? undefined : Number(v) }),
    });
    const held = ["rgb888", "rgb565", "rgb332"].map((name) => ({ value: name, label: name }));
    const format = choices.paletteFormat ?? "rgb888";
    fields.push({
      kind: "pick",
      name: "paletteFormat",
      label: l10n.t("Stored as"),
      value: format,
      options: held,
      set: (v) => chosen({ paletteFormat: v === "rgb888" ? undefined : v }),
    });
    answer.push(l10n.t("{0} colours", count));
  }
  return {
    key: "steps",
    word: l10n.t("Steps"),
    ask: l10n.t("What becomes of shades in between?"),
    answer: answer.join(", "),
    fields,
  };
}
