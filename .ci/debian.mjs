// Debian packages that a step needs: as root they are installed, else the user is told exactly what to install.
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";

/** Path of a program on the PATH, or of a file given by its whole path; undefined where it is missing. */
export function where(what) {
  if (what.startsWith("/")) return existsSync(what) ? what : undefined;
  return process.env.PATH?.split(delimiter)
    .map((dir) => join(dir, what))
    .find((path) => existsSync(path));
}

/** `needed` pairs each program or file with its package; `purpose` is what they are for. */
export function ensurePackages(purpose, needed) {
  const missing = () => [...new Set(needed.filter(([what]) => !where(what)).map(([, name]) => name))];
  const packages = missing();
  if (packages.length === 0) return;
  const command = `apt-get install -y --no-install-recommends ${packages.join(" ")}`;
  if (process.getuid?.() !== 0 || !where("apt-get")) {
    console.error(
      `Some Debian packages are needed for ${purpose}. Please run, as root:\n\n  apt-get update && ${command}\n`,
    );
    process.exit(1);
  }
  console.log(`Installing Debian packages for ${purpose}: ${packages.join(" ")}`);
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  const run = (args) => execFileSync("apt-get", args, { env, stdio: ["ignore", "ignore", "inherit"] });
  run(["update", "-q"]);
  run(["install", "-y", "-q", "--no-install-recommends", ...packages]);
  const still = missing();
  if (still.length > 0) {
    console.error(`Still missing after the installation: ${still.join(" ")}`);
    process.exit(1);
  }
}
