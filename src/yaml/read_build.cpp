#include "yaml/read_build.h"

#include <algorithm>
#include <stdexcept>

#include "yaml/read_words.h"

namespace soundsill::yaml {
namespace {

constexpr std::size_t kDeepest = 100;  // the scan stops at 64; this only guards against a scan that miscounts

template <class Pieces>
auto found_at(const Pieces& pieces, std::size_t at) {
  const auto found = std::lower_bound(pieces.begin(), pieces.end(), at,
                                      [](const Piece& p, std::size_t place) { return p.begin < place; });
  return found != pieces.end() && found->begin == at ? found : pieces.end();
}

void trim(std::string& text) {
  text.erase(0, text.find_first_not_of(' '));
  text.erase(text.find_last_not_of(' ') + 1);
}

}  // namespace

void Builder::document(std::size_t at) {
  place_ = at;
  if (++documents_ != 2) return;
  trusted_ = false;
  if (clean_) words::several_documents(report_, {at, std::min(at + 1, text_.size()), {}});
}

bool Builder::wants_key() const { return !frames_.empty() && frames_.back().node.is_mapping() && !frames_.back().key; }

Piece Builder::piece_at(std::size_t at) const {
  const auto found = found_at(scan_.pieces, at);
  if (found != scan_.pieces.end()) return *found;
  const auto end = std::min(at + 1, text_.size());
  return {.begin = static_cast<std::uint32_t>(std::min(at, text_.size())), .end = static_cast<std::uint32_t>(end)};
}

void Builder::scalar(std::size_t at, const std::string& value, bool quoted) {
  place_ = at;
  if (documents_ > 1) return;
  const Piece piece = piece_at(at);
  std::string text = with_plain_spaces(value);
  if (!quoted) trim(text);
  const auto odd = piece.spoiled ? std::nullopt : odd_letter(text);
  if (odd) words::odd_letter(report_, {piece.begin, piece.end, text}, *odd);
  // What is said of a key is enough: what stands under it is read as if nothing were the matter.
  if (wants_key()) return set_key(at, odd ? without_unseen(text) : text, piece);
  Node node;
  node.span = report_.span(piece.begin, piece.end);
  if (!piece.spoiled && !odd) {
    node.kind = Node::Kind::scalar;
    node.text = std::move(text);
    node.quoted = quoted;
  }
  add(std::move(node));
}

void Builder::set_key(std::size_t at, const std::string& text, const Piece& piece) {
  Frame& frame = frames_.back();
  Key key{text, report_.span(piece.begin, piece.end), piece.hushed, piece.spoiled || odd_letter(text)};
  if (text == "<<" && text_.substr(at, 2) == "<<") key.dropped = true;
  if (!key.dropped) {
    const auto [first, added] = frame.seen.emplace(text, key.span);
    if (!added) {
      words::doubled_key(report_, {piece.begin, piece.end, text}, {first->second, "it stands here first"});
      key.dropped = true;
    }
  }
  frame.key = std::move(key);
}

void Builder::add(Node node) {
  if (frames_.empty()) {
    root_ = std::move(node);
    return;
  }
  Frame& frame = frames_.back();
  if (frame.node.is_sequence()) {
    frame.node.items.push_back(std::move(node));
    return;
  }
  if (!frame.key) {  // a list or block as a key
    trusted_ = false;
    frame.key = Key{"", node.span, true, true};
    return;
  }
  if (!frame.key->dropped) frame.node.entries.push_back({std::move(frame.key->text), frame.key->span, std::move(node)});
  frame.key.reset();
}

void Builder::null(std::size_t at) {
  place_ = at;
  if (documents_ > 1) return;
  const auto written = found_at(scan_.pieces, at);
  const bool here = written != scan_.pieces.end();
  if (wants_key()) {
    if (here) return set_key(at, std::string(text_.substr(at, written->end - at)), *written);
    trusted_ = false;
    frames_.back().key = Key{"", report_.span(at, at), true, true};
    return;
  }
  if (!here || written->key) return empty_value(at);
  if (!written->spoiled) words::null_word(report_, {written->begin, written->end, text_.substr(at, written->end - at)});
  Node node;
  node.span = report_.span(written->begin, written->end);
  add(std::move(node));
}

/// Nothing is written; the parser's mark is that of whatever comes next.
void Builder::empty_value(std::size_t at) {
  Node node;
  if (frames_.empty()) {
    if (clean_) words::empty_file(report_);
    trusted_ = false;
  } else if (const auto& key = frames_.back().key) {
    node.span = key->span;
    const words::Stretch text{key->span.begin, key->span.end, key->text};
    if (!key->hushed && !key->dropped) words::no_value(report_, text, comment_behind(key->span.end));
  } else {
    const auto after = std::lower_bound(scan_.dashes.begin(), scan_.dashes.end(), at);
    const std::size_t dash = after == scan_.dashes.begin() ? std::min(at, text_.size()) : *std::prev(after);
    const std::size_t end = std::min(dash + 1, text_.size());
    node.span = report_.span(dash, end);
    const std::size_t next = text_.find_first_not_of(" \t", end);
    const bool told = next < text_.size() && text_[next] == '&';  // an anchor, and nothing else
    if (!told) words::empty_item(report_, {dash, end, {}}, comment_behind(dash));
  }
  add(std::move(node));
}

/// The comment on the line of a key (or dash) that ends at `at`, when nothing but a colon stands before it.
std::string_view Builder::comment_behind(std::size_t at) const {
  const std::size_t i = text_.find_first_not_of("-: \t", at);
  if (i == std::string_view::npos || text_[i] != '#') return {};
  const std::string_view rest = text_.substr(i, text_.find_first_of("\r\n", i) - i);
  return rest.substr(0, rest.find_last_not_of(" \t") + 1);
}

std::size_t Builder::flow_end(std::size_t at) const {
  const auto found = found_at(scan_.brackets, at);
  return found == scan_.brackets.end() ? piece_at(at).end : found->end;
}

void Builder::begin(Node::Kind kind, std::size_t at, bool flow) {
  place_ = at;
  if (documents_ > 1) return;
  if (frames_.size() > kDeepest) throw std::runtime_error("nested too deep");
  std::size_t end = flow_end(at);
  if (!flow) {
    end = std::min(text_.find_first_of("\r\n", at), text_.size());
    while (end > at && (text_[end - 1] == ' ' || text_[end - 1] == '\t')) --end;
  }
  frames_.push_back({});
  frames_.back().node.kind = kind;
  frames_.back().node.span = report_.span(at, end);
}

void Builder::end() {
  if (documents_ > 1 || frames_.empty()) return;
  Node node = std::move(frames_.back().node);
  frames_.pop_back();
  add(std::move(node));
}

}  // namespace soundsill::yaml
