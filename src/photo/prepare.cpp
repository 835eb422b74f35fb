// Serves photo/photo.h.
#include <algorithm>
#include <new>

#include "photo/colour.h"
#include "photo/photo.h"
#include "photo/pixels.h"
#include "photo/rows.h"

namespace soundsill::photo {

namespace {

constexpr int max_side = 65'500;  // of a JPEG
constexpr const char* no_memory = "it needs more memory than there is";

struct Size {
  int width;
  int height;
};

int share(std::int64_t length, std::int64_t part, std::int64_t whole) {
  return static_cast<int>(std::max<std::int64_t>(1, (length * part + whole / 2) / whole));
}

/// The largest size with these proportions that fits, never larger than it is.
Size fit(Size size, Size room) {
  if (size.width <= room.width && size.height <= room.height) return size;
  if (std::int64_t{size.width} * room.height >= std::int64_t{size.height} * room.width)
    return {room.width, share(size.height, room.width, size.width)};
  return {share(size.width, room.height, size.height), room.height};
}

/// The room as the stored photo lies in it.
Size stored_room(const Header& header, int max_width, int max_height) {
  const Size room{std::clamp(max_width, 1, max_side), std::clamp(max_height, 1, max_side)};
  return header.orientation >= 5 ? Size{room.height, room.width} : room;
}

/// The part of the upright picture as it lies in the stored one.
Part stored_part(const Part& p, int orientation) {
  const int right = Part::whole - p.x - p.width, below = Part::whole - p.y - p.height;
  switch (orientation) {
    case 2:
      return {right, p.y, p.width, p.height};
    case 3:
      return {right, below, p.width, p.height};
    case 4:
      return {p.x, below, p.width, p.height};
    case 5:
      return {p.y, p.x, p.height, p.width};
    case 6:
      return {p.y, right, p.height, p.width};
    case 7:
      return {below, right, p.height, p.width};
    case 8:
      return {below, p.x, p.height, p.width};
    default:
      return p;
  }
}

/// The pixels of a part: those that it touches.
struct Window {
  int x, y, width, height;
};
Window window_of(const Part& p, int width, int height) {
  const auto low = [](std::int64_t length, int share) { return static_cast<int>(length * share / Part::whole); };
  const auto high = [](std::int64_t length, int share) {
    return static_cast<int>((length * share + Part::whole - 1) / Part::whole);
  };
  const int x = std::clamp(low(width, p.x), 0, width - 1), y = std::clamp(low(height, p.y), 0, height - 1);
  return {x, y, std::clamp(high(width, p.x + p.width) - x, 1, width - x),
          std::clamp(high(height, p.y + p.height) - y, 1, height - y)};
}

/// How large the whole must be decoded so that a part has this size.
int whole_of(int size, int share, int stored) {
  const std::int64_t whole = (std::int64_t{size} * Part::whole + share - 1) / std::max(share, 1);
  return static_cast<int>(std::min<std::int64_t>(whole, stored));
}

/// Reads all rows, those of the window into the shrinker; what is wrong, else empty.
std::string read_rows(Rows& rows, const Window& window, Shrinker& shrinker) {
  const auto channels = static_cast<std::size_t>(rows.shape().channels);
  std::vector<std::uint8_t> row(static_cast<std::size_t>(rows.shape().width) * channels);
  for (int y = 0; y < rows.shape().height; ++y) {
    if (!rows.next(row.data())) return rows.trouble();
    if (y >= window.y && y < window.y + window.height)
      shrinker.add(row.data() + static_cast<std::size_t>(window.x) * channels);
  }
  return rows.close() ? std::string() : rows.trouble();
}

Outcome<Placed> refuse(std::string trouble) { return {std::nullopt, std::move(trouble)}; }

Outcome<Placed> encode(const Pixels& pixels, int quality, Detail detail) {
  auto jpeg = write_jpeg(pixels, std::clamp(quality, 1, 100), detail);
  if (!jpeg) return refuse(no_memory);
  return {Placed{pixels.width, pixels.height, pixels.channels == 1, std::move(*jpeg)}, {}};
}

Outcome<Placed> prepare_known(std::string_view bytes, const Header& header, Size room, int quality, const Part& part) {
  const Part stored = stored_part(part, header.orientation);
  const Window wanted = window_of(stored, header.width, header.height);
  const Size size = fit({wanted.width, wanted.height}, room);
  const auto rows = rows_of(bytes, header.kind);
  if (!rows->open(whole_of(size.width, stored.width, header.width),
                  whole_of(size.height, stored.height, header.height)))
    return refuse(rows->trouble());
  const Shape& shape = rows->shape();
  const Window window = window_of(stored, shape.width, shape.height);
  const Size made{std::min(size.width, window.width), std::min(size.height, window.height)};
  // A decoder that sees other sizes than the header said would be a fault of ours; it must not become a wild write.
  if (part == Part{} && (shape.width < size.width || shape.height < size.height))
    return refuse("its sizes contradict each other");
  Shrinker shrinker(window.width, window.height, shape.channels, made.width, made.height);
  if (std::string trouble = read_rows(*rows, window, shrinker); !trouble.empty()) return refuse(std::move(trouble));
  const Pixels upright = turn_upright(to_srgb(shrinker.take(), shape, header.wide_colours), header.orientation);
  return encode(upright, quality, header.kind == Header::Kind::png ? Detail::fine : Detail::smooth);
}

}  // namespace

Outcome<Placed> prepare(std::string_view bytes, int max_width, int max_height, int quality, const Part& part) {
  const auto header = read_header(bytes);
  if (!header) return refuse(header.trouble);
  try {
    return prepare_known(bytes, *header.value, stored_room(*header.value, max_width, max_height), quality, part);
  } catch (const std::bad_alloc&) {
    return refuse(no_memory);
  }
}

Outcome<Placed> as_jpeg(std::string_view bytes) {
  constexpr int nearly_all = 95;
  return prepare(bytes, max_side, max_side, nearly_all);
}

std::string damage(std::string_view bytes) { return prepare(bytes, 1, 1).trouble; }

}  // namespace soundsill::photo
