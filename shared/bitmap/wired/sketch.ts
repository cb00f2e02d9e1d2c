/** A sketch that lights the patterns of the probe: all addresses, then those whose bit 0, 1, … is set. */
import type { Panel } from "../../light/panel.ts";
import { patternsFor } from "../../light/wiring/patterns.ts";
import { countType, stemOf } from "./names.ts";

/** A level that shows without dazzling: an eighth of the cap, at least 1; 1 where pixels are only lit or dark. */
function levelOf({ cap, format }: Panel["options"]): number {
  const most = format?.full ?? 255;
  const limit = cap === undefined ? Math.ceil(most / 4) : "value" in cap ? cap.value : (most * cap.percent) / 100;
  return Math.max(1, Math.floor(limit / 8));
}

/** `addresses` are those of the driver, from 0; some may have no pixel. */
export function probeSketch(
  panel: Panel,
  addresses: number,
  eol = "\n",
): { readonly text: string; readonly name: string } {
  const stem = stemOf(panel);
  const type = countType(addresses);
  const patterns = patternsFor(addresses);
  const { width, height } = panel.options;
  const name = `${stem}_probe`;
  const lines = [
    `/* Probe of the panel ${panel.name} (${width}x${height}): which pixel has which of the ${addresses} driver addresses?`,
    " *",
    " * 1. Fill in put_pixel and show with the calls of your driver, build this, and let it run.",
    ` * 2. Answer on the page "Wiring" of the paint editor: it names a pattern from 0 to ${patterns - 1}, you click what is lit.`,
    " *    Over the serial line at 9600 baud, send the number of the pattern and a line break. Where there is no such line,",
    " *    define PROBE_BY_NUMBER and call probe_pattern with it.",
    " *",
    " * Pattern 0 lights every address, pattern 1 those whose lowest bit is set, pattern 2 those of the next bit, and so on.",
    " * The level is low on purpose: do not stare into bright LEDs. */",
    "#include <stdint.h>",
    "",
    "/* One driver address gets a level. */",
    `static void put_pixel(${type} address, uint8_t level) {`,
    "  (void)address;",
    "  (void)level; /* such as: frame[address] = level; */",
    "}",
    "",
    "/* What was put is shown. */",
    "static void show(void) {",
    "}",
    "",
    `static void ${name}(uint8_t pattern, void (*put)(${type} address, uint8_t level)) {`,
    `  for (uint32_t address = 0; address < ${addresses}; address++)`,
    `    put((${type})address, pattern == 0 || (address >> (pattern - 1) & 1) ? ${levelOf(panel.options)} : 0);`,
    "}",
    "",
    "#ifdef PROBE_BY_NUMBER",
    "void probe_pattern(uint8_t pattern) {",
    `  ${name}(pattern, put_pixel);`,
    "  show();",
    "}",
    "#else",
    "void setup() {",
    "  Serial.begin(9600);",
    `  ${name}(0, put_pixel);`,
    "  show();",
    "}",
    "",
    "void loop() {",
    "  static uint8_t pattern = 0;",
    "  while (Serial.available() > 0) {",
    "    const int c = Serial.read();",
    "    if (c >= '0' && c <= '9') pattern = pattern * 10 + (c - '0');",
    "    else if (c == '\\n') {",
    `      if (pattern < ${patterns}) {`,
    `        ${name}(pattern, put_pixel);`,
    "        show();",
    "      }",
    "      pattern = 0;",
    "    }",
    "  }",
    "}",
    "#endif",
  ];
  return { text: lines.join(eol), name };
}
