// Runs while the program is built: asks HarfBuzz how common letters of a font stand beside each other (font/pairs.h).
#include <cstdio>
#include <fstream>
#include <iterator>
#include <string>

#include "font/pairs.h"

int main(int argc, char** argv) {
  if (argc != 3) {
    std::fputs("usage: pack_pairs FONT.ttf FILE.pairs\n", stderr);
    return 2;
  }
  std::ifstream in(argv[1], std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(in), {}};
  const soundsill::font::Face face(argv[1], bytes);
  std::ofstream out(argv[2], std::ios::binary);
  out << pack_pairs(face);
  return out.flush() ? 0 : 1;
}
