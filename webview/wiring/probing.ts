/** The wiring view: open or not, and the answers to the probe so far; pure. */
import * as l10n from "@vscode/l10n";
import { type ProbeAnswer, type Probed, type ProbedPanel, probe } from "../../shared/light/wiring/probe.ts";
import type { Shown } from "../../shared/protocol/webview.ts";

/** A probe under way. */
export interface Probing {
  readonly panel: string;
  readonly size: ProbedPanel;
  readonly answers: readonly ProbeAnswer[];
  /** The pattern that is asked about; undefined where all are answered. */
  readonly pattern: number | undefined;
  /** The pixels said to be lit with it so far. */
  readonly lit: ReadonlySet<number>;
  readonly probed: Probed;
}

export interface WiringState {
  /** The wiring view is shown. */
  readonly wiring?: boolean;
  readonly probing?: Probing;
}

export type WiringAction =
  | { readonly type: "wiring"; readonly open: boolean }
  | { readonly type: "probe"; readonly step: "begin" | "stop" | "answer" | "back" | "all" | "none" }
  | { readonly type: "probe"; readonly step: "light"; readonly pixel: number; readonly lit: boolean };

type Part = WiringState & { readonly shown?: Shown; readonly note: string };

export function reduceWiring<S extends Part>(state: S, action: WiringAction): S {
  if (action.type === "wiring") {
    const { probing: _, ...closed } = state;
    return { ...(closed as S), wiring: action.open };
  }
  const { probing, shown } = state;
  if (action.step === "begin") return shown?.wiring ? { ...state, probing: begun(shown), note: "" } : state;
  if (!probing) return state;
  if (action.step === "stop") return withoutProbing(state);
  return { ...state, probing: stepped(probing, action), note: "" };
}

/** A probe goes on while its panel stays as it is. */
export function keepProbing<S extends Part>(state: S): S {
  const { probing, shown } = state;
  if (!probing || !shown) return state;
  const { wiring, bitmap } = shown;
  const { canvas, width, height } = probing.size;
  const same =
    wiring?.panel === probing.panel &&
    bitmap.width === width &&
    bitmap.height === height &&
    wiring.width * wiring.height === canvas.width * canvas.height;
  return same ? state : withoutProbing(state);
}

function withoutProbing<S extends Part>(state: S): S {
  const { probing: _, ...rest } = state;
  return rest as S;
}

function begun({ bitmap, wiring }: Shown): Probing {
  const { width, height } = bitmap;
  const canvas = wiring ? { width: wiring.width, height: wiring.height } : { width, height };
  // A wiring on a canvas of fewer cells than pixels is wrong: the panel's own is asked about.
  const fits = canvas.width * canvas.height >= width * height;
  const size = { width, height, canvas: fits ? canvas : { width, height } };
  return asking({ panel: wiring?.panel ?? "", size, answers: [] });
}

/** Every pixel should light up with the first pattern; with the others none is taken for granted. */
function asking(of: Pick<Probing, "panel" | "size" | "answers">): Probing {
  const probed = probe(of.size, of.answers);
  const all = probed.next === 0 ? pixelsOf(of.size) : [];
  return { ...of, probed, pattern: probed.next, lit: new Set(all) };
}

const pixelsOf = ({ width, height }: ProbedPanel) => Array.from({ length: width * height }, (_, i) => i);

function stepped(probing: Probing, action: Exclude<WiringAction, { type: "wiring" }>): Probing {
  const { answers, pattern, lit, size } = probing;
  switch (action.step) {
    case "light": {
      const next = new Set(lit);
      if (action.lit) next.add(action.pixel);
      else next.delete(action.pixel);
      return { ...probing, lit: next };
    }
    case "all":
      return { ...probing, lit: new Set(pixelsOf(size)) };
    case "none":
      return { ...probing, lit: new Set() };
    case "answer":
      if (pattern === undefined) return probing;
      return asking({ ...probing, answers: [...answers, { pattern, lit: [...lit].sort((a, b) => a - b) }] });
    case "back": {
      const last = answers.at(-1);
      if (!last) return probing;
      const before = answers.slice(0, -1);
      const probed = probe(size, before);
      return { ...probing, answers: before, probed, pattern: last.pattern, lit: new Set(last.lit) };
    }
    default:
      return probing;
  }
}

/** What is known so far, in words. */
export function foundInWords({ probed, answers }: Probing): string {
  const { left, index, wire, sure } = probed;
  if (index && wire !== undefined && sure) return l10n.t("Found: wire={0}", wire);
  if (index && wire !== undefined) return l10n.t("One usual wiring is left: wire={0}", wire);
  if (index) return l10n.t("Found, and no usual wiring: it takes a table.");
  if (sure) return l10n.t("The answers give no wiring.");
  if (left === 0) return l10n.t("No usual wiring is left: every bit is asked.");
  if (answers.length === 0) return l10n.t("Nothing is known yet.");
  return left === "many" ? l10n.t("Many wirings are possible still.") : l10n.t("{0} wirings are possible still.", left);
}
