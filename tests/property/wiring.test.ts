/** Wirings of every kind: each pixel has an address of its own, arrays go from one order to the other, the probe finds them. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { conversionsOf, convert } from "../../shared/bitmap/convert/convert.ts";
import { copiedAs } from "../../shared/bitmap/copiedAs.ts";
import { editPixels } from "../../shared/bitmap/edit.ts";
import { makeBitmap } from "../../shared/bitmap/make.ts";
import { openText } from "../../shared/bitmap/open.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { restructure } from "../../shared/bitmap/restructure/restructure.ts";
import { checkFile } from "../../shared/checks/all.ts";
import { intoBitmap } from "../../shared/image/into.ts";
import { highest } from "../../shared/light/limit.ts";
import { family, usualFor } from "../../shared/light/wiring/family.ts";
import { lights } from "../../shared/light/wiring/patterns.ts";
import type { Probed, ProbedPanel } from "../../shared/light/wiring/probe.ts";
import { probe } from "../../shared/light/wiring/probe.ts";
import { wiringOf } from "../../shared/light/wiring/wiring.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { runs } from "../support/runs.ts";
import { allPixels, changesFor, wantedPixels } from "./pixels.ts";
import { randomWirings } from "./wirings.ts";
import { wordsOf } from "./wordsOf.ts";

test("every pixel has an address of its own on the canvas", () => {
  fc.assert(
    fc.property(randomWirings, ({ width, height, wire }) => {
      const { wiring, problems } = wiringOf(wire, width, height);
      expect(problems).toEqual([]);
      const cells = (wiring?.width ?? 0) * (wiring?.height ?? 0);
      expect(new Set(wiring?.index).size).toBe(width * height);
      for (const address of wiring?.index ?? []) expect(address).toBeLessThan(cells);
    }),
    { numRuns: runs(400) },
  );
});

const NAME = "made.cpp";
const world = { reopen: (text: string) => openText(text, NAME), findings: checkFile };

/** A file with one array on a wired panel. */
const wired = fc
  .tuple(randomWirings, wordsOf([...FORMATS.keys()]), fc.boolean(), fc.nat())
  .map(([{ width, height, wire }, { words }, driver, seed]) => {
    const head = `// @panel sill ${width}x${height} wire=${wire}\n`;
    const [own = "", free = ""] = words.replace(/^\S+/, "sill").split(/(?= -- )/);
    const full = `${own}${driver ? " order=driver" : ""}${free}`;
    const file = openText(head, NAME);
    const request = { words: full, name: "art", offset: head.length };
    const empty = makeBitmap(file, request);
    if ("refused" in empty) throw new Error(`${full}: ${empty.refused}`);
    const { most } = empty.bitmap.format;
    const pixels = (frame: number, i: number) => (Math.imul(seed + frame * 977 + i, 2654435761) >>> 8) & most;
    const made = makeBitmap(file, { ...request, pixels });
    if ("refused" in made) throw new Error(made.refused);
    return { text: `${head}${made.annotation}\n${made.statement}\n`, driver };
  });

const artOf = (file: BitmapFile) => file.bitmaps[0] as Bitmap;

test("an array goes from the panel's order to the driver's and back, and its picture stays", () => {
  let converted = 0;
  fc.assert(
    fc.property(wired, ({ text, driver }) => {
      const file = openText(text, NAME);
      const [there, back] = driver ? ["order:panel", "order:driver"] : ["order:driver", "order:panel"];
      if (!conversionsOf(file, artOf(file)).some(({ id }) => id === there)) return;
      const first = convert(file, artOf(file), there, world);
      if ("refused" in first) expect.fail(`${text}: ${first.refused}`);
      const between = openText(applyEdits(text, first.edits), NAME);
      expect(allPixels(artOf(between))).toEqual(allPixels(artOf(file)));
      const second = convert(between, artOf(between), back, world);
      if ("refused" in second) expect.fail(`${between.source.text}: ${second.refused}`);
      const again = openText(applyEdits(between.source.text, second.edits), NAME);
      expect(allPixels(artOf(again))).toEqual(allPixels(artOf(file)));
      converted++;
    }),
    { numRuns: runs(80) },
  );
  expect(converted).toBeGreaterThan(runs(80) / 2);
});

