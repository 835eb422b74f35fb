// Writes the marks of a case's packet, for the yardsticks to draw: as rows of C++ and as JSON.
#include <cstdio>
#include <fstream>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>
#include <vector>

#include "cli/load.h"
#include "cli/paper.h"

namespace {

using namespace soundsill;

struct Row {
  char kind;
  std::vector<double> numbers;
  std::string text;
};

class Rows {
 public:
  explicit Rows(const page::Pages& pages) {
    for (const page::Page& page : pages.pages) {
      height_ = page.height;
      fill_ = stroke_ = {};
      line_ = -1;
      dash_.clear();
      round_ = false;
      add('P', {points(page.width), points(page.height)});
      for (const page::Mark& mark : page.marks) std::visit(*this, mark);
    }
  }

  void operator()(const page::TextMark& t) {
    if (t.text.empty()) return;
    color('f', fill_, t.color);
    add('T', {points(t.at.x), up(t.at.y), points(t.size), face(t.face->name())}, t.text);
  }

  void operator()(const page::PathMark& p) {
    if (p.pieces.empty() || (!p.fill && !p.stroke)) return;
    if (p.clip) {
      add('q', {});
      add('r', {points(p.clip->x), up(p.clip->bottom()), points(p.clip->width), points(p.clip->height)});
    }
    if (p.fill) color('f', fill_, *p.fill);
    if (p.stroke) pen(p);
    for (const auto& piece : p.pieces) {
      using Kind = page::PathMark::Piece::Kind;
      const auto& to = piece.to;
      if (piece.kind == Kind::move) add('m', {points(to[0].x), up(to[0].y)});
      if (piece.kind == Kind::line) add('l', {points(to[0].x), up(to[0].y)});
      if (piece.kind == Kind::curve)
        add('c', {points(to[0].x), up(to[0].y), points(to[1].x), up(to[1].y), points(to[2].x), up(to[2].y)});
      if (piece.kind == Kind::close) add('h', {});
    }
    add(p.fill && p.stroke ? 'B' : !p.fill ? 'S' : p.even_odd ? 'E' : 'F', {});
    if (!p.clip) return;
    add('Q', {});
    fill_ = stroke_ = {};
    line_ = -1;
  }

  void operator()(const page::ImageMark&) { throw std::invalid_argument("the case of the yardsticks has no photos"); }
  void operator()(const page::LinkMark&) {}

  std::vector<Row> rows;
  std::vector<std::string> faces;

 private:
  static double points(page::Milli n) { return n / 1000.0; }
  [[nodiscard]] double up(page::Milli y) const { return points(height_ - y); }
  void add(char kind, std::vector<double> numbers, std::string text = {}) {
    rows.push_back({kind, std::move(numbers), std::move(text)});
  }
  double face(const std::string& name) {
    for (std::size_t i = 0; i < faces.size(); ++i)
      if (faces[i] == name) return static_cast<double>(i);
    faces.push_back(name);
    return static_cast<double>(faces.size() - 1);
  }
  void color(char kind, std::optional<page::Color>& known, page::Color wanted) {
    if (known && *known == wanted) return;
    known = wanted;
    add(kind, {wanted.r / 255.0, wanted.g / 255.0, wanted.b / 255.0});
  }
  void pen(const page::PathMark& p) {
    color('s', stroke_, *p.stroke);
    if (line_ != p.line_width) add('w', {points(line_ = p.line_width)});
    if (round_ != p.round) add('R', {(round_ = p.round) ? 1.0 : 0.0});
    if (dash_ == p.dash) return;
    dash_ = p.dash;
    std::vector<double> parts{static_cast<double>(dash_.size())};
    for (const page::Milli part : dash_) parts.push_back(points(part));
    add('d', parts);
  }

  page::Milli height_ = 0, line_ = -1;
  std::optional<page::Color> fill_, stroke_;
  std::vector<page::Milli> dash_;
  bool round_ = false;
};

std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    char octal[8];
    std::snprintf(octal, sizeof octal, "\\%03o", static_cast<unsigned char>(c));
    const bool plain = c >= ' ' && c <= '~' && c != '"' && c != '\\' && c != '?';
    out += plain ? std::string(1, c) : octal;
  }
  return out + '"';
}

void write_rows(const Rows& all, const page::Template& look, const std::string& path) {
  std::ofstream out(path);
  out << "const char* const faces[] = {";
  for (const std::string& name : all.faces) out << quoted(look.faces.at(name)) << ", ";
  out << "};\nconst bench::Op ops[] = {\n";
  for (const Row& row : all.rows) {
    out << "{'" << row.kind << "', {";
    for (const double n : row.numbers) out << n << (n == static_cast<int>(n) ? ".F, " : "F, ");
    out << "}, " << (row.text.empty() ? "nullptr" : quoted(row.text)) << "},\n";
  }
  out << "};\n";
  if (!out.flush()) throw std::runtime_error("cannot write " + path);
}

void write_json(const Rows& all, const page::Template& look, const std::string& path) {
  nlohmann::json rows = nlohmann::json::array();
  for (const Row& row : all.rows) rows.push_back({std::string(1, row.kind), row.numbers, row.text});
  nlohmann::json faces = nlohmann::json::array();
  for (const std::string& name : all.faces) faces.push_back(look.faces.at(name));
  std::ofstream out(path);
  out << nlohmann::json{{"faces", faces}, {"ops", rows}};
  if (!out.flush()) throw std::runtime_error("cannot write " + path);
}

void write_marks(const std::string& folder, const std::string& rows, const std::string& json) {
  const cli::DiskFiles files;
  cli::Shelf shelf(files);
  cli::Shared shared;
  const cli::Where where;
  cli::load_shared(shared, where, files);
  cli::Loaded loaded;
  cli::load_case(loaded, folder, shared, where, files, shelf, cli::PhotoCheck::whole);
  if (!loaded.basis || loaded.faults.errors() > 0) throw std::invalid_argument("the case has faults: check it first");
  const document::Document paper = cli::paper_document(loaded, shared, cli::Paper::packet, false);
  const page::Pages pages = page::lay_out(paper, *shared.look, shared.faces, loaded.faults, shared.hyphens.get());
  const Rows all(pages);
  write_rows(all, *shared.look, rows);
  write_json(all, *shared.look, json);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 4) {
    std::fputs("usage: bench_marks CASE_FOLDER ROWS JSON\n", stderr);
    return 2;
  }
  try {
    write_marks(argv[1], argv[2], argv[3]);
  } catch (const std::exception& e) {
    std::fprintf(stderr, "bench_marks: %s\n", e.what());
    return 1;
  }
  return 0;
}
