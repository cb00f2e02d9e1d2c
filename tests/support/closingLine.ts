import type { Reporter, TestModule } from "vitest/node";

/** Ends a run with one plain line of totals, so that any CI can read how many tests ran. */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const count = { passed: 0, failed: 0, skipped: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state !== "pending") count[state] += 1;
      }
      if (module.errors().length > 0) count.failed += 1;
    }
    process.stdout.write(`\n${count.passed} passed, ${count.failed} failed, ${count.skipped} skipped\n`);
  }
}
