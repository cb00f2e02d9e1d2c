/** An animation that flashes on the panel flashes in a document too: it is written, and said. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { runCli } from "../support/cli.ts";
import { type LspClient, startClient } from "../support/lspClient.ts";

const TEXT = "// @bitmap 2x1 frames=2 fps=30\nconst uint8_t blink[] = { 0, 0, 255, 255 };\n";
const SAID = /^(?:dotwright: blink: )?At 30 fps light flashes 15 times within one second/;
const folder = mkdtempSync(join(tmpdir(), "dotwright-flashing-"));
let client: LspClient;
beforeAll(async () => {
  writeFileSync(join(folder, "blink.h"), TEXT);
  client = await startClient();
  client.open("file:///greenhouse/blink.h", TEXT);
});
afterAll(async () => {
  await client.stop();
  rmSync(folder, { recursive: true });
});

test("by the command", async () => {
  const moving = await runCli(["render", "blink.h", "blink", "--out", "blink.apng"], { cwd: folder });
  expect(moving).toEqual({ code: 0, stdout: "", stderr: expect.stringMatching(SAID) });
  const still = await runCli(["render", "blink.h", "blink", "--out", "blink.png"], { cwd: folder });
  expect(still).toEqual({ code: 0, stdout: "", stderr: "" });
});

test("by the language server", async () => {
  const uri = "file:///greenhouse/blink.h";
  const listed = await client.own("dotwright/bitmaps", { uri });
  const identity = "ok" in listed ? listed.ok.bitmaps[0]?.identity : undefined;
  if (!identity) throw new Error("no bitmap");
  const moving = await client.own("dotwright/export", { uri, identity, format: "apng", look: "panel" });
  expect(moving).toEqual({ ok: { base64: expect.any(String), caution: expect.stringMatching(SAID) } });
  const still = await client.own("dotwright/export", { uri, identity, format: "apng", look: "panel", frame: 0 });
  expect(still).toEqual({ ok: { base64: expect.any(String) } });
});
