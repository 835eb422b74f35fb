// Serves treatment/treatment.h. The arithmetic of the trade, exact and free of any case. Sources stand in
// tests/published and in forms/.
#include <algorithm>

#include "treatment/treatment.h"

namespace soundsill {
namespace {

const Ratio fl_oz_a_gallon(128);          // University of Nebraska, pesticide education, units
const Ratio water_lb_a_gallon(834, 100);  // US Army MD0173, p. 37 and 43

}  // namespace

Length required_depth(Length footing_top, Length state_minimum, Length label_minimum) {
  return std::min(footing_top, std::max(state_minimum, label_minimum));
}

Ratio soil_gallons(Length length, Length depth, const Ratio& rate_per_10_ft) {
  return length.in_feet() * depth.in_feet() * rate_per_10_ft / 10;
}

Ratio backfill_gallons(Length length, Length width, Length depth, const Ratio& rate_per_cu_ft) {
  return length.in_feet() * width.in_feet() * depth.in_feet() * rate_per_cu_ft;
}

Ratio mean_depth(Length a, Length b, Length least, Length most) {
  const auto held = [&](const Ratio& f) { return std::max(least.in_feet(), std::min(f, most.in_feet())); };
  const Ratio first = a.in_feet(), last = b.in_feet();
  if (first == last) return held(first);
  // Even pieces lie between the shares at which the slope meets a bound.
  std::vector<Ratio> shares{Ratio(0), Ratio(1)};
  for (const Ratio& bound : {least.in_feet(), most.in_feet()}) {
    const Ratio share = (bound - first) / (last - first);
    if (share > Ratio(0) && share < Ratio(1)) shares.push_back(share);
  }
  std::sort(shares.begin(), shares.end());
  Ratio sum;
  for (std::size_t i = 0; i + 1 < shares.size(); ++i) {
    const auto at = [&](const Ratio& share) { return held(first + (last - first) * share); };
    sum += (shares[i + 1] - shares[i]) * (at(shares[i]) + at(shares[i + 1])) / 2;
  }
  return sum;
}

Ratio linear_gallons(Length length, const Ratio& rate_per_10_ft) { return length.in_feet() * rate_per_10_ft / 10; }

Ratio area_gallons(const Ratio& sqft, const Ratio& rate_per_10_sqft) { return sqft * rate_per_10_sqft / 10; }

int holes_of(Length length, Length spacing, bool closed) {
  if (length <= Length{} || spacing <= Length{}) return 0;
  const Ratio steps = length.in_feet() / spacing.in_feet();
  return closed ? static_cast<int>(steps.ceil()) : std::max(2, static_cast<int>(steps.floor()) + 1);
}

int stations_of(Length length, Length spacing, bool closed) {
  if (length <= Length{} || spacing <= Length{}) return 0;
  return static_cast<int>((length.in_feet() / spacing.in_feet()).ceil()) + (closed ? 0 : 1);
}

Ratio lumber_cu_ft(const LumberSize& size, Length length) {
  return length.in_feet() * Ratio(size.thick * size.wide, 144);
}

Ratio air_cu_ft(const Ratio& sqft, Length walls, Length roof) { return sqft * (walls.in_feet() + roof.in_feet() / 2); }

Ratio fl_oz_per_100_gal(const Percent& finished, const Ratio& lb_per_gal) {
  return active_lb(Ratio(100), finished) / lb_per_gal * fl_oz_a_gallon;
}

Ratio concentrate_by_volume(const Ratio& finished_gal, const Percent& finished, const Percent& concentrate) {
  return finished_gal * finished.value / concentrate.value;
}

Ratio percent_by_volume(const Ratio& concentrate, const Percent& strength, const Ratio& water) {
  return concentrate * strength.value / (concentrate + water);
}

Ratio active_lb(const Ratio& finished_gal, const Percent& finished) {
  return finished_gal * water_lb_a_gallon * finished.value / 100;
}

std::optional<Ratio> mixing_rate(const Product& product) {
  if (product.fl_oz_per_100_gal) return *product.fl_oz_per_100_gal;
  if (product.finished && product.lb_per_gal && *product.lb_per_gal > Ratio(0))
    return fl_oz_per_100_gal(*product.finished, *product.lb_per_gal);
  if (product.finished && product.concentrate && product.concentrate->value > Ratio(0))
    return concentrate_by_volume(Ratio(100), *product.finished, *product.concentrate) * fl_oz_a_gallon;
  return std::nullopt;
}

namespace {

/// Packages that hold at least `fl_oz`: as many of the largest as fit whole, then the smallest one that covers the
/// rest.
std::vector<std::pair<Ratio, int>> packages_for(const Product& product, const Ratio& fl_oz) {
  std::vector<Ratio> sizes;
  for (const Package& p : items(product.packages))
    if (p.fl_oz && *p.fl_oz >= Ratio(1)) sizes.push_back(*p.fl_oz);
  std::sort(sizes.begin(), sizes.end(), [](const Ratio& a, const Ratio& b) { return a > b; });
  std::vector<std::pair<Ratio, int>> bring;
  if (sizes.empty() || fl_oz <= Ratio(0)) return bring;
  const auto whole = (fl_oz / sizes.front()).floor();
  if (whole > 0) bring.emplace_back(sizes.front(), static_cast<int>(whole));
  const Ratio rest = fl_oz - sizes.front() * Ratio(whole);
  if (rest > Ratio(0)) {
    const auto covers = std::find_if(sizes.rbegin(), sizes.rend(), [&](const Ratio& s) { return s >= rest; });
    if (!bring.empty() && *covers == bring.front().first)
      ++bring.front().second;
    else
      bring.emplace_back(*covers, 1);
  }
  return bring;
}

}  // namespace

Mix mix_for(const Product& product, const Ratio& rate, const Ratio& gallons, const Ratio& tank_gal) {
  Mix mix;
  mix.product = &product;
  mix.gallons = gallons;
  mix.fl_oz_per_100_gal = rate;
  mix.exact_fl_oz = gallons * rate / 100;
  mix.fl_oz = mix.exact_fl_oz.rounded_to(1);
  for (Ratio left = gallons; left > Ratio(0);) {
    const Ratio load = left < tank_gal ? left : tank_gal;
    const Ratio exact = load * rate / 100;
    mix.loads.push_back({load, load - exact / fl_oz_a_gallon, exact.rounded_to(1), exact});
    left = left - load;
  }
  if (product.finished) mix.active_lb = active_lb(gallons, *product.finished);
  mix.packages = packages_for(product, mix.exact_fl_oz);
  if (!mix.packages.empty()) {
    const Ratio size = mix.packages.front().first;
    mix.packages_used = mix.exact_fl_oz / size;
    for (const Package& p : items(product.packages))
      if (p.fl_oz && *p.fl_oz == size && p.cost && *p.cost <= Money{100'000'00})
        mix.cost = times(mix.packages_used, *p.cost);
  }
  mix.working = decimal(gallons, 1) + " gal x " + shortest(rate, 2) + " fl oz / 100 gal";
  return mix;
}

}  // namespace soundsill
