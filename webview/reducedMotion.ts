/** Whether motion is to be reduced: by a setting of the editor, which tells the body, or of the system. */
export function reducedMotion(): boolean {
  if (typeof document === "undefined") return false;
  return (
    document.body.classList.contains("vscode-reduce-motion") || matchMedia("(prefers-reduced-motion: reduce)").matches
  );
}
