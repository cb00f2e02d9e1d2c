import fc from "fast-check";
import { expect, it } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import { checkFile } from "../../shared/checks/all.ts";
import { liveMotions } from "../../shared/motion/live.ts";
import { playerOf } from "../../shared/motion/play.ts";
import { CASES } from "../oracle/live/functions.ts";
import { runs } from "../support/runs.ts";

const TOKENS =
  "if else for while do switch case default break continue return goto sizeof struct enum static const int uint8_t float void auto x y t b f ( ) { } [ ] ; , : ? = == + - * / % & | ^ ~ ! ++ -- += <<= << >> < > . -> # \n 0 1 7 255 0x1ff 1.5f 'a' \"s\" min max map sin millis memset pgm_read_byte F(1) MACRO true NULL".split(
    " ",
  );

const PANEL = "// @panel p 4x3 gray8\n#define MACRO(a) ((a) + 1)\nuint8_t b[12];\n";

/** Plays what there is: all that may come of any text are frames or findings. */
function play(text: string): void {
  for (const name of ["a.cpp", "a.ino"]) {
    const file = openText(text, name);
    for (const { span, message } of checkFile(file)) {
      expect(message).not.toBe("");
      expect(span.start).toBeGreaterThanOrEqual(0);
      expect(span.end).toBeLessThanOrEqual(text.length);
      expect(span.start).toBeLessThanOrEqual(span.end);
    }
    for (const motion of liveMotions(file)) {
      const player = playerOf(motion);
      if (!player) expect(motion.why).toBeDefined();
    }
  }
}

it("any tokens in a function give frames or findings, in little time", () => {
  const body = fc.array(fc.constantFrom(...TOKENS), { maxLength: 40 }).map((tokens) => tokens.join(" "));
  fc.assert(
    fc.property(body, fc.boolean(), (tokens, pixel) => {
      const head = pixel
        ? "// @motion p code\nuint8_t f(int x, int y, int t)"
        : "// @motion p code buffer=b\nvoid f(int t)";
      play(`${PANEL}${head} { ${tokens} }\n`);
    }),
    { numRuns: runs(300) },
  );
});

it("functions that are cut, doubled or mixed up give frames or findings", () => {
  const source = fc.constantFrom(...CASES);
  fc.assert(
    fc.property(
      source,
      fc.array(fc.tuple(fc.nat(1200), fc.nat(40), fc.constantFrom("", ...TOKENS)), { maxLength: 3 }),
      (c, cuts) => {
        let { code } = c;
        for (const [at, length, put] of cuts)
          code = code.slice(0, at % code.length) + put + code.slice((at % code.length) + length);
        const first = code.search(/^(?:void|uint8_t) f\(/m);
        if (first < 0) return;
        const buffer = c.fill ? ` buffer=${c.buffer}` : "";
        play(`// @panel p ${c.panel}\n${code.slice(0, first)}// @motion p code${buffer}\n${code.slice(first)}`);
      },
    ),
    { numRuns: runs(150) },
  );
});

it.each([
  ["parentheses", (n: number) => `return ${"(".repeat(n)}x${")".repeat(n)};`],
  ["signs", (n: number) => `return ${"- ".repeat(n)}x;`],
  ["casts", (n: number) => `return ${"(int)".repeat(n)}x;`],
  ["blocks", (n: number) => `${"{".repeat(n)}${"}".repeat(n)} return x;`],
  ["conditions", (n: number) => `${"if (x) ".repeat(n)} x++; return x;`],
  ["other conditions", (n: number) => `${"if (x) y++; else ".repeat(n)} x++; return x;`],
  ["choices", (n: number) => `return ${"x ? y : ".repeat(n)} t;`],
  ["sums", (n: number) => `return ${"x + ".repeat(n)} t;`],
  ["assignments", (n: number) => `${"x = ".repeat(n)} t; return x;`],
  ["calls", (n: number) => `return ${"min(1, ".repeat(n)}x${")".repeat(n)};`],
  ["dimensions", (n: number) => `int v${"[1]".repeat(n)}; return x;`],
  ["structs", (n: number) => `${"struct { ".repeat(n)} int v; ${"} s;".repeat(n)} return x;`],
  ["stars", (n: number) => `int ${"*".repeat(n)}p; return ${"*".repeat(n)}p;`],
])("%s that nest absurdly deep", (_, body) => {
  for (const n of [150, 5000]) play(`${PANEL}// @motion p code\nuint8_t f(int x, int y, int t) { ${body(n)} }\n`);
});
