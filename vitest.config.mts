import { defineConfig } from "vitest/config";

/** Layers by folder; a layer that starts processes or compilers gets a longer time limit, never a retry. */
const layer = (name: string, testTimeout: number) => ({
  test: { name, include: [`tests/${name}/**/*.test.ts`], testTimeout, hookTimeout: testTimeout },
});

export default defineConfig({
  test: {
    projects: [
      layer("unit", 10_000),
      layer("property", 60_000),
      layer("oracle", 240_000),
      layer("server", 60_000),
      layer("webview", 60_000),
      layer("editor", 240_000),
    ],
    reporters: ["default", "./tests/support/closingLine.ts"],
    coverage: {
      provider: "v8",
      include: ["shared/**/*.ts"],
      reporter: ["text-summary"],
      thresholds: { lines: 90, functions: 90, branches: 85, statements: 90 },
    },
  },
});
