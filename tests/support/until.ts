/** Waiting for conditions; apart from the stand-in for the extension, which the bench uses without the test runner. */
import { vi } from "vitest";

/** Waits until a check holds: long, as a loaded machine draws late. */
export const until = (check: () => void | Promise<void>) => vi.waitFor(check, { timeout: 10_000 });
