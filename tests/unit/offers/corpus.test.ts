import { expect, it } from "vitest";
import { HELD_OUT } from "../../support/offersCorpus/heldOut.ts";
import { figuresOf, judge, mistakesOf } from "../../support/offersCorpus/judge.ts";
import { LABELS } from "../../support/offersCorpus/labels.ts";

it("corpus", () => {
  for (const l of [LABELS, HELD_OUT]) {
    const judged = judge(l);
    console.log(figuresOf(judged), mistakesOf(judged).join("\n"));
  }
});
