/** A bitmap of a source text as the page is shown it, and as a hover shows it: both by the server's own code. */

import { createDocuments, type Parsed } from "../../server/documents.ts";
import { listBitmaps, picture } from "../../server/features/bitmaps.ts";
import { panelRaster } from "../../server/raster.ts";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { fullLight } from "../../shared/light/limit.ts";
import type { Shown } from "../../shared/protocol/webview.ts";

/** The text as the server reads it. */
function parsedFrom(text: string): Parsed {
  const uri = "file:///greenhouse/panels.h";
  const documents = createDocuments(() => ({ target: "host" }));
  documents.open({ uri, languageId: "cpp", version: 1, text });
  const parsed = documents.parsed(uri);
  if (!parsed) throw new Error("the text is no source");
  return parsed;
}

/** All frames of a bitmap, by name; the wiring of its panel where that is what is looked at. */
export function shownFrom(text: string, name: string, wired = false): Shown {
  const parsed = parsedFrom(text);
  const list = listBitmaps(parsed);
  if ("err" in list) throw new Error(list.err);
  const { bitmaps } = list.ok;
  const bitmap = bitmaps.find((b) => b.name === name);
  if (!bitmap) throw new Error(`there is no bitmap ${name}`);
  const { identity, width, height } = bitmap;
  const frames = Array.from({ length: bitmap.frames }, (_, i) => i);
  const reply = picture(parsed, { uri: parsed.uri, identity, frames, elements: true, motion: true, wiring: true });
  if ("err" in reply) throw new Error(reply.err);
  const elements = (frame: number) => reply.ok.frames[frame]?.elements ?? [];
  const rows = Array.from({ length: height }, (_, y) => y);
  return {
    version: 1,
    bitmap: reply.ok.bitmap,
    frames: reply.ok.frames.map((f) => f.pixels),
    rowLines: frames.map((f) => rows.map((y) => (elements(f)[y * width * 4] ?? -1) + 1)),
    unwritten: frames.map((f) => [...Array(width * height).keys()].filter((i) => (elements(f)[i * 4] ?? -1) < 0)),
    others: bitmaps.filter((b) => b.why === undefined).map((b) => ({ name: b.name, identity: b.identity })),
    readOnly: false,
    findings: [],
    ...(reply.ok.motion ? { motion: reply.ok.motion } : {}),
    ...(wired && reply.ok.wiring ? { wiring: reply.ok.wiring } : {}),
  };
}

/** Red, green and blue of each pixel of a frame as a hover shows it. */
export function hoverColours(text: string, name: string, frame = 0): number[][] {
  const bitmap = parsedFrom(text).file.bitmaps.find((b) => b.array.name === name) as Bitmap;
  const raster = panelRaster(bitmap, frame, fullLight(bitmap));
  if (!raster) throw new Error(`${name} has no picture`);
  const { data, width, height } = raster;
  return Array.from({ length: width * height }, (_, i) => Array.from(data.subarray(i * 3, i * 3 + 3)));
}
