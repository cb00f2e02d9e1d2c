/** `dotwright/wire`: what a panel's wiring was found to be, to edits of the newest version. */

import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { wireEdits } from "../../shared/bitmap/wired/rewire.ts";
import { canvasOf } from "../../shared/light/wiring/wiring.ts";
import type { LspParams, LspReply, WiringInfo } from "../../shared/protocol/lsp.ts";
import type { Parsed } from "../documents.ts";
import { edited } from "./edited.ts";

/** Refuses what `edited` refuses, and a panel that is not defined in the document. */
export function wire(parsed: Parsed, params: LspParams<"dotwright/wire">): LspReply<"dotwright/wire"> {
  return edited(parsed, params, (file, bitmap) => wireEdits(file, bitmap.panel, params));
}

/** Of a bitmap that is all of its panel; undefined for any other. */
export function wiringInfo({ file }: Parsed, { panel, width, height }: Bitmap): WiringInfo | undefined {
  if (!panel || width !== panel.options.width || height !== panel.options.height) return undefined;
  const { wiring, miswired, options } = panel;
  const canvas = wiring ?? canvasOf(options.wire, width, height);
  const table = file.wirings.tables.find((t) => t.panel.name === panel.name)?.array.name;
  const rows = Array.from({ length: width * height }, (_, i) => i);
  return {
    panel: panel.name,
    width: canvas.width,
    height: canvas.height,
    ...(miswired ? {} : { index: wiring ? Array.from(wiring.index) : rows }),
    ...(options.wire === undefined ? {} : { wire: options.wire }),
    ...(table === undefined ? {} : { table }),
  };
}
