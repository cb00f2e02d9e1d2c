import { bytes } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

const LIMITS = "full=20mA budget=50mA";

describeFindings("current", "warning", [
  {
    what: "a picture",
    source: bytes(`3x1 ${LIMITS}`, "{ 255, 255, 255 }"),
    says: "a draws about 60 mA, over the budget of 50 mA. This is an estimate",
    on: "255",
    // 212/255 of 60 mA are 49.9 mA, 213/255 are 50.1.
    fixes: { "Scale a down to 50 mA": bytes(`3x1 ${LIMITS}`, "{ 212, 212, 212 }") },
  },
  {
    what: "one of several frames",
    source: bytes(`1x1 frames=3 full=100mA budget=50mA`, "{ 51, 255, 0 }"),
    says: "Frame 1 of a draws about 100 mA, 40 mA in the mean of all frames, over the budget of 50 mA",
    on: "255",
    fixes: { "Scale a down to 50 mA": bytes("1x1 frames=3 full=100mA budget=50mA", "{ 25, 127, 0 }") },
  },
  {
    what: "colours, channel by channel",
    source: `// @bitmap 1x1 rgb888 light=linear ${LIMITS}\nconst uint32_t a[] = { 0xFFFFFF };`,
    says: "a draws about 60 mA",
    on: "0xFFFFFF",
  },
  {
    what: "dark pixels",
    source: bytes("3x1 full=5mA idle=20mA budget=50mA", "{ 0, 0, 0 }"),
    says: "a draws about 60 mA",
    on: "0",
  },
  {
    what: "more than an ampere",
    source: bytes("3x1 mono1 pack=each full=500mA budget=1A", "{ 1, 1, 1 }"),
    says: "a draws about 1.5 A, over the budget of 1 A",
    on: "1",
  },
]);

describeClean("current", [
  ["just the budget", bytes("5x1 full=10mA budget=50mA", "{ 255, 255, 255, 255, 255 }")],
  ["driven at a part", bytes(`3x1 drive=80% ${LIMITS}`, "{ 255, 255, 255 }")],
  ["rows that are on for a part of the time", bytes(`3x1 duty=1/9 ${LIMITS}`, "{ 255, 255, 255 }")],
  ["code values, which are less light", bytes(`3x1 light=srgb ${LIMITS}`, "{ 200, 200, 200 }")],
  ["no budget", bytes("3x1 full=20mA", "{ 255, 255, 255 }")],
  ["no current", bytes("3x1 budget=50mA", "{ 255, 255, 255 }")],
]);
