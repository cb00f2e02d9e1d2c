/** How colours look in four themes, narrow and wide; the screenshots go to tests/out for a person to look at. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { faintWords, overflow } from "../support/faint.ts";
import { bundle, changeTheme, launch, type Opened, openPage, settled } from "../support/page.ts";
import { COLOUR_STATES, leaveState, type State, showState } from "../support/pageStates.ts";
import { drop } from "../support/pictures.ts";

let browser: Browser;
let open: Opened;
beforeAll(async () => {
  const [started, code] = await Promise.all([launch(), bundle()]);
  browser = started;
  open = await openPage(browser, code, drop());
});
afterAll(() => browser.close());

const THEMES = ["dark", "light", "contrast", "contrastLight"] as const;
/** The narrowest column in one theme, as themes differ in colour and not in width. */
const LOOKS = [
  ...THEMES.flatMap((theme) => [320, 700].map((width) => [theme, width] as const)),
  ["dark", 260] as const,
];

test.each<State>(COLOUR_STATES)(
  "%s, in every theme, narrow and wide: nothing is wider than the page or too faint to read",
  async (...state) => {
    await changeTheme(open, "dark");
    await open.page.setViewportSize({ width: 700, height: 900 });
    await showState(open, state);
    for (const [theme, width] of LOOKS) {
      await changeTheme(open, theme);
      await open.page.setViewportSize({ width, height: 900 });
      await settled(open);
      expect([theme, width, await overflow(open)]).toEqual([theme, width, []]);
      expect([theme, await faintWords(open)]).toEqual([theme, []]);
      await open.screenshot(`${state[0]}-${theme}-${width}`);
    }
    await leaveState(open);
  },
);
