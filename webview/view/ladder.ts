/** The level ladder: rungs even to the eye from dark to full, the cap as a line across, rungs above it hatched. */
import * as l10n from "@vscode/l10n";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { lightnessOf, rungs } from "../levels.ts";
import { mostUsed } from "../light.ts";
import type { Action } from "../state.ts";
import { levelName, percent, pixelCount } from "../words.ts";
import { el } from "./dom.ts";
import { MOST_LISTED, makeInUse } from "./inUse.ts";
import type { Lamps } from "./lamps.ts";
import { listenToRadios } from "./radios.ts";
import { makeRung } from "./rung.ts";
import { fillRungs, useOf } from "./rungs.ts";
import type { ValuesModel, ValuesView } from "./values.ts";

export function makeLadder(dispatch: (action: Action) => void): ValuesView {
  const list = el("div", { class: "rungs", role: "radiogroup", "aria-label": l10n.t("Level") });
  const usedValues = makeInUse(l10n.t("also in use"), l10n.t("Used between the rungs"), (level) =>
    dispatch({ type: "level", level }),
  );
  let drawn: Lamps | undefined;
  let steps: number[] = [];

  listenToRadios(list, (level) => dispatch({ type: "level", level }), true);

  const build = (bitmap: BitmapInfo, lamps: Lamps) => {
    steps = rungs(bitmap.most, bitmap.limit, bitmap.light);
    const rows: HTMLElement[] = [];
    for (const value of [...steps].reverse()) {
      if (value === bitmap.limit) rows.push(el("div", { class: "cap" }));
      rows.push(rung(value, bitmap, lamps));
    }
    list.replaceChildren(...rows);
  };

  return {
    parts: { ladder: list, used: usedValues.element },
    draw: ({ bitmap, light, level, lamps }: ValuesModel) => {
      if (lamps !== drawn) build(bitmap, lamps);
      drawn = lamps;
      const use = useOf(steps, light, bitmap);
      fillRungs(list, steps, use, bitmap, level);
      const between = new Map(use.between.map((one) => [one.value, one.count]));
      const listed = new Set(mostUsed(between, MOST_LISTED));
      const values = use.between.filter(({ value }) => listed.has(value));
      const used = values.map(({ value, count, rung }) => {
        const words = [l10n.t("level {0}", value), pixelCount(count), l10n.t("nearest rung {0}", rung)];
        if (lamps.over(value)) words.push(l10n.t("over the cap"));
        return { value, count, text: String(value), words: words.join(", ") };
      });
      usedValues.draw(used, between.size - used.length, level, lamps);
    },
  };
}

function rung(value: number, { most, light }: BitmapInfo, lamps: Lamps): HTMLElement {
  return makeRung({
    value,
    text: levelName(value, most),
    colour: lamps.lit(value) ?? lamps.face,
    over: lamps.over(value),
    facts: [
      l10n.t("{0} of full", percent(value / most)),
      l10n.t("lightness L* {0}", lightnessOf(value, most, light).toFixed(0)),
    ],
  });
}
