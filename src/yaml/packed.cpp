#include "yaml/packed.h"

#include <stdexcept>

namespace soundsill::yaml {
namespace {

constexpr unsigned quoted_bit = 4;  // beside the kind
constexpr unsigned seven_bits = 0x7F, more_bit = 0x80;

class Packing {
 public:
  std::string operator()(const Node& tree) && {
    node(tree);
    return std::move(out_);
  }

 private:
  void number(std::size_t n) {
    for (; n > seven_bits; n >>= 7U) out_ += static_cast<char>((n & seven_bits) | more_bit);
    out_ += static_cast<char>(n);
  }
  void text(std::string_view t) {
    number(t.size());
    out_ += t;
  }
  void place(const Span& span) {
    number(span.begin);
    number(span.end - span.begin);
  }
  void node(const Node& n) {
    number(static_cast<unsigned>(n.kind) | (n.quoted ? quoted_bit : 0U));
    place(n.span);
    if (n.is_scalar()) text(n.text);
    if (n.is_sequence()) {
      number(n.items.size());
      for (const Node& item : n.items) node(item);
    }
    if (!n.is_mapping()) return;
    number(n.entries.size());
    for (const Entry& entry : n.entries) {
      text(entry.key);
      place(entry.key_span);
      node(entry.value);
    }
  }

  std::string out_;
};

class Unpacking {
 public:
  Unpacking(std::string_view bytes, const Source& source) : bytes_(bytes), source_(source) {}

  Node operator()() && {
    Node tree;
    node(tree);
    if (!bytes_.empty()) refuse();
    return tree;
  }

 private:
  [[noreturn]] void refuse() const {
    throw std::invalid_argument("the packed tree of " + source_.name() + " is broken");
  }

  std::size_t number() {
    std::size_t n = 0;
    for (unsigned shift = 0; shift < 64; shift += 7) {
      if (bytes_.empty()) refuse();
      const auto byte = static_cast<unsigned char>(bytes_.front());
      bytes_.remove_prefix(1);
      n |= std::size_t{byte & seven_bits} << shift;
      if ((byte & more_bit) == 0) return n;
    }
    refuse();
  }
  /// How many follow; each takes a byte at least.
  std::size_t count() {
    const std::size_t n = number();
    if (n > bytes_.size()) refuse();
    return n;
  }
  std::string text() {
    const std::size_t size = count();
    std::string out(bytes_.substr(0, size));
    bytes_.remove_prefix(size);
    return out;
  }
  Span place() {
    const std::size_t begin = number();
    const std::size_t length = number();
    const std::size_t size = source_.text().size();
    if (begin > size || length > size - begin) refuse();
    return {&source_, static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(begin + length)};
  }
  void node(Node& n) {
    const std::size_t head = number();
    if (head >= 2 * quoted_bit) refuse();
    n.kind = static_cast<Node::Kind>(head % quoted_bit);
    n.quoted = head >= quoted_bit;
    n.span = place();
    if (n.is_scalar()) n.text = text();
    if (n.is_sequence()) {
      n.items.resize(count());
      for (Node& item : n.items) node(item);
    }
    if (!n.is_mapping()) return;
    n.entries.resize(count());
    for (Entry& entry : n.entries) {
      entry.key = text();
      entry.key_span = place();
      node(entry.value);
    }
  }

  std::string_view bytes_;
  const Source& source_;
};

}  // namespace

std::string pack(const Node& tree) { return Packing()(tree); }

Node unpack(std::string_view bytes, const Source& source) { return Unpacking(bytes, source)(); }

}  // namespace soundsill::yaml
