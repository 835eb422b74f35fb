// Runs while the program is built: a font without what papers do not need (font/pack.h).
#include <cstdio>
#include <exception>
#include <fstream>
#include <iterator>
#include <string>

#include "font/pack.h"

int main(int argc, char** argv) try {
  if (argc != 3) {
    std::fputs("usage: pack_font FONT.ttf FILE.ttf\n", stderr);
    return 2;
  }
  std::ifstream in(argv[1], std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(in), {}};
  std::ofstream out(argv[2], std::ios::binary);
  out << soundsill::font::pack_face(bytes, argv[1]);
  return out.flush() ? 0 : 1;
} catch (const std::exception& trouble) {
  std::fprintf(stderr, "pack_font: %s\n", trouble.what());
  return 1;
}
