/** One program of all functions: it prints every frame as a line of hexadecimal bytes. */
import type { LiveCase } from "./functions.ts";

export const FPS = 30;

const COMMON = `
#include <stdint.h>
#include <string.h>
#include <math.h>
#include <stdlib.h>
template <class A, class B, class T> static auto lerp(A a, B b, T t) -> decltype(a + (b - a) * t) { return a + (b - a) * t; }
#define min(a, b) ((a) < (b) ? (a) : (b))
#define max(a, b) ((a) > (b) ? (a) : (b))
#define constrain(v, low, high) ((v) < (low) ? (low) : (v) > (high) ? (high) : (v))
static long map(long v, long a, long b, long c, long d) { return (v - a) * (d - c) / (b - a) + c; }
static unsigned long now_ms;
static unsigned long millis() { return now_ms; }
static void put(uint8_t v) { const char *digits = "0123456789abcdef"; emit(digits[v >> 4]); emit(digits[v & 15]); }
`;

const HOST = `
#include <stdio.h>
#define PROGMEM
#define pgm_read_byte(p) (*(const uint8_t *)(p))
#define pgm_read_word(p) (*(const uint16_t *)(p))
#define pgm_read_dword(p) (*(const uint32_t *)(p))
#define pgm_read_float(p) (*(const float *)(p))
#define memcpy_P memcpy
static void emit(char c) { putchar(c); }
static void finish() {}
`;

const AVR = `
#include <avr/io.h>
#include <avr/interrupt.h>
#include <avr/pgmspace.h>
#include <avr/sleep.h>
static void emit(char c) { while (!(UCSR0A & (1 << UDRE0))) { } UDR0 = c; }
static void finish() { cli(); sleep_enable(); sleep_cpu(); for (;;) { } }
`;

/** The text of the program. Values of a `pixel` case and bytes of a buffer, one line a frame. */
export function programOf(cases: readonly LiveCase[], target: "avr" | "host"): string {
  const out: string[] = [target === "avr" ? AVR : HOST, COMMON];
  const runs = cases.map((c, i) => {
    out.push(`namespace c${i} {\n${c.code}\n}`);
    const [, width, height] = /^(\d+)x(\d+)/.exec(c.panel) as RegExpExecArray;
    const call = c.pixel ?? c.fill ?? "";
    const body = c.pixel
      ? `for (uint8_t y = 0; y < ${height}; y++) for (uint8_t x = 0; x < ${width}; x++) put(${call});`
      : `${call}; const uint8_t *p = (const uint8_t *)${c.buffer}; for (uint16_t i = 0; i < sizeof ${c.buffer}; i++) put(p[i]);`;
    out.push(`namespace c${i} { static void run() { for (uint8_t t = 0; t < ${c.frames}; t++) {
  unsigned long ms = t * 1000UL / ${FPS}; now_ms = ms; (void)ms;
  ${body}
  emit('\\n');
} } }`);
    return `c${i}::run();`;
  });
  out.push(
    `int main() {\n${target === "avr" ? "UCSR0A = 1 << U2X0; UBRR0 = 0; UCSR0B = 1 << TXEN0;\n" : ""}${runs.join("\n")}\nfinish();\nreturn 0;\n}`,
  );
  return out.join("\n");
}
