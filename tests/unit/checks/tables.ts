import { describe, expect, it } from "vitest";
import { codesIn, type Expected, findingsOf } from "./findings.ts";

/** Each case gives one finding of the code; each fix gives its text, in which the code is found no more. */
export function describeFindings(code: string, usual: string, cases: readonly Expected[]): void {
  describe(code, () => {
    it.each(cases)("$what", ({ source, says, on, severity = usual }) => {
      const findings = findingsOf(source, code);
      expect(findings.map(({ text, severity }) => ({ text, severity }))).toEqual([{ text: on, severity }]);
      expect(findings[0]?.message).toContain(says);
    });

    it.each(cases)("$what: fixes", ({ source, fixes = {}, left = {} }) => {
      const offered = findingsOf(source, code)[0]?.fixes ?? [];
      expect(Object.fromEntries(offered.map((fix) => [fix.title, fix.after]))).toEqual(fixes);
      for (const { title, after } of offered) {
        expect({ title, codes: codesIn(after).filter((c) => c !== "uniform" && c !== "memory") }).toEqual({
          title,
          codes: left[title] ?? [],
        });
      }
    });
  });
}

/** Texts in which the code is not found. */
export function describeClean(code: string, cases: readonly [what: string, source: string][]): void {
  describe(`no ${code}`, () => {
    it.each(cases)("%s", (_what, source) => {
      expect(findingsOf(source, code)).toEqual([]);
    });
  });
}
