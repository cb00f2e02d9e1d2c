/**
 * The contact sheet as one HTML page that needs nothing but itself: every bitmap with its picture, facts and findings,
 * and a link to its line of the source. No script, no network; it follows the reader's light or dark, and shows frames
 * side by side to who wants no motion.
 */
import { characterOf } from "../shared/bitmap/glyphs.ts";
import type { Bitmap, BitmapFile } from "../shared/bitmap/resolve.ts";
import { checkFile } from "../shared/checks/all.ts";
import type { Finding } from "../shared/checks/rules.ts";
import { counted } from "../shared/checks/rules.ts";
import { escaped } from "../shared/image/out/svg.ts";
import { fullLight } from "../shared/light/limit.ts";
import { lineAt, lineStarts } from "../shared/source/text.ts";
import { dataUri } from "./dataUri.ts";
import { factsOf } from "./features/facts.ts";
import { bytesInWords, bytesOf } from "./features/words.ts";
import type { Raster } from "./png.ts";
import { encodeApng, encodePng } from "./png.ts";
import { panelRaster } from "./raster.ts";
import { framesInRows, sheetScale } from "./sheet.ts";
import style from "./sheetPage.css";

export interface PageFile {
  /** As it is shown. */
  readonly title: string;
  /** Relative to the page, percent-encoded where it must be. */
  readonly href: string;
  readonly file: BitmapFile;
}

export interface SheetPage {
  readonly html: string;
  readonly shown: number;
}

/** undefined where there is no bitmap at all. */
export function drawSheetPage(files: readonly PageFile[]): SheetPage | undefined {
  const sections: string[] = [];
  let [shown, bytes, findings] = [0, 0, 0];
  for (const page of files) {
    const { bitmaps } = page.file;
    if (bitmaps.length === 0) continue;
    const found = checkFile(page.file);
    shown += bitmaps.length;
    bytes += bitmaps.reduce((sum, b) => sum + bytesOf(b), 0);
    findings += found.filter((f) => f.bitmap >= 0).length;
    sections.push(sectionOf(page, found));
  }
  if (shown === 0) return undefined;
  const sum = [counted(shown, "bitmap"), bytesInWords(bytes), counted(findings, "finding")].join(" · ");
  const html = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>Bitmaps</title>
<style>
${style}</style>
</head>
<body>
<header>
<h1>Bitmaps</h1>
<p>${sum}</p>
</header>
<main>
${sections.join("\n")}
</main>
</body>
</html>
`;
  return { html, shown };
}

function sectionOf({ title, href, file }: PageFile, findings: readonly Finding[]): string {
  const starts = lineStarts(file.source.text);
  const items = file.bitmaps.map((bitmap, i) => {
    const line = lineAt(starts, bitmap.array.nameSpan.start) + 1;
    const own = findings.filter((f) => f.bitmap === i);
    return itemOf(bitmap, own, `${href}#L${line}`, `${title}:${line}`, line);
  });
  const bytes = file.bitmaps.reduce((sum, b) => sum + bytesOf(b), 0);
  return `<section>
<h2><a href="${escaped(href)}">${escaped(title)}</a> <small>${counted(items.length, "bitmap")} · ${bytesInWords(bytes)}</small></h2>
<ol>
${items.join("\n")}
</ol>
</section>`;
}

function itemOf(bitmap: Bitmap, findings: readonly Finding[], href: string, place: string, line: number): string {
  const { array } = bitmap;
  const facts = factsOf(bitmap);
  const speed = bitmap.frames > 1 && bitmap.options.fps !== undefined ? [`${bitmap.options.fps} frames a second`] : [];
  const flashes = findings.some((f) => f.code === "flashing");
  const marks = findings.map(
    ({ severity, code, message }) =>
      `<li class="${severity}"><b>${severity}</b> ${escaped(message)} <i>${code}</i></li>`,
  );
  const picture = pictureOf(bitmap, `${array.name}: ${[...facts, ...speed].join(", ")}`, !flashes);
  return `<li class="bitmap${picture.wide ? " wide" : ""}">
<a class="at" href="${escaped(href)}" title="${escaped(place)}">${line}</a>
<div>
<h3><a href="${escaped(href)}">${escaped(array.name)}</a></h3>
${picture.html}<p>${escaped(inLines([...facts, ...speed]))}</p>
${marks.length > 0 ? `<ul>\n${marks.join("\n")}\n</ul>\n` : ""}</div>
</li>`;
}

/** Short facts, such as `peak 64 of cap 64`, are not torn apart where a line ends. */
const inLines = (facts: readonly string[]) =>
  facts.map((fact) => (fact.length <= 30 ? fact.replaceAll(" ", "\u00a0") : fact)).join(" · ");

/** Frames side by side on the page's ground, which shows between them in light and dark alike. */
const GROUND = [58, 62, 64] as const;
/** Frames go on in a second row from here, in pixels of the page. */
const WIDE = 512;
/** Most pixels of all frames of an animation that moves on the page. */
const MOST_MOVING = 1 << 20;

function pictureOf(bitmap: Bitmap, alt: string, mayMove: boolean): { readonly html: string; readonly wide: boolean } {
  const still = framesInRows(bitmap, GROUND, WIDE);
  if (!still) return { html: "", wide: false };
  const wide = still.width > 220;
  const image = (raster: Raster) => dataUri(encodePng(raster));
  const moving = mayMove ? movingOf(bitmap) : undefined;
  if (!moving) {
    const html = `<img src="${image(still)}" width="${still.width}" height="${still.height}" alt="${escaped(alt)}">\n`;
    return { html, wide };
  }
  const scale = Math.max(1, Math.floor(Math.min(108 / bitmap.height, 512 / bitmap.width)), sheetScale(bitmap));
  const size = `width="${bitmap.width * scale}" height="${bitmap.height * scale}"`;
  const html = `<picture><source media="(prefers-reduced-motion: reduce)" srcset="${image(still)}" width="${still.width}" height="${still.height}"><img src="${moving}" ${size} alt="${escaped(alt)}"></picture>\n`;
  return { html, wide };
}

/** An animation moves where its speed is known; the frames of a glyph set are no animation. */
function movingOf(bitmap: Bitmap): string | undefined {
  const { frames, width, height, options } = bitmap;
  if (frames < 2 || options.fps === undefined || characterOf(options, 0) !== undefined) return undefined;
  if (width * height * frames > MOST_MOVING) return undefined;
  const rasters: Raster[] = [];
  for (let frame = 0; frame < frames; frame++) {
    const raster = panelRaster(bitmap, frame, fullLight(bitmap));
    if (!raster) return undefined;
    rasters.push(raster);
  }
  return dataUri(encodeApng(rasters, options.fps));
}
