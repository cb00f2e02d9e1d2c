/** The only module that knows the webview toolkit: its elements can be replaced here. */
import {
  provideVSCodeDesignSystem,
  vsCodeButton,
  vsCodeDropdown,
  vsCodeOption,
  vsCodeTextField,
} from "@vscode/webview-ui-toolkit";

/** An element of the toolkit that holds a value; it tells of a new one with the event `change`. */
export interface ValueElement extends HTMLElement {
  value: string;
}

export function registerToolkit(): void {
  provideVSCodeDesignSystem().register(vsCodeButton(), vsCodeDropdown(), vsCodeOption(), vsCodeTextField());
}

export function makeButton(): HTMLElement {
  return document.createElement("vscode-button");
}

export function makeTextField(): ValueElement {
  return document.createElement("vscode-text-field") as ValueElement;
}

export function makeDropdown(): ValueElement {
  return document.createElement("vscode-dropdown") as ValueElement;
}

export function makeOption(text: string, value: string): HTMLElement {
  const option = document.createElement("vscode-option") as ValueElement;
  option.textContent = text;
  option.value = value;
  return option;
}
