// Writes made-up photos of 12 megapixels: light, edges and grain, so that they weigh what a camera's do.
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>
// jpeglib.h needs the ones above.
#include <jpeglib.h>

namespace {

constexpr unsigned width = 4000, height = 3000;

void write(const std::string& path, std::uint32_t seed) {
  std::FILE* file = std::fopen(path.c_str(), "wb");
  if (file == nullptr) std::exit(1);
  jpeg_compress_struct c{};
  jpeg_error_mgr errors{};
  c.err = jpeg_std_error(&errors);
  jpeg_create_compress(&c);
  jpeg_stdio_dest(&c, file);
  c.image_width = width;
  c.image_height = height;
  c.input_components = 3;
  c.in_color_space = JCS_RGB;
  jpeg_set_defaults(&c);
  jpeg_set_quality(&c, 92, TRUE);
  jpeg_start_compress(&c, TRUE);
  std::vector<unsigned char> row(std::size_t{width} * 3);
  std::uint32_t random = seed * 2654435761U + 1;
  for (unsigned y = 0; y < height; ++y) {
    for (unsigned x = 0; x < width; ++x) {
      random = random * 1664525U + 1013904223U;
      const int grain = static_cast<int>(random >> 29U) - 4;
      const double light = 120 + 60 * std::sin((x + 37.0 * seed) / 310) * std::cos(y / 270.0);
      const int board = (x / 160 + y / 900) % 2 == 0 ? 25 : -25;
      const int value = static_cast<int>(light) + board + grain;
      for (unsigned k = 0; k < 3; ++k) {
        const int v = value - static_cast<int>(k) * 18;
        row[std::size_t{x} * 3 + k] = static_cast<unsigned char>(v < 0 ? 0 : v > 255 ? 255 : v);
      }
    }
    JSAMPROW at = row.data();
    jpeg_write_scanlines(&c, &at, 1);
  }
  jpeg_finish_compress(&c);
  jpeg_destroy_compress(&c);
  std::fclose(file);
}

}  // namespace

int main(int argc, char** argv) {
  for (int i = 1; i < argc; ++i) write(argv[i], static_cast<std::uint32_t>(i));
  return 0;
}