test("pixels painted on an array in driver order are read back", () => {
  const stroke = fc.array(fc.record({ frame: fc.nat(), x: fc.nat(), y: fc.nat(), value: fc.nat() }), {
    minLength: 1,
    maxLength: 8,
  });
  fc.assert(
    fc.property(wired, stroke, ({ text }, places) => {
      const bitmap = artOf(openText(text, NAME));
      const seen = new Set<string>();
      const changes = changesFor(bitmap, places).filter(({ frame, x, y }) => {
        const key = `${frame} ${x} ${y}`;
        return !seen.has(key) && seen.add(key);
      });
      const painted = editPixels(text, bitmap, changes);
      if ("refused" in painted) expect.fail(`${text}: ${painted.refused}`);
      const after = artOf(openText(applyEdits(text, painted.edits), NAME));
      expect(allPixels(after)).toEqual(wantedPixels(bitmap, changes));
    }),
    { numRuns: runs(80) },
  );
});

test("frames of an array in driver order are added, doubled, moved and taken away, and read back", () => {
  const orders = fc.array(fc.oneof(fc.nat(5), fc.constant("dark" as const)), { minLength: 1, maxLength: 4 });
  let done = 0;
  fc.assert(
    fc.property(wired, orders, ({ text, driver }, asked) => {
      const file = openText(text, NAME);
      const bitmap = artOf(file);
      const order = asked.map((frame) => (frame === "dark" ? frame : frame % bitmap.frames));
      const changed = restructure(file, bitmap, { kind: "frames", order }, world);
      if ("refused" in changed) return;
      const size = bitmap.width * bitmap.height;
      const before = allPixels(bitmap);
      const wanted = order.flatMap((frame) =>
        frame === "dark" ? new Array<number>(size).fill(0) : before.slice(frame * size, (frame + 1) * size),
      );
      expect(allPixels(artOf(openText(applyEdits(text, changed.edits), NAME)))).toEqual(wanted);
      if (driver) done++;
    }),
    { numRuns: runs(120) },
  );
  expect(done).toBeGreaterThan(runs(120) / 6);
});

test("a picture comes into an array in driver order, and goes out of it as a copy", () => {
  let done = 0;
  fc.assert(
    fc.property(wired, ({ text, driver }) => {
      const file = openText(text, NAME);
      const bitmap = artOf(file);
      const { width, height, format, frames } = bitmap;
      const copy = copiedAs(file, bitmap, format.name);
      if (typeof copy === "string") expect(allPixels(artOf(openText(copy, NAME)))).toEqual(allPixels(bitmap));
      // A cap that leaves no light shows nothing of the picture.
      if (format.kind !== "gray" || highest(bitmap) === 0) return;
      const size = width * height;
      const data = Uint8Array.from({ length: 4 * size }, (_, i) => (i % 4 === 3 ? 255 : (i >> 2) % 2 ? 255 : 0));
      const brought = intoBitmap(file, bitmap, [{ width, height, data, most: 255 }], { overCap: "clamp" }, 0, world);
      if ("refused" in brought) expect.fail(`${text}: ${brought.refused}`);
      const after = artOf(openText(applyEdits(text, brought.edits), NAME));
      expect(allPixels(after).slice(size)).toEqual(allPixels(bitmap).slice(size, frames * size));
      const lit = [...allPixels(after).slice(0, size).keys()].filter((i) => allPixels(after)[i] !== 0);
      expect(lit).toEqual([...Array(size).keys()].filter((i) => i % 2 === 1));
      if (driver) done++;
    }),
    { numRuns: runs(80) },
  );
  expect(done).toBeGreaterThan(0);
});

