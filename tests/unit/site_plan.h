// Plans for tests of site/: a structure as people type it, read and measured.
#pragma once

#include <cmath>
#include <memory>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "casefile/case.h"
#include "site/survey.h"

// After ours: the catalogue of rules has a word CHECK of its own, and forgets it.
#include <catch2/catch.hpp>

namespace soundsill::test {

struct Plan {
  Sources sources;
  Faults all;
  std::optional<Case> c;
  Survey survey;
  std::vector<Diagnostic> faults;  ///< those of the survey, not those of reading

  [[nodiscard]] const SurveyedStructure& house() const { return survey.structures.at(0); }
  [[nodiscard]] std::string whats() const {
    std::string out;
    for (const Diagnostic& d : faults) out += d.what + " [" + std::string(info(d.rule).code) + "]\n";
    return out;
  }
  /// The text a fault points at.
  [[nodiscard]] std::string at(std::size_t i) const {
    const Span& s = faults.at(i).at;
    return s ? std::string(s.source->text().substr(s.begin, s.end - s.begin)) : std::string();
  }
};

inline void measure_into(Plan& plan) {
  const std::size_t before = plan.all.all().size();
  plan.survey = measure(*plan.c, plan.all);
  plan.faults.assign(plan.all.all().begin() + static_cast<std::ptrdiff_t>(before), plan.all.all().end());
}

/// `lines` are keys of one structure, without indentation.
inline std::unique_ptr<Plan> plan_of(std::string_view lines) {
  auto plan = std::make_unique<Plan>();
  std::string text = "format: 1\nproperty:\n  structures:\n    - name: house\n";
  for (std::size_t i = 0; i < lines.size();) {
    const std::size_t end = std::min(lines.find('\n', i), lines.size());
    text += "      " + std::string(lines.substr(i, end - i)) + "\n";
    i = end + 1;
  }
  plan->c = read_case(plan->sources.add("case.yaml", text), plan->all);
  REQUIRE(plan->c.has_value());
  INFO(text);
  measure_into(*plan);
  return plan;
}

/// A structure made by code.
inline std::unique_ptr<Plan> plan_of(Structure structure) {
  auto plan = std::make_unique<Plan>();
  Property property;
  property.structures.set({std::move(structure)});
  plan->c.emplace();
  plan->c->property.set(std::move(property));
  measure_into(*plan);
  return plan;
}

/// A crawl space with walls of one thickness.
inline std::unique_ptr<Plan> crawl(const std::string& outline, const std::string& thick = "8\"",
                                   const std::string& more = {}) {
  return plan_of("parts: [{name: main, foundation: crawl space, outline: [" + outline +
                 "]}]\nwalls: [{walls: all, thick: " + thick + "}]\n" + more);
}

inline Length ft(std::int64_t feet, std::int64_t inches = 0, std::int64_t sixteenths = 0) {
  return Length::feet(feet) + Length::inches(inches) + Length{sixteenths};
}
inline Point at(std::int64_t x_ft, std::int64_t y_ft) { return {ft(x_ft), ft(y_ft)}; }

inline Part part_of(const std::vector<Point>& corners, Foundation foundation = Foundation::crawl_space) {
  Part part;
  part.name.set("main");
  part.foundation.set(foundation);
  part.start.set(corners.front());
  std::vector<Step> steps;
  for (std::size_t i = 1; i <= corners.size(); ++i) {
    Step step;
    step.kind = Step::Kind::corner;
    step.corner = corners[i % corners.size()];
    steps.push_back(step);
  }
  part.outline.set(steps);
  return part;
}

inline WallFacts thick_of(Length thick, std::vector<int> walls = {}) {
  WallFacts facts;
  WallSet set;
  set.all = walls.empty();
  for (const int n : walls) set.some.push_back({n, {}, {}, {}});
  facts.walls.set(set);
  facts.thick.set(thick);
  return facts;
}

inline Structure structure_of(const std::vector<Point>& corners, Length thick) {
  Structure s;
  s.name.set("house");
  s.parts.set({part_of(corners)});
  s.walls.set({thick_of(thick)});
  return s;
}

/// A rectilinear outline between two stepped lines: L, T, U and worse. Feet from 4 to 12 between corners.
inline std::vector<Point> stepped(std::mt19937& random, bool whole_feet = false) {
  const auto pick = [&](int a, int b) { return std::uniform_int_distribution<int>(a, b)(random); };
  const auto length = [&](int a, int b) { return whole_feet ? ft(pick(a, b)) : Length{pick(a * 192, b * 192)}; };
  const int columns = pick(1, 5);
  std::vector<Point> top, bottom;
  Length x, last_top = ft(-1), last_bottom = ft(-1);
  for (int i = 0; i < columns; ++i) {
    const Length right = x + length(4, 12);
    Length high = length(0, 10), low = length(16, 30);
    if (high == last_top) high += ft(4);
    if (low == last_bottom) low += ft(4);
    top.insert(top.end(), {{x, high}, {right, high}});
    bottom.insert(bottom.end(), {{x, low}, {right, low}});
    x = right, last_top = high, last_bottom = low;
  }
  top.insert(top.end(), bottom.rbegin(), bottom.rend());
  return top;
}

/// A star-shaped outline with any angles, none of them sharp.
inline std::vector<Point> slanted(std::mt19937& random) {
  const auto pick = [&](double a, double b) { return std::uniform_real_distribution<double>(a, b)(random); };
  while (true) {
    const int count = std::uniform_int_distribution<int>(4, 9)(random);
    std::vector<Point> out;
    for (int i = 0; i < count; ++i) {
      const double angle = (i + pick(-0.3, 0.3)) * 2 * 3.14159265358979 / count, radius = pick(12, 30) * 192;
      out.push_back({Length{std::llround(radius * std::cos(angle))}, Length{std::llround(radius * std::sin(angle))}});
    }
    bool blunt = true;
    for (std::size_t i = 0; i < out.size(); ++i) {
      const Point a = out[i], b = out[(i + 1) % out.size()], c = out[(i + 2) % out.size()];
      const double ux = static_cast<double>((b.x - a.x).sixteenths), uy = static_cast<double>((b.y - a.y).sixteenths);
      const double vx = static_cast<double>((c.x - b.x).sixteenths), vy = static_cast<double>((c.y - b.y).sixteenths);
      const double turn = std::abs(std::atan2(ux * vy - uy * vx, ux * vx + uy * vy));
      blunt = blunt && turn < 2.6 && std::hypot(ux, uy) > 5 * 192;
    }
    if (blunt) return out;
  }
}

}  // namespace soundsill::test
