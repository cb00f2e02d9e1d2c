import { defineConfig } from "vitest/config";

/** Layers by folder; a layer that starts processes or compilers gets a longer time limit, never a retry. */
const layer = (name: string, testTimeout: number, isolate = true) => ({
  test: { name, include: [`tests/${name}/**/*.test.ts`], testTimeout, hookTimeout: testTimeout, isolate },
});

const oneByOne = (project: ReturnType<typeof layer>) => ({ test: { ...project.test, fileParallelism: false } });

/** `share` of the documents that each property is tried with (see `tests/support/runs.ts`). */
const seeded = (project: ReturnType<typeof layer>, share: number) => ({
  test: { ...project.test, setupFiles: ["./tests/support/seed.ts"], env: { PROPERTY_SHARE: `${share}` } },
});

/** Layers of pure functions share one module graph, which makes them several times as fast. */
const SHARED_MODULES = false;

export default defineConfig(({ mode }) => ({
  test: {
    projects: [
      layer("unit", 20_000, SHARED_MODULES),
      seeded(layer("property", 120_000, SHARED_MODULES), mode === "fast" ? 0.2 : 1),
      layer("oracle", 240_000),
      layer("server", 60_000),
      layer("webview", 60_000),
      // Two editors at once are slow on two cores, so its files run one after the other.
      oneByOne(layer("editor", 240_000)),
    ],
    reporters: ["default", "./tests/support/closingLine.ts"],
    coverage: {
      provider: "v8",
      include: ["shared/**/*.ts"],
      reporter: ["text-summary"],
      thresholds: { lines: 90, functions: 90, branches: 85, statements: 90 },
    },
  },
}));
