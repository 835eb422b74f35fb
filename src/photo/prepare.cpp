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

/// Reads all rows into the shrinker; what is wrong, else empty.
std::string read_rows(Rows& rows, Shrinker& shrinker) {
  std::vector<std::uint8_t> row(static_cast<std::size_t>(rows.shape().width) *
                                static_cast<std::size_t>(rows.shape().channels));
  for (int y = 0; y < rows.shape().height; ++y) {
    if (!rows.next(row.data())) return rows.trouble();
    shrinker.add(row.data());
  }
  return rows.close() ? std::string() : rows.trouble();
}

Outcome<Placed> refuse(std::string trouble) { return {std::nullopt, std::move(trouble)}; }

Outcome<Placed> encode(const Pixels& pixels, int quality, Detail detail) {
  auto jpeg = write_jpeg(pixels, std::clamp(quality, 1, 100), detail);
  if (!jpeg) return refuse(no_memory);
  return {Placed{pixels.width, pixels.height, pixels.channels == 1, std::move(*jpeg)}, {}};
}

Outcome<Placed> prepare_known(std::string_view bytes, const Header& header, Size room, int quality) {
  const Size size = fit({header.width, header.height}, room);
  const auto rows = rows_of(bytes, header.kind);
  if (!rows->open(size.width, size.height)) return refuse(rows->trouble());
  const Shape& shape = rows->shape();
  // A decoder that sees other sizes than the header said would be a fault of ours; it must not become a wild write.
  if (shape.width < size.width || shape.height < size.height) return refuse("its sizes contradict each other");
  Shrinker shrinker(shape.width, shape.height, shape.channels, size.width, size.height);
  if (std::string trouble = read_rows(*rows, shrinker); !trouble.empty()) return refuse(std::move(trouble));
  const Pixels upright = turn_upright(to_srgb(shrinker.take(), shape, header.wide_colours), header.orientation);
  return encode(upright, quality, header.kind == Header::Kind::png ? Detail::fine : Detail::smooth);
}

}  // namespace

Outcome<Placed> prepare(std::string_view bytes, int max_width, int max_height, int quality) {
  const auto header = read_header(bytes);
  if (!header) return refuse(header.trouble);
  try {
    return prepare_known(bytes, *header.value, stored_room(*header.value, max_width, max_height), quality);
  } catch (const std::bad_alloc&) {
    return refuse(no_memory);
  }
}

std::string damage(std::string_view bytes) { return prepare(bytes, 1, 1).trouble; }

}  // namespace soundsill::photo
