/** The patterns of the probe: 0 lights every address, pattern b + 1 those whose bit b is set. */

/** How many there are for so many addresses. */
export function patternsFor(addresses: number): number {
  return 1 + bitsFor(addresses);
}

/** Bits that tell the addresses apart. */
function bitsFor(addresses: number): number {
  return addresses <= 1 ? 0 : Math.ceil(Math.log2(addresses));
}

/** Whether a pattern lights an address. */
export function lights(pattern: number, address: number): boolean {
  return pattern === 0 || Math.floor(address / 2 ** (pattern - 1)) % 2 === 1;
}
