import { expect, it } from "vitest";
import { sidesFor } from "../../../webview/wiring/cells.ts";

it.each([
  // Side by side in one size, where the numbers can be read.
  [480, 9, 9, { panel: 24, driver: 24 }],
  [1200, 9, 9, { panel: 28, driver: 28 }],
  // One under the other: the strip leaves the panel that it is folded into its size.
  [560, 16, 256, { panel: 28, driver: 3 }],
  [560, 128, 128, { panel: 4, driver: 4 }],
  [100, 256, 4, { panel: 3, driver: 23 }],
])("in %d pixels a panel of %d columns and a canvas of %d", (room, across, canvas, sides) => {
  expect(sidesFor(room, across, canvas)).toEqual(sides);
});
