// Runs the fuzzer; the figures go to tests/fuzz/RESULTS.md with date and machine.
import { runBundled } from "../support/runBundled.mjs";

await runBundled("fuzz");
