import { expect, it } from "vitest";
import { figuresOf, judge, mistakesOf } from "../../support/offersCorpus/judge.ts";
import { LABELS } from "../../support/offersCorpus/labels.ts";

it("corpus", () => {
  const judged = judge(LABELS);
  console.log(figuresOf(judged), mistakesOf(judged).join("\n"));
  expect(figuresOf(judged).wrongly).toBe(0);
});
