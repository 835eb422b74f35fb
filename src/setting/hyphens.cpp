#include "setting/hyphens.h"

#include <hyphen.h>

#include <cstdio>
#include <cstdlib>
#include <stdexcept>

namespace soundsill::page {
namespace {

constexpr std::size_t shortest_word = 7;

bool is_small_letter(char c) { return c >= 'a' && c <= 'z'; }

}  // namespace

struct Hyphens::Dictionary {
  HyphenDict* patterns = nullptr;
  ~Dictionary() {
    if (patterns) hnj_hyphen_free(patterns);
  }
};

Hyphens::Hyphens(std::string_view patterns) : dictionary_(std::make_unique<Dictionary>()) {
  std::string text(patterns);
  std::FILE* file = text.empty() ? nullptr : fmemopen(text.data(), text.size(), "r");
  if (!file) throw std::runtime_error("the patterns of hyphenation cannot be read");
  dictionary_->patterns = hnj_hyphen_load_file(file);
  std::fclose(file);
  if (!dictionary_->patterns) throw std::runtime_error("the patterns of hyphenation are damaged");
}

Hyphens::~Hyphens() = default;

std::vector<std::size_t> Hyphens::breaks(std::string_view word) const {
  std::vector<std::size_t> all;
  if (word.size() < shortest_word) return all;
  for (const char c : word)
    if (!is_small_letter(c)) return all;
  std::vector<char> marks(word.size() + 5);
  char** rep = nullptr;
  int *pos = nullptr, *cut = nullptr;
  const std::string text(word);
  const int failed = hnj_hyphen_hyphenate2(dictionary_->patterns, text.c_str(), static_cast<int>(text.size()),
                                           marks.data(), nullptr, &rep, &pos, &cut);
  if (rep) {
    for (std::size_t i = 0; i < text.size(); ++i) std::free(rep[i]);  // NOLINT: malloc'd by the library
    std::free(rep);                                                   // NOLINT
  }
  std::free(pos);  // NOLINT
  std::free(cut);  // NOLINT
  if (failed) return all;
  // Two letters at least before the hyphen, three after it.
  for (std::size_t i = 1; i + 4 <= text.size(); ++i)
    if (marks[i] & 1) all.push_back(i + 1);
  return all;
}

}  // namespace soundsill::page
