/** Colour variables as an editor sets them, enough for the page: a dark, a light and two high-contrast themes of ours. */

const dark = {
  "font-family": "sans-serif",
  "editor-font-family": "'DejaVu Sans Mono', monospace",
  "editor-background": "#1f2023",
  "editor-foreground": "#cfd2d6",
  "editorLineNumber-foreground": "#7c828a",
  "editorLineNumber-activeForeground": "#d6d9dd",
  "editor-lineHighlightBackground": "#2c2e33",
  "editorCursor-foreground": "#b8c4d0",
  "editorWarning-foreground": "#d7a52b",
  "editorError-foreground": "#f0605a",
  "editorInfo-foreground": "#4ba3e8",
  focusBorder: "#2a86d8",
  "button-background": "#2a6fb0",
  "button-foreground": "#ffffff",
  "button-hoverBackground": "#337cc0",
  "dropdown-background": "#2a2c30",
  "dropdown-foreground": "#cfd2d6",
  "dropdown-border": "#45484e",
  "input-background": "#2a2c30",
  "input-foreground": "#cfd2d6",
  "list-activeSelectionBackground": "#274a6b",
  "list-activeSelectionForeground": "#ffffff",
};

const light = {
  ...dark,
  "editor-background": "#fdfdfb",
  "editor-foreground": "#2b2e33",
  "editorLineNumber-foreground": "#6d747d",
  "editorLineNumber-activeForeground": "#14171b",
  "editor-lineHighlightBackground": "#eceef0",
  "editorCursor-foreground": "#14171b",
  "editorWarning-foreground": "#a66b00",
  "editorError-foreground": "#c4201c",
  "editorInfo-foreground": "#0a62ab",
  focusBorder: "#0a62ab",
  "dropdown-background": "#ffffff",
  "dropdown-foreground": "#2b2e33",
  "dropdown-border": "#c6cace",
  "input-background": "#ffffff",
  "input-foreground": "#2b2e33",
};

const contrast = {
  ...dark,
  "editor-background": "#000000",
  "editor-foreground": "#ffffff",
  "editorLineNumber-foreground": "#ffffff",
  "editorLineNumber-activeForeground": "#ffe14d",
  "editor-lineHighlightBackground": "",
  "editorCursor-foreground": "#ffffff",
  "editorWarning-foreground": "#ffd370",
  contrastBorder: "#6fc3df",
  contrastActiveBorder: "#f38518",
  focusBorder: "#f38518",
  "button-background": "#000000",
  "dropdown-background": "#000000",
  "dropdown-foreground": "#ffffff",
  "dropdown-border": "#6fc3df",
  "input-background": "#000000",
  "input-foreground": "#ffffff",
};

const contrastLight = {
  ...contrast,
  "editor-background": "#ffffff",
  "editor-foreground": "#1a1a1a",
  "editorLineNumber-foreground": "#1a1a1a",
  "editorLineNumber-activeForeground": "#003a75",
  "editorCursor-foreground": "#1a1a1a",
  "editorWarning-foreground": "#7a4d00",
  contrastBorder: "#0f4a85",
  focusBorder: "#0f4a85",
  "button-background": "#0f4a85",
  "dropdown-background": "#ffffff",
  "dropdown-foreground": "#1a1a1a",
  "input-background": "#ffffff",
  "input-foreground": "#1a1a1a",
};

export const THEMES = {
  dark: { kind: "vscode-dark", colours: dark },
  light: { kind: "vscode-light", colours: light },
  contrast: { kind: "vscode-high-contrast", colours: contrast },
  contrastLight: { kind: "vscode-high-contrast-light", colours: contrastLight },
} as const satisfies Record<string, { kind: string; colours: Record<string, string> }>;

export type ThemeName = keyof typeof THEMES;
