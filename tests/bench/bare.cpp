// The yardstick: a bare program that draws the pages of our packet with libharu's public calls and nothing else. What
// it draws is compiled in, so it reads, checks, measures and lays out nothing, and it writes no tags.
#include <hpdf.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "ops.h"

namespace {

#include "marks.inc"

constexpr const char* folders[] = {"/usr/share/fonts/truetype/lato/", "/usr/share/fonts/truetype/dejavu/"};

void on_error(HPDF_STATUS error, HPDF_STATUS detail, void* /*data*/) {
  std::fprintf(stderr, "libharu: error %lx, detail %lu\n", error, detail);
  std::exit(1);
}

std::array<HPDF_Font, std::size(faces)> load_faces(HPDF_Doc document) {
  HPDF_UseUTFEncodings(document);
  std::array<HPDF_Font, std::size(faces)> fonts{};
  for (std::size_t i = 0; i < fonts.size(); ++i) {
    const std::string name = faces[i];
    const std::string path = folders[name.rfind("Lato", 0) == 0 ? 0 : 1] + name + ".ttf";
    fonts[i] = HPDF_GetFont(document, HPDF_LoadTTFontFromFile(document, path.c_str(), HPDF_TRUE), "UTF-8");
  }
  return fonts;
}

void set_dash(HPDF_Page page, const float* a) {
  const auto count = static_cast<unsigned>(a[0]);
  HPDF_UINT16 parts[5];
  for (unsigned i = 0; i < count; ++i) parts[i] = static_cast<HPDF_UINT16>(a[i + 1] < 1 ? 1 : a[i + 1]);
  HPDF_Page_SetDash(page, count > 0 ? parts : nullptr, count, 0);
}

void draw_text(HPDF_Page page, HPDF_Font font, const bench::Op& op) {
  HPDF_Page_BeginText(page);
  HPDF_Page_SetFontAndSize(page, font, op.a[2]);
  HPDF_Page_TextOut(page, op.a[0], op.a[1], op.text);
  HPDF_Page_EndText(page);
}

void draw(HPDF_Page page, const bench::Op& op) {
  const float* a = op.a;
  switch (op.kind) {
    case 'f':
      HPDF_Page_SetRGBFill(page, a[0], a[1], a[2]);
      break;
    case 's':
      HPDF_Page_SetRGBStroke(page, a[0], a[1], a[2]);
      break;
    case 'w':
      HPDF_Page_SetLineWidth(page, a[0]);
      break;
    case 'd':
      set_dash(page, a);
      break;
    case 'R':
      HPDF_Page_SetLineCap(page, a[0] > 0 ? HPDF_ROUND_END : HPDF_BUTT_END);
      HPDF_Page_SetLineJoin(page, a[0] > 0 ? HPDF_ROUND_JOIN : HPDF_MITER_JOIN);
      break;
    case 'm':
      HPDF_Page_MoveTo(page, a[0], a[1]);
      break;
    case 'l':
      HPDF_Page_LineTo(page, a[0], a[1]);
      break;
    case 'c':
      HPDF_Page_CurveTo(page, a[0], a[1], a[2], a[3], a[4], a[5]);
      break;
    case 'h':
      HPDF_Page_ClosePath(page);
      break;
    case 'F':
      HPDF_Page_Fill(page);
      break;
    case 'E':
      HPDF_Page_Eofill(page);
      break;
    case 'S':
      HPDF_Page_Stroke(page);
      break;
    case 'B':
      HPDF_Page_FillStroke(page);
      break;
    case 'q':
      HPDF_Page_GSave(page);
      break;
    case 'Q':
      HPDF_Page_GRestore(page);
      break;
    case 'r':
      HPDF_Page_Rectangle(page, a[0], a[1], a[2], a[3]);
      HPDF_Page_Clip(page);
      HPDF_Page_EndPath(page);
      break;
    default:
      break;
  }
}

void write_document(const std::string& path) {
  HPDF_Doc document = HPDF_New(on_error, nullptr);
  HPDF_SetCompressionMode(document, HPDF_COMP_ALL);
  const auto fonts = load_faces(document);
  HPDF_Page page = nullptr;
  for (const bench::Op& op : ops) {
    if (op.kind == 'P') {
      page = HPDF_AddPage(document);
      HPDF_Page_SetWidth(page, op.a[0]);
      HPDF_Page_SetHeight(page, op.a[1]);
    } else if (op.kind == 'T') {
      draw_text(page, fonts[static_cast<std::size_t>(op.a[3])], op);
    } else {
      draw(page, op);
    }
  }
  HPDF_SaveToFile(document, path.c_str());
  HPDF_Free(document);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) {
    std::fputs("usage: bench_bare FILE [COUNT]\n", stderr);
    return 2;
  }
  const int count = argc > 2 ? std::atoi(argv[2]) : 1;
  for (int i = 0; i < count; ++i) write_document(argv[1]);
  return 0;
}
