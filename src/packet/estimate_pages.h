// The estimate of one option, block by block. Shared by the files that write it; not for others.
#pragma once

#include "packet/builder.h"

namespace soundsill::document {

struct EstimatePages {
  const Builder& b;
  const Treatment& t;
  const Estimate& e;
  std::size_t index = 0;  ///< of the option; ids of the first are plain, so that pages before link to it

  [[nodiscard]] std::string id(std::string plain) const;
  /// Level of the headings below that of an option, where there is one.
  [[nodiscard]] int sub() const { return b.in.treatments.size() > 1 ? 4 : 3; }
  [[nodiscard]] std::string measure(const PricedLine& line) const;
  [[nodiscard]] std::string per(Per p) const;
  [[nodiscard]] std::string rate(const PricedLine& line) const;
  [[nodiscard]] std::string amount(const PricedLine& line) const;
  [[nodiscard]] Table lines() const;
  [[nodiscard]] std::string depth_words(const soundsill::Run& run) const;
  /// "no. 1, 2", each number a link to its card.
  [[nodiscard]] Runs numbers(const Line& w) const;
  /// What an option leaves out of the minimum is said where its price stands.
  void waivers(std::vector<Block>& blocks) const;
  /// Work of others that is the same for every option stands once, after the last.
  [[nodiscard]] bool others_after_all() const;
  void others(std::vector<Block>& blocks) const;
  [[nodiscard]] std::string depth_said(const soundsill::Run& run) const;
  void quantities(std::vector<Block>& blocks) const;
  void product(std::vector<Block>& blocks) const;
  /// Products that are not mixed from a tank: bait, or what a line by the piece takes.
  void unmixed(Facts& facts) const;
  [[nodiscard]] std::string product_words(const Product& p, int strength) const;
  void mixed(const Mix& mix, Facts& facts) const;
  void warranty(std::vector<Block>& blocks) const;
  /// A promise to repair says what it does not reach: damage that stood before, what was not seen, what is not treated.
  void stood_before(std::vector<Block>& blocks) const;
  void canceling(const CancellationRule& rule, std::vector<Runs>& out) const;
  void limits_of_price(std::vector<Block>& blocks) const;
  void would_change(std::vector<Block>& blocks, int level) const;
  void cautions(std::vector<Block>& blocks) const;
  /// What the work of any option is done on: cautions follow from it.
  [[nodiscard]] bool any_takes(std::initializer_list<Takes> kinds) const;
  [[nodiscard]] bool any_air(bool by_a_named_firm) const;
  [[nodiscard]] const WarrantyFacts* warranty_of(const Treatment& other) const;
  [[nodiscard]] std::string warranty_short(const Treatment& other) const;
  /// What a choice does and leaves, what label and state ask of it, and what the buyer gives up.
  void scope(std::vector<Block>& blocks) const;
  void other_options(std::vector<Block>& blocks) const;
  void priced(std::vector<Block>& blocks) const;
  [[nodiscard]] std::string lead() const;
};

}  // namespace soundsill::document
