/** Scripts and styles of `webview`, bundled as the package has them. */
import type { BuildOptions } from "esbuild";
import { build } from "esbuild";

/** The texts of what the entries become, by the end of their names; empty where there is none. */
export async function bundled(
  entryPoints: Readonly<Record<string, string>>,
  more: BuildOptions = {},
): Promise<(end: string) => string> {
  const made = await build({
    entryPoints: { ...entryPoints },
    bundle: true,
    platform: "browser",
    format: "esm",
    target: "es2022",
    minify: true,
    outdir: "out",
    logLevel: "error",
    ...more,
    write: false,
  });
  return (end) => made.outputFiles.find((file) => file.path.endsWith(end))?.text ?? "";
}
