/** Starts the page that compares two versions of a bitmap. */
import "../translate.ts";
import type { Compared, CompareToHost, CompareToPage } from "../../shared/protocol/comparePage.ts";
import { openPort } from "../port.ts";
import { onThemeChange, readTheme, tellStyle } from "../view/theme.ts";
import { makeComparePage } from "./page.ts";

function start(root: HTMLElement): void {
  let shown: Compared | { readonly why: string } | undefined;
  const { rpc } = openPort<CompareToPage, CompareToHost>({
    show: (compared) => {
      shown = compared;
      draw();
      return {};
    },
    nothing: (nothing) => {
      shown = nothing;
      draw();
      return {};
    },
  });
  let theme = readTheme();
  tellStyle(root, theme);
  const page = makeComparePage(root, {
    // A bitmap that has gone meanwhile is shown no more: there is nothing to say then.
    choose: (which) => void rpc.call("choose", which).catch(() => undefined),
    source: (which) => void rpc.call("source", which).catch(() => undefined),
  });
  const draw = () => {
    if (shown) page.draw(shown, theme);
  };
  onThemeChange(() => {
    theme = readTheme();
    tellStyle(root, theme);
    draw();
  });
  new ResizeObserver(draw).observe(root);
  void rpc.call("ready", {});
}

const root = document.getElementById("dotwright");
if (root) start(root);
