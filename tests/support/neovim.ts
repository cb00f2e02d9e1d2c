/** Neovim as a language client that knows nothing of this project: what it shows of a file. */
import { spawn } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const SERVER = fileURLToPath(new URL("../../dist/server.js", import.meta.url));

export interface NeovimSees {
  /** As `vim.diagnostic.get` gives them: lines and columns from 0, columns in bytes. */
  readonly diagnostics: readonly {
    readonly lnum: number;
    readonly col: number;
    readonly message: string;
    readonly severity: number;
    readonly source: string;
    readonly code?: string;
  }[];
  /** The result of `textDocument/hover` at the cursor. */
  readonly hover: { readonly contents: { readonly kind: string; readonly value: string } } | null;
  /** The text after the first quick fix of the first diagnostic was applied by Neovim itself. */
  readonly fixed: string;
}

/**
 * A client of its own: starts the server, waits until diagnostics arrive, hovers over a word, applies a fix, writes what
 * it saw and quits. `vim.wait` looks every 20 ms and gives up with an error.
 */
const INIT = `
local job = vim.fn.json_decode(vim.fn.readfile(vim.env.DOTWRIGHT_JOB))
local function finish(seen)
  vim.fn.writefile({ vim.fn.json_encode(seen) }, job.out)
  vim.cmd("qall!")
end
local function need(ok, what)
  if not ok then
    finish({ error = "waited in vain for " .. what })
    error(what)
  end
end
local function main()
  vim.cmd("edit " .. job.file)
  local id = vim.lsp.start_client({ name = "dotwright", cmd = { job.node, job.server, "--stdio" } })
  vim.lsp.buf_attach_client(0, id)
  need(vim.wait(20000, function() return #vim.diagnostic.get(0) > 0 end, 20), "diagnostics")
  local seen = { diagnostics = {} }
  for i, d in ipairs(vim.diagnostic.get(0)) do
    seen.diagnostics[i] = { lnum = d.lnum, col = d.col, message = d.message, severity = d.severity, source = d.source, code = d.code }
  end
  vim.fn.search(job.word)
  local answers = vim.lsp.buf_request_sync(0, "textDocument/hover", vim.lsp.util.make_position_params(), 20000)
  need(answers and answers[id], "a hover")
  seen.hover = answers[id].result or vim.NIL
  local first = vim.lsp.diagnostic.get_line_diagnostics(0, seen.diagnostics[1].lnum)
  vim.api.nvim_win_set_cursor(0, { seen.diagnostics[1].lnum + 1, seen.diagnostics[1].col })
  local params = vim.lsp.util.make_range_params()
  params.context = { diagnostics = first }
  local actions = vim.lsp.buf_request_sync(0, "textDocument/codeAction", params, 20000)
  need(actions and actions[id] and actions[id].result and actions[id].result[1], "a fix")
  vim.lsp.util.apply_workspace_edit(actions[id].result[1].edit, vim.lsp.get_client_by_id(id).offset_encoding)
  seen.fixed = table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, false), "\\n")
  vim.lsp.stop_client(id)
  need(vim.wait(20000, function() return vim.lsp.get_client_by_id(id) == nil or vim.lsp.client_is_stopped(id) end, 20), "the server to stop")
  finish(seen)
end
vim.schedule(function()
  local ok, why = pcall(main)
  if not ok then finish({ error = tostring(why) }) end
end)
`;

/** Opens a text in Neovim and tells what it shows of it, with the cursor on `word` for the hover. */
export async function askNeovim(text: string, word: string): Promise<NeovimSees> {
  const folder = await mkdtemp(join(tmpdir(), "neovim-"));
  try {
    const path = (name: string) => join(folder, name);
    const job = { file: path("art.h"), out: path("out.json"), node: process.execPath, server: SERVER, word };
    await writeFile(job.file, text);
    await writeFile(path("init.lua"), INIT);
    await writeFile(path("job.json"), JSON.stringify(job));
    const env = {
      ...process.env,
      DOTWRIGHT_JOB: path("job.json"),
      HOME: folder,
      XDG_CONFIG_HOME: folder,
      XDG_DATA_HOME: folder,
      XDG_STATE_HOME: folder,
      XDG_CACHE_HOME: folder,
    };
    const args = ["--headless", "--clean", "-n", "-u", path("init.lua")];
    const errors = await new Promise<string>((resolve, reject) => {
      const child = spawn("nvim", args, { env, stdio: ["ignore", "ignore", "pipe"] });
      let said = "";
      child.stderr.on("data", (part: Buffer) => {
        said += part.toString();
      });
      child.on("error", reject);
      child.on("close", () => resolve(said));
    });
    const out = await readFile(job.out, "utf8").catch(() => {
      throw new Error(`neovim wrote no result: ${errors}`);
    });
    const seen = JSON.parse(out) as NeovimSees & { error?: string };
    if (seen.error !== undefined) throw new Error(`neovim: ${seen.error}\n${errors}`);
    return seen;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
