/**
 * What is said where light or current can hurt: briefly, once where it matters, and never as the last word. Bright light
 * at close range: the risk classes of IEC 62471; heat and supply: the parts' data sheets. For flashes see `flashing.ts`.
 */

export const EYES =
  "Bright LEDs can hurt eyes at close range: check the part's data sheet, and defer to local codes and licensed practice.";

export const SUPPLIES =
  "This is an estimate: size supplies and wires by the data sheets of their parts, and defer to local codes and licensed practice.";
