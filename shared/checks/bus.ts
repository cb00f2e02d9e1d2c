import type { Bitmap } from "../bitmap/resolve.ts";
import { durationInWords, secondsToSend } from "../light/bus.ts";
import type { Wiring } from "../light/wiring/wiring.ts";
import { canvasOf } from "../light/wiring/wiring.ts";
import { FORMATS } from "../pixels/formats.ts";
import { layOut } from "../pixels/layout.ts";
import type { Options } from "../pixels/options.ts";
import type { Finding, Rule } from "./rules.ts";
import { bitmapOf, counted } from "./rules.ts";

/** Time that the frames of a bitmap take to send. */
export interface Sending {
  readonly bytes: number;
  /** At least. */
  readonly seconds: number;
}

/** Animations faster than the bus takes frames. It stands on the word that gives the speed. */
export const bus: Rule = {
  codes: ["bus"],
  doc: "A frame takes longer to send over the display's bus than the animation's speed allows.",
  check: ({ bitmaps }) => {
    const findings: Finding[] = [];
    for (const [index, bitmap] of bitmaps.entries()) {
      const word = bitmap.words.get("fps");
      const message = word && tooFast(bitmap);
      // A word before a table of structs speaks of each of its entries.
      if (!message || !word || findings.some((f) => f.span.start === word.start)) continue;
      findings.push({
        code: "bus",
        severity: "warning",
        message,
        span: { start: word.start, end: word.end },
        bitmap: index,
        data: {},
      });
    }
    return findings;
  },
  fixes: (file, finding) => {
    const bitmap = bitmapOf(file, finding);
    const word = bitmap?.words.get("fps");
    const sending = bitmap && sendingOf(bitmap);
    const fps = sending && within(1 / sending.seconds);
    if (!word || !fps) return [];
    const edits = [{ start: word.start, end: word.end, text: `fps=${fps}` }];
    return [{ kind: "slow-bus", title: `Slow ${bitmap.array.name} to ${fps} fps`, edits }];
  },
};

function tooFast(bitmap: Bitmap): string | undefined {
  const { fps } = bitmap.options;
  const sending = sendingOf(bitmap);
  if (fps === undefined || !sending || fps * sending.seconds <= 1 + 1e-9) return undefined;
  const most = within(1 / sending.seconds);
  return `A frame of ${counted(sending.bytes, "byte")} takes ${durationInWords(sending.seconds)} to send, at ${fps} fps there are ${durationInWords(1 / fps)}: this bus carries ${most} frames a second at most.`;
}

/** Undefined where no bus is given, or the size of a frame is not known. */
export function sendingOf({ options, panel }: Bitmap): Sending | undefined {
  const { bus: bits, overhead } = options;
  const bytes =
    bits === undefined ? undefined : frameBytes(panel?.options.width ? panel.options : options, panel?.wiring);
  return bits === undefined || bytes === undefined
    ? undefined
    : { bytes, seconds: secondsToSend(bytes, { bus: bits, overhead }) };
}

/**
 * Bytes of one frame as the display takes it: that of the panel, of which a smaller bitmap is a part, on the canvas of
 * its driver. Elements that are wider than their pixels are the firmware's own business, so bytes are packed.
 */
function frameBytes(options: Options, wiring: Wiring | undefined): number | undefined {
  const { wire, width: across = 0, height: down = 0 } = options;
  const { width, height } = wiring ?? canvasOf(wire, across, down);
  const format = options.format ?? FORMATS.get("gray8");
  if (!format || width < 1 || height < 1) return undefined;
  const pack = options.pack === "each" || format.depth >= 8 ? "rows" : (options.pack ?? "rows");
  const laid = layOut({
    width,
    height,
    frames: 1,
    format,
    pack,
    bits: options.bits ?? "msb",
    elementBits: 8,
    pad: options.pad ?? "element",
    spare: options.spare ?? "last",
    bytes: "be",
    scan: "rows",
    from: "top-left",
    skip: 0,
    lead: 0,
  });
  return "why" in laid ? undefined : laid.elements;
}

/** The highest speed within another, in whole frames a second where there is one. */
function within(fps: number): number {
  if (fps >= 1) return Math.floor(fps + 1e-9);
  return Math.floor(fps * 100 + 1e-9) / 100;
}
