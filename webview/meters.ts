/** The meters of the head: what a frame gives off, draws and takes to send, against what it may; pure. */
import * as l10n from "@vscode/l10n";
import { durationInWords } from "../shared/light/bus.ts";
import { currentOfFrame, currentOfValue, milliamperes } from "../shared/light/current.ts";
import type { BitmapInfo } from "../shared/protocol/lsp.ts";
import type { FrameLight } from "./light.ts";
import { formatOf } from "./values.ts";
import { percent } from "./words.ts";

export interface Meter {
  readonly name: string;
  readonly number: string;
  /** How far its bar goes, full at 1; without one there is nothing to measure it by. */
  readonly share?: number;
  readonly over?: boolean;
  /** Where the number comes from, if that is not plain. */
  readonly title?: string;
}

/** Meters for which there is data: the peak against the cap (else against full), the light, the current, the time. */
export function metersOf(bitmap: BitmapInfo, light: FrameLight): Meter[] {
  return [...lightMeters(bitmap, light), ...currentMeter(bitmap, light), ...timeMeter(bitmap)];
}

function lightMeters(bitmap: BitmapInfo, light: FrameLight): Meter[] {
  const { kind, full, cap, drive } = bitmap;
  if (kind === "mono") {
    const number = l10n.t("{0} of {1}, {2}", light.lit, bitmap.width * bitmap.height, percent(light.mean));
    return [{ name: l10n.t("lit"), number, share: light.mean, over: false }];
  }
  const driven = Math.round(light.peak * drive * 10) / 10;
  const top = cap ?? full;
  const over = cap !== undefined && driven > cap;
  const parts = [cap === undefined ? l10n.t("{0} of {1}", driven, full) : l10n.t("{0} of cap {1}", driven, cap)];
  if (over) parts.push(l10n.t("over"));
  if (drive < 1) parts.push(l10n.t("driven"));
  return [
    { name: l10n.t("peak"), number: parts.join(", "), share: top > 0 ? driven / top : driven, over },
    { name: l10n.t("light"), number: l10n.t("{0} of full", percent(light.mean)), share: light.mean, over: false },
  ];
}

/** What the frame draws, an estimate, of the budget where there is one. */
function currentMeter({ supply, ...bitmap }: BitmapInfo, light: FrameLight): Meter[] {
  if (!supply) return [];
  const { light: meaning, drive, colours } = bitmap;
  const format = { ...formatOf(bitmap), full: bitmap.full };
  const drawn = currentOfFrame(light.counts, currentOfValue({ format, light: meaning, drive, colours }, supply));
  const { budget } = supply;
  const about = l10n.t("about {0}", milliamperes(drawn));
  const title = l10n.t("an estimate, from full= and duty=; parts, cables and supplies differ");
  if (budget === undefined) return [{ name: l10n.t("current"), number: about, title }];
  const over = drawn > budget * (1 + 1e-9);
  const number = l10n.t("{0} of {1}", about, milliamperes(budget));
  return [
    {
      name: l10n.t("current"),
      number: over ? l10n.t("{0}, over", number) : number,
      share: drawn / budget,
      over,
      title,
    },
  ];
}

/** How long a frame is on its way to the display, of the time that it is shown. */
function timeMeter({ sending, fps }: BitmapInfo): Meter[] {
  if (sending === undefined) return [];
  const time = durationInWords(sending);
  const title = l10n.t("the least time that a frame takes to send, of the time that it is shown");
  if (fps === undefined) return [{ name: l10n.t("sending"), number: l10n.t("{0} a frame", time) }];
  const over = sending * fps > 1 + 1e-9;
  const number = l10n.t("{0} of {1}", time, durationInWords(1 / fps));
  return [
    { name: l10n.t("sending"), number: over ? l10n.t("{0}, over", number) : number, share: sending * fps, over, title },
  ];
}
