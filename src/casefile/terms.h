// The words of the trade that every floor shares: kinds, answers and roles, each with the words that people type.
#pragma once

#include "yaml/words.h"

namespace soundsill {

enum class Purpose { sale, refinance, owner };
/// Where the buyer agreed: at home, at another place that is not the seller's, at the seller's office, or from afar.
enum class SoldAt { home, elsewhere, office, afar };
/// The language in which the sale was talked over.
enum class SoldIn { english, spanish };
enum class Loan { none, conventional, fha, va, usda };
enum class Foundation { crawl_space, monolithic_slab, floating_slab, basement, piers };
enum class Soil { sand, loam, clay, rock, not_known };
enum class WallKind { hollow_block, poured, solid_masonry, brick_veneer, stone, wood_frame, skirting };
enum class PierKind { hollow_block, solid_masonry, poured, wood, steel };
enum class KnownBy { dug, drawing, assumed };
/// Under a slab or porch: earth between walls of its own, the soil it lies on, gravel, or nothing.
enum class Fill { earth, soil, gravel, none, not_known };
enum class Ground { dry, moist, saturated, frozen };
/// What lies along the outside of a wall: soil that can be dug, paving poured against it, or the next house.
enum class Adjoins { soil, slab, neighbor };
enum class PilasterKind { pilaster, step_buttress };
enum class MarkKind {
  well,
  cistern,
  pond,
  edible_bed,
  blooming_plants,
  hatch,
  front_door,
  water_line,
  gas_line,
  drain,
  sump,
  duct,
  bath_trap,
  pipe,
  expansion_joint,
  other
};
enum class Seen { yes, partly, no };
enum class FindingKind { evidence, damage, condition };
enum class State { active, past, not_determined };
enum class By { us, owner, contractor, other_company, warranty_holder };
enum class Sides { both, outside, inside };
/// How much of a full treatment an option takes.
enum class Scope { full, outside_and_local, evidence_only, bait };
enum class AdjustmentKind { low_crawl_space, hard_soil, stored_goods, distance, discount };
enum class Surface { bare, finished };
enum class Party { buyer, seller, owner };
enum class PhotoMarkKind { arrow, circle };
/// What a visit was made for.
enum class VisitFor { inspection, reinspection, treatment, retreatment };
/// Papers that go with the report of a house that is treated with it.
enum class Attached { agreement, warranty, diagram, waiver };
/// What happened to a warranty after the treatment.
enum class WarrantyDid { renewed, inspected, retreated, transferred, missed, claim, complaint, notice };

}  // namespace soundsill

#define SOUNDSILL_WORDS(E, ...)                                                 \
  template <>                                                                   \
  struct soundsill::yaml::Words<soundsill::E> {                                 \
    static constexpr auto words = std::to_array<std::string_view>(__VA_ARGS__); \
  };
SOUNDSILL_WORDS(Purpose, {"sale", "refinance", "owner's request"})
SOUNDSILL_WORDS(SoldAt, {"home", "elsewhere", "our office", "phone or mail"})
SOUNDSILL_WORDS(SoldIn, {"English", "Spanish"})
SOUNDSILL_WORDS(Loan, {"none", "conventional", "FHA", "VA", "USDA"})
SOUNDSILL_WORDS(Foundation, {"crawl space", "monolithic slab", "floating slab", "basement", "piers"})
SOUNDSILL_WORDS(Soil, {"sand", "loam", "clay", "rock", "not known"})
SOUNDSILL_WORDS(WallKind,
                {"hollow block", "poured", "solid masonry", "brick veneer", "stone", "wood frame", "skirting"})
SOUNDSILL_WORDS(PierKind, {"hollow block", "solid masonry", "poured", "wood", "steel"})
SOUNDSILL_WORDS(KnownBy, {"dug", "drawing", "assumed"})
SOUNDSILL_WORDS(Fill, {"earth", "soil", "gravel", "none", "not known"})
SOUNDSILL_WORDS(Ground, {"dry", "moist", "saturated", "frozen"})
SOUNDSILL_WORDS(Adjoins, {"soil", "slab", "neighbor"})
SOUNDSILL_WORDS(PilasterKind, {"pilaster", "step buttress"})
SOUNDSILL_WORDS(MarkKind,
                {"well", "cistern", "pond", "edible bed", "blooming plants", "hatch", "front door", "water line",
                 "gas line", "drain", "sump", "duct", "bath trap", "pipe", "expansion joint", "other"})
SOUNDSILL_WORDS(Seen, {"yes", "partly", "no"})
SOUNDSILL_WORDS(FindingKind, {"evidence", "damage", "condition"})
SOUNDSILL_WORDS(State, {"active", "past", "not determined"})
SOUNDSILL_WORDS(By, {"us", "owner", "contractor", "other company", "warranty holder"})
SOUNDSILL_WORDS(Sides, {"both", "outside", "inside"})
SOUNDSILL_WORDS(Scope, {"full", "outside and local", "evidence only", "bait"})
SOUNDSILL_WORDS(AdjustmentKind, {"low crawl space", "hard soil", "stored goods", "distance", "discount"})
SOUNDSILL_WORDS(Surface, {"bare", "finished"})
SOUNDSILL_WORDS(Party, {"buyer", "seller", "owner"})
SOUNDSILL_WORDS(PhotoMarkKind, {"arrow", "circle"})
SOUNDSILL_WORDS(VisitFor, {"inspection", "reinspection", "treatment", "retreatment"})
SOUNDSILL_WORDS(Attached, {"agreement", "warranty", "diagram", "waiver"})
SOUNDSILL_WORDS(WarrantyDid,
                {"renewed", "inspected", "retreated", "transferred", "missed", "claim", "complaint", "notice"})
#undef SOUNDSILL_WORDS
