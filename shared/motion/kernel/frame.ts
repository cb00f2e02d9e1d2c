/** Frames of a motion. Start here: what a motion is, and one frame of it. */
import type { Edge } from "./edge.ts";
import { pixelAt } from "./pixel.ts";
import type { Timeline } from "./timeline.ts";

/** An image that an edge uncovers as it moves through the values of a mask, or covers. */
export interface Moving {
  readonly width: number;
  readonly height: number;
  /** Levels and mask values, width·height of them, row by row from the top left. */
  readonly image: Uint8Array;
  readonly mask: Uint8Array;
  /** What the image is uncovered over; missing for a dark display. */
  readonly under?: Uint8Array | undefined;
  readonly edge: Edge;
  /** Highest level that is shown. */
  readonly cap: number;
  readonly timeline: Timeline;
}

/** The levels at a position. */
export function frameAt({ image, mask, under, edge, cap }: Omit<Moving, "timeline">, position: number): Uint8Array {
  const out = new Uint8Array(image.length);
  for (let i = 0; i < out.length; i++)
    out[i] = pixelAt(edge, (mask[i] as number) - position, image[i] as number, under?.[i] ?? 0, cap);
  return out;
}

/** One frame for each position of the timeline. */
export function framesOf(moving: Moving): Uint8Array[] {
  return Array.from(moving.timeline.positions, (position) => frameAt(moving, position));
}
