// Makes sure that the programs the tests judge by are there. Does nothing where all of them are found.
import { ensurePackages } from "./debian.mjs";

ensurePackages("the tests", [
  ["g++", "g++"],
  ["avr-g++", "gcc-avr"],
  ["/usr/lib/avr/include/avr/pgmspace.h", "avr-libc"],
  ["avr-objcopy", "binutils-avr"],
  ["simavr", "simavr"],
  ["xbmtopbm", "netpbm"],
  ["/usr/include/X11/bitmaps/star", "xbitmaps"],
  ["nvim", "neovim"],
  ["/usr/lib/python3/dist-packages/PIL/Image.py", "python3-pil"],
  ["/usr/share/unifont/unifont.hex", "unifont"],
  ["/usr/share/consolefonts/Lat15-VGA8.psf.gz", "console-setup-linux"],
  ["chromium", "chromium"],
]);
