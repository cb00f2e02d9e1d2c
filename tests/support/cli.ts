import { spawn } from "node:child_process";
import { basename } from "node:path";
import { fileURLToPath } from "node:url";

/** The built command, `dist/cli.js`. */
const COMMAND = fileURLToPath(new URL("../../dist/cli.js", import.meta.url));

export interface CliResult {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** One array as `list --all --values --json` prints it. */
export interface ListedArray {
  readonly file: string;
  /** 1-based line of the name. */
  readonly line: number;
  readonly name: string;
  readonly elementBits: number;
  readonly signed: boolean;
  /** What the compiler stores; 64-bit elements as decimal strings. */
  readonly values?: readonly (number | string)[];
  readonly readOnly?: unknown;
  readonly bitmap?: { readonly width: number; readonly height: number };
}

/** Runs `node dist/cli.js ARGS` and waits for its end; rejects only where the process can't start. */
export function runCli(args: readonly string[], options: { readonly cwd?: string } = {}): Promise<CliResult> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [COMMAND, ...args], { ...options, stdio: ["ignore", "pipe", "pipe"] });
    const stdout: Buffer[] = [];
    const stderr: Buffer[] = [];
    child.stdout.on("data", (part: Buffer) => stdout.push(part));
    child.stderr.on("data", (part: Buffer) => stderr.push(part));
    child.on("error", reject);
    child.on("close", (code, signal) => {
      const text = (parts: Buffer[]) => Buffer.concat(parts).toString("utf8");
      resolve({ code: code ?? -1, stdout: text(stdout), stderr: text(stderr) + (signal ? `ended by ${signal}` : "") });
    });
  });
}

/** Every array that the command finds in the files and folders; throws where it does not print the JSON of the contract. */
export async function listArrays(paths: readonly string[], target?: "avr" | "arm32" | "host"): Promise<ListedArray[]> {
  const chosen = target === undefined ? [] : ["--target", target];
  const { code, stdout, stderr } = await runCli(["list", "--all", "--values", "--json", ...chosen, ...paths]);
  if (code !== 0) throw new Error(`list ended with ${code}: ${stderr}`);
  const { arrays } = JSON.parse(stdout) as { arrays?: ListedArray[] };
  if (!Array.isArray(arrays)) throw new Error(`list printed no arrays: ${stdout.slice(0, 200)}`);
  return arrays;
}

/** The listed arrays by the base name of their file. */
export function byFile(arrays: readonly ListedArray[]): ReadonlyMap<string, readonly ListedArray[]> {
  const files = new Map<string, ListedArray[]>();
  for (const array of arrays) files.set(basename(array.file), [...(files.get(basename(array.file)) ?? []), array]);
  return files;
}
