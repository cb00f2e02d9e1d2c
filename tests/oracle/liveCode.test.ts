import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import { liveMotions } from "../../shared/motion/live.ts";
import { playerOf } from "../../shared/motion/play.ts";
import { runProgram } from "../support/firmwareRun.ts";
import { CASES, type LiveCase } from "./live/functions.ts";
import { FPS, programOf } from "./live/program.ts";

/** The functions of the sample workspace, without what belongs to the file and not to them. */
const SAMPLE = readFileSync(new URL("../../sample-workspace/live.h", import.meta.url), "utf8")
  .replace(/^#.*$/gm, "")
  .replace(/^\/\/ @.*$/gm, "");
const ALL: readonly LiveCase[] = [
  ...CASES,
  { name: "the sample's ripple", panel: "9x9 gray8", code: SAMPLE, pixel: "ripple(x, y, t)", frames: 12 },
  { name: "the sample's mist", panel: "9x9 gray8", code: SAMPLE, fill: "drift()", buffer: "mist", frames: 30 },
];

/** What the interpreter plays of a case, one line of hexadecimal bytes a frame. */
function played(c: LiveCase, target: "avr" | "host"): string[] {
  const motion = `// @motion p code fps=${FPS}${c.fill && !c.fill.includes("(buf") ? ` buffer=${c.buffer}` : ""}\n`;
  const name = (c.pixel ?? c.fill ?? "").split("(")[0] as string;
  // The annotation stands before the function that is called.
  const at = c.code.search(new RegExp(`^(?:void|uint8_t|level) ${name}\\(`, "m"));
  const text = `// @panel p ${c.panel}\n${c.code.slice(0, at)}${motion}${c.code.slice(at)}\n`;
  const [live] = liveMotions(openText(text, target === "avr" ? "a.ino" : "a.cpp"));
  const player = live && playerOf(live);
  if (!live || !player) throw new Error(`${c.name} is not played: ${live?.why}`);
  return Array.from({ length: c.frames }, (_, frame) => {
    const pixels = player.frame(frame);
    const buffer = live.call?.buffer;
    const bytes = buffer
      ? live.call.cx.machine.bytes.slice(buffer.address, buffer.address + (buffer.elements * buffer.bits) / 8)
      : Uint8Array.from(pixels);
    return Buffer.from(bytes).toString("hex");
  });
}

describe.each(["host", "avr"] as const)("live code plays what the compiler's program draws: %s", (target) => {
  it("frame by frame, byte by byte", async () => {
    expect(ALL.length).toBeGreaterThanOrEqual(40);
    const lines = await runProgram(programOf(ALL, target), target);
    expect(lines.length).toBe(ALL.reduce((sum, c) => sum + c.frames, 0));
    const wrong: string[] = [];
    let at = 0;
    for (const c of ALL) {
      let own: string[];
      try {
        own = played(c, target);
      } catch (error) {
        wrong.push(`${c.name}: ${error instanceof Error ? error.message : JSON.stringify(error)}`);
        at += c.frames;
        continue;
      }
      for (const [frame, line] of own.entries()) {
        const theirs = lines[at++] as string;
        if (line !== theirs) wrong.push(`${c.name}, frame ${frame}:\n  ${line}\n  ${theirs}`);
      }
    }
    expect(wrong.join("\n")).toBe("");
  });
});
