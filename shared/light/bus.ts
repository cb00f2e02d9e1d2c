/**
 * How long a frame takes on the way to its display. A serial bus carries more bits than the bytes hold: on an I²C bus
 * each byte takes nine clocks, 8 bits and their acknowledge (NXP UM10204, I²C-bus specification, byte format), so its
 * overhead is 9/8; SPI has no such bit. Addresses, commands and pauses of the firmware come on top and are not known
 * here: the time is the least that it takes.
 */

export interface Bus {
  /** Bits a second. */
  readonly bus: number;
  /** Bits on the wire for each bit of data, 1 or more. */
  readonly overhead?: number | undefined;
}

/** Seconds that so many bytes take at least. */
export function secondsToSend(bytes: number, { bus, overhead = 1 }: Bus): number {
  return (bytes * 8 * overhead) / bus;
}

/** `23 ms`, `0.2 ms`, `1.5 s`: three digits at most. */
export function durationInWords(seconds: number): string {
  if (seconds >= 1) return `${threeDigits(seconds)} s`;
  return `${threeDigits(seconds * 1000)} ms`;
}

function threeDigits(value: number): string {
  return String(Number(value.toPrecision(value >= 100 ? 3 : 2)));
}
