// Makes sure that the programs the tests judge by are there. As root it installs their Debian packages, else it says
// exactly what to install. Does nothing where all of them are found.
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";

/** What each program or file is in Debian. */
const needed = [
  ["g++", "g++"],
  ["avr-g++", "gcc-avr"],
  ["/usr/lib/avr/include/avr/pgmspace.h", "avr-libc"],
  ["avr-objcopy", "binutils-avr"],
  ["xbmtopbm", "netpbm"],
  ["/usr/include/X11/bitmaps/star", "xbitmaps"],
  ["nvim", "neovim"],
];

const found = (what) =>
  what.startsWith("/")
    ? existsSync(what)
    : process.env.PATH?.split(delimiter).some((dir) => existsSync(join(dir, what)));
const missing = () => [...new Set(needed.filter(([what]) => !found(what)).map(([, name]) => name))];

const packages = missing();
if (packages.length > 0) {
  const command = `apt-get install -y --no-install-recommends ${packages.join(" ")}`;
  if (process.getuid?.() !== 0 || !found("apt-get")) {
    console.error(`The tests need some Debian packages. Please run, as root:\n\n  apt-get update && ${command}\n`);
    process.exit(1);
  }
  console.log(`Installing Debian packages for the tests: ${packages.join(" ")}`);
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
