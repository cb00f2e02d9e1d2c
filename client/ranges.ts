import { Range } from "vscode";
import type { BitmapInfo } from "../shared/protocol/lsp.ts";

export function rangeOf({ start, end }: BitmapInfo["declaration"]): Range {
  return new Range(start.line, start.character, end.line, end.character);
}
