// The faces that tests read from the machine: packages fonts-lato and fonts-dejavu-core.
#pragma once

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

namespace soundsill::test {

inline std::string read_font(const std::string& path) {
  std::ifstream file("/usr/share/fonts/truetype/" + path, std::ios::binary);
  if (!file) throw std::runtime_error("the tests need the font " + path);
  return {std::istreambuf_iterator<char>(file), {}};
}

inline const std::string& lato() {
  static const std::string bytes = read_font("lato/Lato-Regular.ttf");
  return bytes;
}

inline const std::string& lato_bold() {
  static const std::string bytes = read_font("lato/Lato-Bold.ttf");
  return bytes;
}

inline const std::string& dejavu() {
  static const std::string bytes = read_font("dejavu/DejaVuSans.ttf");
  return bytes;
}

}  // namespace soundsill::test
