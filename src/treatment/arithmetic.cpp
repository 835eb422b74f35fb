// The arithmetic of the trade, exact and free of any case. Sources stand in tests/published and in forms/.
#include <algorithm>

#include "treatment/treatment.h"

namespace soundsill {

Length required_depth(Length footing_top, Length state_minimum, Length label_minimum) {
  return std::min(footing_top, std::max(state_minimum, label_minimum));
}

Ratio soil_gallons(Length length, Length depth, const Ratio& rate_per_10_ft) {
  return length.in_feet() * depth.in_feet() * rate_per_10_ft / 10;
}

Ratio linear_gallons(Length length, const Ratio& rate_per_10_ft) { return length.in_feet() * rate_per_10_ft / 10; }

Ratio area_gallons(const Ratio& sqft, const Ratio& rate_per_10_sqft) { return sqft * rate_per_10_sqft / 10; }

int holes_of(Length length, Length spacing, bool closed) {
  if (length <= Length{} || spacing <= Length{}) return 0;
  const Ratio steps = length.in_feet() / spacing.in_feet();
  return closed ? static_cast<int>(steps.ceil()) : std::max(2, static_cast<int>(steps.floor()) + 1);
}

Ratio fl_oz_per_100_gal(const Percent& finished, const Ratio& lb_per_gal) {
  // 8.34 lb is the weight of a gallon of water; 128 fl oz make a gallon.
  return Ratio(100) * Ratio(834, 100) * finished.value / 100 / lb_per_gal * 128;
}

std::optional<Ratio> mixing_rate(const Product& product) {
  if (product.fl_oz_per_100_gal) return *product.fl_oz_per_100_gal;
  if (product.finished && product.lb_per_gal && *product.lb_per_gal > Ratio(0))
    return fl_oz_per_100_gal(*product.finished, *product.lb_per_gal);
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
  mix.fl_oz_per_100_gal = rate;
  mix.exact_fl_oz = gallons * rate / 100;
  mix.fl_oz = mix.exact_fl_oz.rounded_to(1);
  for (Ratio left = gallons; left > Ratio(0);) {
    const Ratio load = left < tank_gal ? left : tank_gal;
    const Ratio exact = load * rate / 100;
    mix.loads.push_back({load, exact.rounded_to(1), exact});
    left = left - load;
  }
  mix.packages = packages_for(product, mix.exact_fl_oz);
  mix.working = decimal(gallons, 1) + " gal x " + shortest(rate, 2) + " fl oz / 100 gal";
  return mix;
}

}  // namespace soundsill
