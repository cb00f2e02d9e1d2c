// Runs the bench; the figures go to tests/bench/RESULTS.md with date and machine.
import { runBundled } from "../support/runBundled.mjs";

await runBundled("bench");
