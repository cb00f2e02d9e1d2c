/** Facts of a bitmap as the server tells them, for tests of what the client makes of them. */
import type { BitmapInfo } from "../../../shared/protocol/lsp.ts";

const PLACE = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

export function info(facts: Partial<BitmapInfo>): BitmapInfo {
  return {
    identity: { name: "icon", ordinal: 0, siblings: 1, structure: "" },
    name: "icon",
    width: 4,
    height: 4,
    frames: 1,
    format: "gray8",
    kind: "gray",
    most: 255,
    full: 255,
    light: "linear",
    drive: 1,
    bytes: 16,
    declaration: PLACE,
    nameRange: PLACE,
    ...facts,
  };
}
