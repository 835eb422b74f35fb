// The yardstick of photos: libjpeg-turbo decodes each at the eighth step just above the wanted width and encodes it
// again.
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <vector>
// jpeglib.h needs the ones above.
#include <jpeglib.h>

namespace {

struct Close {
  void operator()(std::FILE* file) const { std::fclose(file); }
};

struct Pixels {
  unsigned width = 0, height = 0;
  int components = 3;
  std::vector<unsigned char> bytes;
};

Pixels decode(const char* path, unsigned wanted) {
  const std::unique_ptr<std::FILE, Close> file(std::fopen(path, "rb"));
  if (!file) {
    std::fprintf(stderr, "cannot read %s\n", path);
    std::exit(1);
  }
  jpeg_decompress_struct d{};
  jpeg_error_mgr errors{};
  d.err = jpeg_std_error(&errors);
  jpeg_create_decompress(&d);
  jpeg_stdio_src(&d, file.get());
  jpeg_read_header(&d, TRUE);
  d.scale_denom = 8;
  for (d.scale_num = 1; d.scale_num < 8 && d.image_width * d.scale_num / 8 < wanted;) ++d.scale_num;
  jpeg_start_decompress(&d);
  Pixels out{d.output_width, d.output_height, d.output_components, {}};
  const std::size_t row = std::size_t{out.width} * static_cast<unsigned>(out.components);
  out.bytes.resize(row * out.height);
  while (d.output_scanline < d.output_height) {
    JSAMPROW at = out.bytes.data() + row * d.output_scanline;
    jpeg_read_scanlines(&d, &at, 1);
  }
  jpeg_finish_decompress(&d);
  jpeg_destroy_decompress(&d);
  return out;
}

std::size_t encode(Pixels& pixels) {
  jpeg_compress_struct c{};
  jpeg_error_mgr errors{};
  c.err = jpeg_std_error(&errors);
  jpeg_create_compress(&c);
  unsigned char* bytes = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&c, &bytes, &size);
  c.image_width = pixels.width;
  c.image_height = pixels.height;
  c.input_components = pixels.components;
  c.in_color_space = pixels.components == 1 ? JCS_GRAYSCALE : JCS_RGB;
  jpeg_set_defaults(&c);
  jpeg_set_quality(&c, 80, TRUE);
  jpeg_start_compress(&c, TRUE);
  const std::size_t row = std::size_t{pixels.width} * static_cast<unsigned>(pixels.components);
  while (c.next_scanline < c.image_height) {
    JSAMPROW at = pixels.bytes.data() + row * c.next_scanline;
    jpeg_write_scanlines(&c, &at, 1);
  }
  jpeg_finish_compress(&c);
  jpeg_destroy_compress(&c);
  std::free(bytes);
  return size;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 3) {
    std::fputs("usage: bench_photos WIDTH FILE...\n", stderr);
    return 2;
  }
  std::size_t all = 0;
  for (int i = 2; i < argc; ++i) {
    Pixels pixels = decode(argv[i], static_cast<unsigned>(std::atoi(argv[1])));
    all += encode(pixels);
  }
  std::printf("%zu\n", all);
  return 0;
}