/** Answers the probe's questions by a wiring, until it is found; what it asked. */
function asked(panel: ProbedPanel, index: ArrayLike<number>, all = false): { state: Probed; patterns: number[] } {
  const answers: { pattern: number; lit: number[] }[] = [];
  for (;;) {
    const state = probe(panel, answers);
    const { next } = state;
    if (next === undefined || (state.index && !all)) return { state, patterns: answers.map((a) => a.pattern) };
    expect(answers.some((a) => a.pattern === next)).toBe(false);
    answers.push({ pattern: next, lit: Array.from(index).flatMap((address, i) => (lights(next, address) ? [i] : [])) });
  }
}

const sizes = fc.record({ width: fc.integer({ min: 2, max: 12 }), height: fc.integer({ min: 2, max: 12 }) });

describe("the probe", () => {
  test("finds every usual wiring within a question for each bit of the address, and few more", () => {
    let [questions, bits, count] = [0, 0, 0];
    fc.assert(
      fc.property(sizes, fc.nat(), ({ width, height }, pick) => {
        const all = [...family(width, height)];
        const hidden = all[pick % all.length] as (typeof all)[number];
        const index = Uint32Array.from({ length: width * height }, (_, i) =>
          hidden.addressOf(i % width, Math.floor(i / width)),
        );
        const { state, patterns } = asked({ width, height, canvas: { width, height } }, index);
        expect(state.index).toEqual(index);
        expect(state.problems).toEqual([]);
        // The `wire=` that it names is read as the wiring.
        expect(wiringOf(state.wire ?? "", width, height).wiring?.index).toEqual(index);
        const most = Math.ceil(Math.log2(width * height));
        expect(patterns.length).toBeLessThanOrEqual(most + 1);
        questions += patterns.length;
        bits += most;
        count++;
      }),
      { numRuns: runs(25) },
    );
    // In the mean it needs far fewer.
    expect(questions / count).toBeLessThan((bits / count) * 0.8);
  });

  test("gives the table of any other wiring when every bit is told", () => {
    fc.assert(
      fc.property(sizes, fc.nat(), fc.boolean(), ({ width, height }, seed, larger) => {
        const canvas = larger ? { width: width + 1, height: height + 1 } : { width, height };
        const order = (i: number) => Math.imul(i + seed, 2654435761) >>> 0;
        const free = Array.from({ length: canvas.width * canvas.height }, (_, i) => i);
        const index = free.sort((a, b) => order(a) - order(b)).slice(0, width * height);
        const { state } = asked({ width, height, canvas }, index, true);
        expect([...(state.index ?? [])]).toEqual(index);
        expect(state.sure).toBe(true);
        expect(state.wire).toBe(usualFor(index, width, height, canvas)?.wire());
      }),
      { numRuns: runs(25) },
    );
  });

  test("names the pixels of an answer that can't be right", () => {
    fc.assert(
      fc.property(sizes, fc.nat(), fc.nat(), ({ width, height }, at, bit) => {
        const pixels = width * height;
        const bits = Math.ceil(Math.log2(pixels));
        const wrong = at % pixels;
        const answers = Array.from({ length: bits + 1 }, (_, pattern) => ({
          pattern,
          // One pixel of one answer is turned over, so that its address becomes that of another, or none.
          lit: Array.from({ length: pixels }, (_, i) => i).filter(
            (i) => lights(pattern, i) !== (i === wrong && pattern === 1 + (bit % bits)),
          ),
        }));
        const { index, problems } = probe({ width, height, canvas: { width, height } }, answers);
        expect(index).toBeUndefined();
        expect(problems.map(({ kind }) => kind)).toContain("contradiction");
        expect(problems.flatMap((p) => p.pixels)).toContain(wrong);
      }),
      { numRuns: runs(25) },
    );
  });
});
