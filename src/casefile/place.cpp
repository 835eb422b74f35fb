#include "casefile/place.h"

#include <algorithm>
#include <array>
#include <charconv>

namespace soundsill {
namespace {

std::string_view trimmed(std::string_view s) {
  while (!s.empty() && s.front() == ' ') s.remove_prefix(1);
  while (!s.empty() && s.back() == ' ') s.remove_suffix(1);
  return s;
}

bool take(std::string_view& s, std::string_view word) {
  if (!s.starts_with(word)) return false;
  const std::string_view rest = s.substr(word.size());
  if (!rest.empty() && rest.front() != ' ') return false;
  s = trimmed(rest);
  return true;
}

std::optional<int> take_number(std::string_view& s) {
  int n = 0;
  const auto [end, failed] = std::from_chars(s.data(), s.data() + s.size(), n);
  if (failed != std::errc() || n < 1 || n > 9999) return std::nullopt;
  const auto rest = s.substr(static_cast<std::size_t>(end - s.data()));
  if (!rest.empty() && rest.front() != ' ') return std::nullopt;
  s = trimmed(rest);
  return n;
}

/// "", "at 6'", "6' to 9'" after the number of a wall.
bool read_stretch(std::string_view rest, std::optional<Length>& from, std::optional<Length>& to) {
  if (rest.empty()) return true;
  if (take(rest, "at")) {
    from = to = read_length(rest);
    return from.has_value();
  }
  const auto middle = rest.find(" to ");
  if (middle == std::string_view::npos) return false;
  from = read_length(trimmed(rest.substr(0, middle)));
  to = read_length(trimmed(rest.substr(middle + 4)));
  return from && to && *from < *to;
}

std::optional<WallStretch> read_wall_stretch(std::string_view s, Span at) {
  s = trimmed(s);
  take(s, "wall");
  const auto number = take_number(s);
  WallStretch stretch{.wall = number.value_or(0), .from = {}, .to = {}, .at = at};
  if (!number || !read_stretch(s, stretch.from, stretch.to)) return std::nullopt;
  return stretch;
}

}  // namespace

std::optional<Place> read_place(std::string_view text) {
  using Kind = Place::Kind;
  std::string_view s = trimmed(text);
  Place place;
  if (s == "all walls" || s == "all piers") {
    place.kind = s == "all walls" ? Kind::all_walls : Kind::all_piers;
    return place;
  }
  for (const auto& [word, kind] :
       {std::pair{"pier", Kind::pier}, std::pair{"wall", Kind::wall}, std::pair{"near", Kind::near}})
    if (take(s, word)) {
      const auto number = take_number(s);
      if (!number) return std::nullopt;
      place.kind = kind;
      place.number = *number;
      if (kind == Kind::wall ? !read_stretch(s, place.from, place.to) : !s.empty()) return std::nullopt;
      return place;
    }
  for (const auto& [word, kind] :
       {std::pair{"chimney", Kind::chimney}, std::pair{"slab", Kind::slab}, std::pair{"wood", Kind::wood},
        std::pair{"area", Kind::area}, std::pair{"partition", Kind::partition}, std::pair{"pilaster", Kind::pilaster},
        std::pair{"mark", Kind::mark}})
    if (take(s, word) && !s.empty()) {
      place.kind = kind;
      place.name = s;
      return place;
    }
  return std::nullopt;
}

namespace yaml {
namespace {

template <class T>
std::optional<T> not_a_place(Reader& reader, const Node& node) {
  const std::string what =
      node.is_scalar() ? "`" + node.text + "` is not read as a place" : "this is not read as a place";
  reader.faults().add(Rule::bad_place, node.span, what, "nobody could find it on the drawing",
                      "write " + std::string(Reading<T>::shape().says));
  return std::nullopt;
}

std::optional<std::pair<Length, Length>> read_pair(Reader& reader, const Node& node, bool coordinates) {
  if (!node.is_sequence() || node.items.size() != 2) return std::nullopt;
  std::optional<Length> pair[2];
  for (int i = 0; i < 2; ++i) {
    const Node& item = node.items[static_cast<std::size_t>(i)];
    if (!item.is_scalar()) return std::nullopt;
    if (coordinates && !item.quoted)
      pair[i] = read_coordinate(item.text);
    else
      pair[i] = Reading<Length>::read(reader, item);
    if (!pair[i]) return std::nullopt;
    if (pair[i]->sixteenths > Length::feet(10000).sixteenths || pair[i]->sixteenths < Length::feet(-10000).sixteenths)
      return std::nullopt;
  }
  return std::pair{*pair[0], *pair[1]};
}

}  // namespace

std::optional<Point> Reading<Point>::read(Reader& reader, const Node& node) {
  const std::size_t before = reader.faults().all().size();
  if (const auto pair = read_pair(reader, node, true)) return Point{pair->first, pair->second};
  return reader.faults().all().size() > before ? std::nullopt : not_a_place<Point>(reader, node);
}

std::optional<Size> Reading<Size>::read(Reader& reader, const Node& node) {
  const std::size_t before = reader.faults().all().size();
  const auto pair = read_pair(reader, node, false);
  if (pair && pair->first > Length{} && pair->second > Length{}) return Size{pair->first, pair->second};
  return reader.faults().all().size() > before ? std::nullopt : not_a_place<Size>(reader, node);
}

std::optional<Count> Reading<Count>::read(Reader& reader, const Node& node) {
  if (!node.is_sequence() || node.items.size() != 2) return not_a_place<Count>(reader, node);
  const auto across = Reading<int>::read(reader, node.items[0]);
  const auto down = Reading<int>::read(reader, node.items[1]);
  if (!across || !down) return std::nullopt;
  if (*across < 1 || *down < 1 || *across > 200 || *down > 200) return not_a_place<Count>(reader, node);
  return Count{*across, *down};
}

std::optional<LumberSize> Reading<LumberSize>::read(Reader& reader, const Node& node) {
  const std::string* text = reader.scalar(node, "a size of lumber");
  if (!text) return std::nullopt;
  const auto x = text->find('x');
  const auto whole = [](std::string_view s) -> int {
    int n = 0;
    const auto [end, failed] = std::from_chars(s.data(), s.data() + s.size(), n);
    return failed == std::errc() && end == s.data() + s.size() && n >= 1 && n <= 24 ? n : 0;
  };
  LumberSize size;
  if (x != std::string::npos)
    size = {whole(std::string_view(*text).substr(0, x)), whole(std::string_view(*text).substr(x + 1))};
  if (size.thick > 0 && size.wide > 0) return size;
  reader.faults().add(Rule::bad_number, node.span, "`" + *text + "` is not read as a size of lumber",
                      "the wood could not be measured, nor what it takes", "write " + std::string(shape().says));
  return std::nullopt;
}

std::optional<Place> Reading<Place>::read(Reader& reader, const Node& node) {
  if (node.is_sequence()) {
    const auto point = Reading<Point>::read(reader, node);
    if (!point) return std::nullopt;
    Place place;
    place.point = *point;
    place.at = node.span;
    return place;
  }
  auto place = node.is_scalar() ? read_place(node.text) : std::nullopt;
  if (!place) return not_a_place<Place>(reader, node);
  place->at = node.span;
  return place;
}

std::optional<WallSet> Reading<WallSet>::read(Reader& reader, const Node& node) {
  WallSet set;
  if (node.is_scalar() && node.text == "all") {
    set.all = true;
    return set;
  }
  if (node.is_scalar() && node.text == "none") return set;
  const auto one = [&](const Node& item) {
    const auto stretch = item.is_scalar() ? read_wall_stretch(item.text, item.span) : std::nullopt;
    if (!stretch) return false;
    set.some.push_back(*stretch);
    return true;
  };
  if (node.is_scalar()) return one(node) ? std::optional(set) : not_a_place<WallSet>(reader, node);
  if (!node.is_sequence()) return not_a_place<WallSet>(reader, node);
  for (const Node& item : node.items)
    if (!one(item)) return not_a_place<WallSet>(reader, item);
  return set;
}

std::optional<PierSet> Reading<PierSet>::read(Reader& reader, const Node& node) {
  PierSet set;
  set.at = node.span;
  if (node.is_scalar() && node.text == "all") {
    set.all = true;
    return set;
  }
  if (node.is_scalar() && node.text == "none") return set;
  const auto one = [&](const Node& item) {
    if (!item.is_scalar()) return false;
    std::string_view s = trimmed(item.text);
    const auto first = take_number(s);
    auto last = first;
    if (first && take(s, "to")) last = take_number(s);
    if (!first || !last || !s.empty() || *last < *first) return false;
    for (int n = *first; n <= *last; ++n) set.some.push_back(n);
    return true;
  };
  if (node.is_scalar()) return one(node) ? std::optional(set) : not_a_place<PierSet>(reader, node);
  if (!node.is_sequence()) return not_a_place<PierSet>(reader, node);
  for (const Node& item : node.items)
    if (!one(item)) return not_a_place<PierSet>(reader, item);
  return set;
}

std::optional<Step> Reading<Step>::read(Reader& reader, const Node& node) {
  Step step;
  step.at = node.span;
  if (node.is_sequence()) {
    const auto corner = Reading<Point>::read(reader, node);
    if (!corner) return std::nullopt;
    step.kind = Step::Kind::corner;
    step.corner = *corner;
    return step;
  }
  const std::string* text = reader.scalar(node, "a wall of an outline");
  if (!text) return std::nullopt;
  const auto space = text->find(' ');
  const std::string_view direction = std::string_view(*text).substr(0, space);
  bool good = space != std::string::npos && !direction.empty() && direction.size() <= 2;
  for (const char c : direction) {
    if (c == 'E' || c == 'W')
      good = good && step.east == 0, step.east = c == 'E' ? 1 : -1;
    else if (c == 'N' || c == 'S')
      good = good && step.south == 0, step.south = c == 'S' ? 1 : -1;
    else
      good = false;
  }
  const std::string_view typed = good ? trimmed(std::string_view(*text).substr(space)) : std::string_view{};
  const auto length = read_length(typed);
  const bool huge = begins_huge(typed);
  if (!huge && (!length || *length <= Length{})) {
    reader.bad(Rule::bad_walk, node, "a wall of an outline", "write " + std::string(shape().says));
    return std::nullopt;
  }
  if (huge || *length > Length::feet(10000)) {
    reader.faults().add(Rule::too_large, node.span, "`" + *text + "` is more than 10,000 ft",
                        "no house is that long; gallons and price would be nonsense", "write the length as measured");
    return std::nullopt;
  }
  step.length = *length;
  return step;
}

std::optional<InsideMeasure> Reading<InsideMeasure>::read(Reader& reader, const Node& node) {
  if (node.is_scalar() && node.text == "as outside") return InsideMeasure{true, {}};
  const auto length = Reading<Length>::read(reader, node);
  return length ? std::optional(InsideMeasure{false, *length}) : std::nullopt;
}

namespace {

/// So many percentages in a list; another number of them is one fault, each that does not read its own.
template <std::size_t N>
std::optional<std::array<Percent, N>> read_percents(Reader& reader, const Node& node, std::string_view says) {
  if (!node.is_sequence() || node.items.size() != N) {
    reader.faults().add(Rule::wrong_shape, node.span,
                        "this is not a list of " + std::string(N == 2 ? "two" : "four") + " percentages",
                        "nobody could tell which part of the photo is meant", "write " + std::string(says));
    return std::nullopt;
  }
  std::array<Percent, N> all;
  bool good = true;
  for (std::size_t i = 0; i < N; ++i) {
    const auto one = Reading<Percent>::read(reader, node.items[i]);
    good = good && one;
    if (one) all[i] = *one;
  }
  return good ? std::optional(all) : std::nullopt;
}

}  // namespace

std::optional<PhotoPoint> Reading<PhotoPoint>::read(Reader& reader, const Node& node) {
  const auto all = read_percents<2>(reader, node, shape().says);
  return all ? std::optional(PhotoPoint{(*all)[0], (*all)[1]}) : std::nullopt;
}

std::optional<PhotoCrop> Reading<PhotoCrop>::read(Reader& reader, const Node& node) {
  const auto all = read_percents<4>(reader, node, shape().says);
  return all ? std::optional(PhotoCrop{(*all)[0], (*all)[1], (*all)[2], (*all)[3]}) : std::nullopt;
}

std::optional<Answer> Reading<Answer>::read(Reader& reader, const Node& node) {
  if (node.is_scalar() && node.text == "none") return Answer{};
  if (node.is_scalar() && node.text == "not known") return Answer{Answer::Kind::not_known, {}};
  if (node.is_scalar() && read_yes_no(node.text)) return not_a_place<Answer>(reader, node);
  Answer answer{Answer::Kind::there, {}};
  if (!Reading<std::vector<std::string>>::fill(reader, node, answer.places) || answer.places.empty())
    return std::nullopt;
  return answer;
}

}  // namespace yaml
}  // namespace soundsill
