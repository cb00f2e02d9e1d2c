/** File names that C, C++, sketch and XBM sources end with. */
export const SOURCE = /\.(?:ino|pde|c|cc|cpp|cxx|h|hh|hpp|hxx|inc|ipp|xbm)$/i;
