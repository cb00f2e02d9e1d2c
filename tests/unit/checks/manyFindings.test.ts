import { describe, expect, it } from "vitest";
import { bytes, findingsOf } from "./findings.ts";

describe("many findings in one array", () => {
  it("the fiftieth says how many more there are", () => {
    const findings = findingsOf(bytes("60x1", `{ ${Array(60).fill("300").join(", ")} }`), "out-of-range");
    expect(findings).toHaveLength(50);
    expect(findings[49]?.message).toMatch(/\(And 10 more in this array\.\)$/);
    expect(findings[48]?.message).not.toContain("more");
  });

  it("over the cap, one for each run", () => {
    const findings = findingsOf(bytes("2x60 cap=9", `{ ${Array(60).fill("10, 1").join(", ")} }`), "over-cap");
    expect(findings).toHaveLength(50);
    expect(findings[49]?.message).toContain("(And 10 more in this array.)");
  });
});
