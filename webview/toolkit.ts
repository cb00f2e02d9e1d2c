/** The one place that takes components from the webview toolkit, so that it can be replaced. */
import { provideVSCodeDesignSystem, vsCodeButton } from "@vscode/webview-ui-toolkit";

/** Defines the elements that the page uses: `vscode-button`. */
export function defineComponents(): void {
  provideVSCodeDesignSystem().register(vsCodeButton());
}

declare global {
  interface HTMLElementTagNameMap {
    "vscode-button": HTMLElement;
  }
}
