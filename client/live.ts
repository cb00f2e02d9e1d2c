/** Frames of a function that is played as code: asked for in slices, so that the server stays free for other questions. */
import type { TextDocument } from "vscode";
import type { BitmapInfo, PictureFrame } from "../shared/protocol/lsp.ts";
import type { Ask } from "./ask.ts";

export interface LiveFrames {
  readonly frames: readonly PictureFrame[];
  /** Why there is no frame after these. */
  readonly stopped?: string | undefined;
}

/** Frames on the page: four seconds at thirty a second; fewer of large panels. */
const MOST = 120;
const MOST_PIXELS = 1 << 20;
/** What has come by then is shown, and the rest when it is there. */
const SHOW_EACH = 300;

/** The frames from the first on; undefined where the document changed meanwhile, which ends the asking. */
export async function readLive(
  ask: Ask,
  document: TextDocument,
  version: number,
  { identity, width, height }: BitmapInfo,
  part: (frames: readonly PictureFrame[]) => void,
): Promise<LiveFrames | undefined> {
  const most = Math.max(1, Math.min(MOST, Math.floor(MOST_PIXELS / (width * height))));
  const uri = document.uri.toString();
  const frames: PictureFrame[] = [];
  let shown = Date.now();
  while (frames.length < most) {
    const from = frames.length;
    const slice = await ask("dotwright/liveFrames", { uri, identity, from, count: most - from });
    if (slice.version !== version || document.version !== version) return undefined;
    for (const pixels of slice.frames) frames.push({ frame: frames.length, pixels });
    if (slice.stopped !== undefined) return { frames, stopped: slice.stopped };
    if (frames.length < most && Date.now() - shown > SHOW_EACH) {
      shown = Date.now();
      part(frames.slice());
    }
  }
  return { frames };
}
