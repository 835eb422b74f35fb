// Serves casefile/case.h.
// The key table of the case file: the one place that says which keys there are, which are needed, and what they mean.
#include "casefile/case.h"
#include "casefile/keys.h"
#include "source/most.h"

namespace soundsill {

using yaml::Block;
using yaml::key;
using yaml::Key;
constexpr auto always = yaml::Need::always;
constexpr auto sometimes = yaml::Need::sometimes;
constexpr auto never = yaml::Need::never;

// Defines T::block() from the rows of its table.
#define SOUNDSILL_BLOCK(T, article, ...)               \
  const Block& T::block() {                            \
    static constexpr Key rows[] = {__VA_ARGS__};           \
    static constexpr Block made{article, rows};            \
    return made;                                       \
  }

SOUNDSILL_BLOCK(Replaces, "a `replaces` block",
                key<&Replaces::revision>("revision", always, "the number of the revision that this one replaces"),
                key<&Replaces::on>("on", always, "the day of the revision that this one replaces"),
                key<&Replaces::because>("because", always, "why the earlier revision was replaced; printed on page 1"))

SOUNDSILL_BLOCK(
    CaseFacts, "the `case` block",
    key<&CaseFacts::number>("number", always, "the company's number of the case; it stands on every page"),
    key<&CaseFacts::revision>("revision", always, "1 for the first paper of a case, counted up with each later one"),
    key<&CaseFacts::replaces>("replaces", sometimes, "the revision that this one replaces", "from revision 2 on"),
    key<&CaseFacts::ordered>("ordered", never, "the day the inspection was ordered"),
    key<&CaseFacts::due_diligence>("due diligence", never, "the day the buyer's right to withdraw ends"),
    key<&CaseFacts::closing>("closing", never, "the day of closing"),
    key<&CaseFacts::purpose>("purpose", always, "what the paper is for; a sale can bring a state's own sheet with it"),
    key<&CaseFacts::loan>("loan", sometimes, "the kind of loan; its rules are merged with the state's",
                          "for a sale or refinance"),
    key<&CaseFacts::sold_at>("sold at", sometimes, "where the buyer agrees to the work: a sale at home can be canceled",
                             "for an agreement"),
    key<&CaseFacts::sold_in>("sold in", sometimes,
                             "the language in which the sale is talked over; the agreement is in the same",
                             "for an agreement"),
    key<&CaseFacts::senior>("senior customer", sometimes,
                            "yes when the customer has the age to which the state gives more days to cancel",
                            "for an agreement, where a state gives them"),
    key<&CaseFacts::control_number>("control number", sometimes, "the number that the state gave to this report",
                                    "where a state gives one"))

SOUNDSILL_BLOCK(Person, "a person", key<&Person::name>("name", always, "the full name, as printed"),
                key<&Person::address>("address", never, "street, city, state and zip in one line"),
                key<&Person::phone>("phone", never, "printed only where the paper says whom to call"),
                key<&Person::email>("email", never, "never printed"),
                key<&Person::license>("license", sometimes, "the person's own license or card number",
                                      "of an inspector, where the form asks"))

SOUNDSILL_BLOCK(
    People, "the `people` block",
    key<&People::inspector>("inspector", always, "who looked at the house; the paper is nothing without a name"),
    key<&People::buyer>("buyer", sometimes, "who buys; the findings are addressed to the buyer", "for a sale"),
    key<&People::seller>("seller", never, "who sells"),
    key<&People::owner>("owner", sometimes, "who owns the house today and authorizes entry", "when not the seller"),
    key<&People::agent>("agent", never, "the real-estate agent"), key<&People::lender>("lender", never, "the lender"),
    key<&People::payer>("payer", never, "who pays, when it is not the owner"),
    key<&People::closing_attorney>("closing attorney", never, "who closes the sale and pays the invoice from it"),
    key<&People::veteran>("veteran", sometimes, "the veteran by name, as the invoice for such a loan names them",
                          "for a VA loan with an invoice"))

SOUNDSILL_BLOCK(Address, "an address",
                key<&Address::street>("street", always,
                                      "number and street of the house; a lender sends papers back without it"),
                key<&Address::city>("city", always, "the city; a lender sends papers back without it"),
                key<&Address::county>("county", never, "the county"),
                key<&Address::state>("state", always, "two letters"),
                key<&Address::zip>("zip", always, "five digits, in quotes"))

SOUNDSILL_BLOCK(
    Part, "a part of a structure", key<&Part::name>("name", always, "what people call this part"),
    key<&Part::foundation>("foundation", always, "what carries this part; it decides how soil is treated inside"),
    key<&Part::start>("start", never, "where the walk begins; [0, 0] when not said"),
    key<&Part::outline>("outline", always,
                        "the walk round the outside of the walls; every length on paper comes from it"),
    key<&Part::crawl_height>("crawl height", sometimes,
                             "from soil to the lowest wood; it decides how long the work takes", "of a crawl space"),
    key<&Part::joists_above>("joists above soil", never, "the least distance from the soil up to the joists"),
    key<&Part::girders_above>("girders above soil", never,
                              "the least distance from the soil up to girders and sub-sills"),
    key<&Part::wood_above>("wood above soil outside", never, "the least distance outside from the soil up to wood"),
    key<&Part::wall_height>(
        "wall height", sometimes,
        "from the lowest floor to the top of the walls, all stories; the crawl space below is added to it",
        "for work by volume"),
    key<&Part::roof_height>("roof height", never, "from the top of the walls to the ridge; half of it counts"))

SOUNDSILL_BLOCK(Footing, "a `footing` block",
                key<&Footing::outside>("outside", never, "from the soil outside down to the top of the footing"),
                key<&Footing::inside>("inside", never, "from the soil inside down to the top of the footing"),
                key<&Footing::outside_to>("outside to", never, "the depth outside where the wall ends, when it slopes"),
                key<&Footing::inside_to>("inside to", never, "the depth inside where the wall ends, when it slopes"),
                key<&Footing::known_by>("known by", always,
                                        "dug, drawing or assumed; an assumed depth is printed as assumed"))

SOUNDSILL_BLOCK(
    WallFacts, "wall facts",
    key<&WallFacts::walls>("walls", always, "which walls this says something of; `all` is overridden by numbers"),
    key<&WallFacts::kind>("kind", never, "what the wall is built of; hollow walls have voids to drill"),
    key<&WallFacts::kind_known_by>("kind known by", never,
                                   "dug, drawing or assumed; what an assumed void would change is told"),
    key<&WallFacts::thick>("thick", never, "from outside face to inside face; the inside length comes from it"),
    key<&WallFacts::footing>("footing", never, "how deep the footing lies; gallons grow with it"),
    key<&WallFacts::adjoins>("adjoins", never, "what lies along the outside: soil, a slab, or the neighbor's house"))

SOUNDSILL_BLOCK(
    PierGroup, "a group of piers",
    key<&PierGroup::from>("from", sometimes, "the middle of the first pier of a grid", "of a grid"),
    key<&PierGroup::every>("every", sometimes, "the distances between piers across and down", "of a grid"),
    key<&PierGroup::count>("count", sometimes, "how many piers across and down", "of a grid"),
    key<&PierGroup::at_points>("at", sometimes, "the middle of each pier", "when they stand in no grid"),
    key<&PierGroup::size>("size", always, "width and depth of one pier; the soil round it comes from this"),
    key<&PierGroup::kind>("kind", always, "what the piers are built of; hollow ones have voids to drill"),
    key<&PierGroup::footing>("footing", always, "from the soil down to the top of the pier's footing"),
    key<&PierGroup::known_by>("known by", always, "dug, drawing or assumed; an assumed depth is printed as assumed"),
    key<&PierGroup::gal_each>("gal_each", never,
                              "gallons a pier that the company bids by hand; shown beside the computed figure"))

SOUNDSILL_BLOCK(Chimney, "a chimney base", key<&Chimney::name>("name", always, "what people call it"),
                key<&Chimney::at_point>("at", always, "its middle on the plan"),
                key<&Chimney::size>("size", always, "width and depth; the soil round it comes from this"),
                key<&Chimney::kind>("kind", always, "what it is built of"),
                key<&Chimney::footing>("footing", always, "from the soil down to the top of its footing"),
                key<&Chimney::known_by>("known by", always, "dug, drawing or assumed"))

SOUNDSILL_BLOCK(Partition, "a partition", key<&Partition::name>("name", always, "what people call it"),
                key<&Partition::from>("from", always, "where its middle begins"),
                key<&Partition::to>("to", always, "where its middle ends; ends may reach into the outside walls"),
                key<&Partition::kind>("kind", never, "what it is built of; hollow ones have voids to drill"),
                key<&Partition::thick>("thick", always, "from face to face"),
                key<&Partition::footing>("footing", always, "from the soil down to the top of its footing"),
                key<&Partition::known_by>("known by", always, "dug, drawing or assumed"))

SOUNDSILL_BLOCK(Pilaster, "a pilaster", key<&Pilaster::name>("name", always, "what people call them"),
                key<&Pilaster::kind>("kind", always, "a pilaster, or a step buttress"),
                key<&Pilaster::places>("at", always, "the middle of each along its wall, like \"wall 2 at 6'\""),
                key<&Pilaster::side>("side", always, "outside or inside of the wall"),
                key<&Pilaster::wide>("wide", always, "its width along the wall"),
                key<&Pilaster::deep>("deep", always, "how far it stands out; both its sides are treated"),
                key<&Pilaster::footing>("footing", always, "from the soil down to the top of its footing"),
                key<&Pilaster::known_by>("known by", always, "dug, drawing or assumed"))

SOUNDSILL_BLOCK(Slab, "a slab or porch", key<&Slab::name>("name", always, "what people call it"),
                key<&Slab::fill>("fill", always,
                                 "what lies under it: earth between walls of its own, the soil it lies on, gravel, or "
                                 "none; soil is treated through holes"),
                key<&Slab::along>("along", always, "the stretch of wall it adjoins"),
                key<&Slab::deep>("deep", always, "how far it reaches away from the wall"),
                key<&Slab::footing>("footing", sometimes,
                                    "from the soil down to the top of the footing of its own outer walls",
                                    "of an earth-filled one"),
                key<&Slab::known_by>("known by", sometimes, "dug, drawing or assumed", "with `footing`"))

SOUNDSILL_BLOCK(WoodContact, "a wood contact", key<&WoodContact::name>("name", always, "what people call it"),
                key<&WoodContact::posts>("posts", always, "how many posts or stringers stand in soil"),
                key<&WoodContact::at_points>("at", never, "where each stands on the plan"),
                key<&WoodContact::gal_each>("gal_each", never, "gallons a post that the company bids by hand"))

SOUNDSILL_BLOCK(Mark, "a mark",
                key<&Mark::kind>("kind", always, "what it is; a well limits what may be treated near it"),
                key<&Mark::name>("name", never, "a word printed beside it"),
                key<&Mark::at_point>("at", sometimes, "its point on the plan", "when it has one"),
                key<&Mark::to>("to", sometimes, "where it ends", "of a duct or an expansion joint"),
                key<&Mark::size>("size", sometimes, "width and depth of the opening", "of a bath trap"),
                key<&Mark::along>("along", sometimes, "the stretch of wall it stands along", "when it has no point"))

SOUNDSILL_BLOCK(
    Dangers, "the `dangers` block", key<&Dangers::well>("well", sometimes, "wells, the neighbors' too", "always"),
    key<&Dangers::cistern>("cistern", sometimes, "cisterns", "always"),
    key<&Dangers::ducts_in_slab>("ducts in slab", sometimes, "air ducts in or under a slab", "always"),
    key<&Dangers::plenum>("plenum", sometimes, "a crawl space through which the house draws its air", "always"),
    key<&Dangers::radon_pipe>("radon pipe", sometimes, "a pipe that draws air from the soil", "always"),
    key<&Dangers::drain>("drain", sometimes, "footing drains, sumps and where they let out", "always"),
    key<&Dangers::lines>("lines", sometimes, "water, gas and electric lines in the soil", "always"),
    key<&Dangers::post_tension>("post-tension slab", sometimes, "steel under tension, which must not be drilled",
                                "always"),
    key<&Dangers::heated_slab>("heated slab", sometimes, "water or wires in the slab, which must not be drilled",
                               "always"),
    key<&Dangers::pond>("pond", sometimes, "ponds and streams", "always"),
    key<&Dangers::edible_beds>("edible beds", sometimes, "beds of food along the walls", "always"),
    key<&Dangers::blooming_plants>("blooming plants", sometimes, "plants in bloom that bees visit", "always"),
    key<&Dangers::sensitive_occupants>("sensitive occupants", sometimes, "infants, the ill, animals", "always"))

SOUNDSILL_BLOCK(Area, "an area", key<&Area::name>("name", always, "what people call it"),
                key<&Area::seen>("seen", always, "yes, partly or no; what was not seen stands on page 1"),
                key<&Area::region>("region", never,
                                   "corners on the plan of what was not seen, so that walls and piers can be counted; "
                                   "[] when it lies off the plan"),
                key<&Area::because>("because", sometimes, "why it was not seen", "when not all was seen"),
                key<&Area::advice>("advice", sometimes, "what is recommended about what was not seen",
                                   "where the form asks"))

SOUNDSILL_BLOCK(Measured, "the `measured` block",
                key<&Measured::outside>("outside", never, "the length round the outside as taped"),
                key<&Measured::inside>("inside", never, "the length round the inside as taped, or `as outside`"))

SOUNDSILL_BLOCK(
    Structure, "a structure", key<&Structure::name>("name", always, "what people call the building"),
    key<&Structure::kind>("kind", never, "single-family, garage, shed"),
    key<&Structure::inspected>("inspected", never, "no, when the building was not looked at at all"),
    key<&Structure::because>("because", sometimes, "why it was not looked at", "when `inspected: no`"),
    key<&Structure::soil>("soil", sometimes, "the soil's kind; it decides how fast it is dug and takes liquid",
                          "when looked at"),
    key<&Structure::ground>(
        "ground", never,
        "dry, moist, saturated or frozen on the day of the visit; labels forbid treating the last two"),
    key<&Structure::parts>("parts", sometimes, "outlines with their foundations", "when looked at"),
    key<&Structure::walls>("walls", sometimes, "what the walls are; what is not said of one wall is said of all",
                           "when looked at"),
    key<&Structure::piers>("piers", never, "groups of piers, numbered through as listed"),
    key<&Structure::chimneys>("chimneys", never, "chimney bases that stand in soil"),
    key<&Structure::partitions>("partitions", never, "walls inside a part, with soil on both sides"),
    key<&Structure::pilasters>("pilasters", never, "pilasters and step buttresses that stand out from a wall"),
    key<&Structure::slabs>("slabs", never, "slabs and porches that adjoin a wall"),
    key<&Structure::wood>("wood", never, "wood that stands in soil"),
    key<&Structure::marks>("marks", never, "wells, hatches, beds: what the plan shows besides"),
    key<&Structure::dangers>("dangers", sometimes, "each danger answered, none or where", "when looked at"),
    key<&Structure::areas>("areas", sometimes, "every area, seen or not", "when looked at"),
    key<&Structure::measured>("measured", never, "taped totals, when they contradict the drawing"),
    key<&Structure::photos>("photos", never, "photos of the building as a whole"))

SOUNDSILL_BLOCK(Property, "the `property` block", key<&Property::address>("address", always, "where the house stands"),
                key<&Property::structures>("structures", always, "every building that the paper speaks of"))

SOUNDSILL_BLOCK(Visit, "a visit", key<&Visit::id>("id", always, "a name for this visit"),
                key<&Visit::date>("date", always, "the day; nothing was seen without one"),
                key<&Visit::made_for>(
                    "for", never, "inspection, reinspection, treatment or retreatment; an inspection when not said"),
                key<&Visit::from>("from", never, "when it began"), key<&Visit::to>("to", never, "when it ended"),
                key<&Visit::weather>("weather", never, "dry, rain, snow cover"),
                key<&Visit::by>("by", never, "who looked, when not the inspector named above"),
                key<&Visit::tools>("tools", never, "what was used to look and probe"))

SOUNDSILL_BLOCK(EarlierTreatment, "an `earlier treatment` block",
                key<&EarlierTreatment::visible>(
                    "visible", always, "yes, when drill holes, plugs or stations of an earlier treatment can be seen"),
                key<&EarlierTreatment::papers>("papers", never, "what papers say of it: by whom, when"))

SOUNDSILL_BLOCK(Reading, "a moisture reading", key<&Reading::where>("at", always, "where the pins stood"),
                key<&Reading::percent>("percent", always, "moisture of the wood by weight, dry basis"))

SOUNDSILL_BLOCK(PhotoMark, "a mark on a photo", key<&PhotoMark::kind>("kind", always, "an arrow, or a circle"),
                key<&PhotoMark::from>("at", always, "where the arrow begins, or the middle of the circle"),
                key<&PhotoMark::to>("to", always, "what the arrow points at, or a point on the circle"))

SOUNDSILL_BLOCK(
    PhotoFile, "a photo", key<&PhotoFile::file>("file", always, "its path, seen from the case file's folder"),
    key<&PhotoFile::shows>("shows", always, "what it shows, in words, for those who cannot see it"),
    key<&PhotoFile::crop>("crop", never,
                          "the part that is shown: left, top, width and height in percent of the upright picture"),
    key<&PhotoFile::marks>("marks", never,
                           "arrows and circles drawn over it, placed in percent of the whole upright picture"))

SOUNDSILL_BLOCK(
    Finding, "a finding", key<&Finding::no>("no", always, "the number by which every paper names this finding"),
    key<&Finding::kind>("kind", always, "evidence of an organism, damage, or a condition that invites it"),
    key<&Finding::in>("in", always, "the structure it is in"),
    key<&Finding::place>("at", sometimes, "its place on the plan", "of evidence and damage"),
    key<&Finding::where>("where", always, "its place in words: the member and a landmark"),
    key<&Finding::organism>("organism", sometimes, "which organism", "of evidence and damage"),
    key<&Finding::condition>("condition", sometimes, "which condition", "of a condition"),
    key<&Finding::state>("state", sometimes, "active, past or not determined", "of evidence"),
    key<&Finding::live_seen>("live seen", sometimes, "yes only when the organism itself was seen alive", "of evidence"),
    key<&Finding::basis>("basis", sometimes, "what the call rests on", "of active evidence"),
    key<&Finding::signs>("signs", never, "what was seen: shelter tube, frass, wings"),
    key<&Finding::earlier_treatment>("earlier treatment", sometimes,
                                     "whether a treatment before this visit can be seen", "of past evidence"),
    key<&Finding::damage_seen>("damage seen", sometimes, "yes or no: whether damage was seen with it",
                               "of evidence without a finding of damage"),
    key<&Finding::holes>("holes", never, "inches across the exit holes, like 1/16\""),
    key<&Finding::moisture>("moisture", never, "readings of a moisture meter"),
    key<&Finding::wood>("wood", never, "the wood: softwood, hardwood, or its name"),
    key<&Finding::visit>("seen on", never, "the visit on which it was seen; the first when not said"),
    key<&Finding::photos>("photos", never, "photos, one close and one that shows where"))

SOUNDSILL_BLOCK(Agreed, "an `agreed` block", key<&Agreed::by>("by", always, "who agreed"),
                key<&Agreed::on>("on", always, "when"))

SOUNDSILL_BLOCK(Waiver, "a `waiver` block", key<&Waiver::by>("by", always, "who signed it"),
                key<&Waiver::on>("on", always, "when it was signed"),
                key<&Waiver::because>("because", always, "the reason written on it"))

SOUNDSILL_BLOCK(Lumber, "wood to be treated", key<&Lumber::size>("size", always, "nominal size in inches, like 2x6"),
                key<&Lumber::length>("length", always, "how long it is altogether"))

SOUNDSILL_BLOCK(
    Work, "a work line", key<&Work::id>("id", always, "a short name for this line"),
    key<&Work::answers>("answers", sometimes, "the numbers of the findings it answers", "unless `preventive: yes`"),
    key<&Work::does>("do", always, "the method, or `none`"),
    key<&Work::in>("in", sometimes, "the structure it is done in", "with more than one structure"),
    key<&Work::walls>("walls", never, "which walls it covers"),
    key<&Work::sides>("sides", never, "both faces of the walls, or one"),
    key<&Work::piers>("piers", never, "which piers it covers"),
    key<&Work::near>("near", never, "the findings near which it is done; the drawing says what lies near"),
    key<&Work::places>("at", never, "other places it covers"),
    key<&Work::depth>("depth", never, "a planned depth, when deeper than required"),
    key<&Work::count>("count", never, "how many, for work that is counted"),
    key<&Work::sq_ft>("sq ft", sometimes, "square feet of wood, slab or soil",
                      "for work by area that the plan does not measure"),
    key<&Work::coats>("coats", never, "how many coats are put on; 1 when not said"),
    key<&Work::lumber>("lumber", sometimes, "the wood, by nominal size and length", "for work by the volume of wood"),
    key<&Work::parts>("parts", never, "the parts of the structure it is done in; all when not said"),
    key<&Work::spacing>("spacing", never, "a closer spacing than the form or label asks"),
    key<&Work::surface>("surface", never, "bare or finished: what the wood is like that it is put on"),
    key<&Work::core>("core", never, "degrees Fahrenheit in the core of the wood, when other than the form asks"),
    key<&Work::hold>("hold", never, "minutes for which that heat is held"),
    key<&Work::product>("product", never, "a product of the company file, when not the option's"),
    key<&Work::half_volume>("half volume", never,
                            "yes, for half the gallons at double strength in clay, where the label cites it"),
    key<&Work::by>("by", never, "who does it; us when not said"),
    key<&Work::firm>("firm", sometimes, "who does it, by name and license", "of a fumigation that is not ours"),
    key<&Work::asked_of>("asked of", never, "who was asked to pay, until `agreed`"),
    key<&Work::agreed>("agreed", never, "who agreed, and when"),
    key<&Work::before>("before", never, "the day by which it is to be done"),
    key<&Work::because>("because", sometimes, "why nothing is done", "of `do: none`"),
    key<&Work::proof>("proof", never, "what will show that it was done: a contractor's letter, a reading"),
    key<&Work::preventive>("preventive", never, "yes, when nothing was found that it answers"),
    key<&Work::lender_asks>("lender asks", never, "yes, when the lender makes it a condition"),
    key<&Work::waiver>("waiver", never, "the signed waiver for what this line leaves out"))

SOUNDSILL_BLOCK(
    OptionFacts, "an option", key<&OptionFacts::id>("id", always, "a short name for this option"),
    key<&OptionFacts::name>("name", never, "its name on paper"),
    key<&OptionFacts::work>("work", always, "`all`, or the work lines it takes"),
    key<&OptionFacts::product>("product", sometimes, "a product of the company file", "with a treatment that uses one"),
    key<&OptionFacts::warranty>("warranty", sometimes, "a warranty of the company file, or `none`", "with a treatment"),
    key<&OptionFacts::scope>(
        "scope", never,
        "how much of the lines it takes: full, outside and local, evidence only, or bait; full when not said"),
    key<&OptionFacts::quoted>("quoted", never,
                              "a price that the customer was told before; it has to be the price worked out"),
    key<&OptionFacts::because>("because", sometimes, "why less than a full treatment is offered", "of a partial scope"))

SOUNDSILL_BLOCK(Adjustment, "an adjustment",
                key<&Adjustment::kind>("for", always, "what makes the work dearer or cheaper"),
                key<&Adjustment::percent>("percent", sometimes, "of the sum of the lines", "unless `amount`"),
                key<&Adjustment::amount>("amount", sometimes, "dollars", "unless `percent`"),
                key<&Adjustment::because>("because", always, "the reason, as printed"),
                key<&Adjustment::options>("options", never, "the options it holds for; all when not said"))

SOUNDSILL_BLOCK(Signed, "the `signed` block", key<&Signed::name>("name", always, "who signed"),
                key<&Signed::on>("on", always, "the day it was signed; the date of the paper"),
                key<&Signed::interest>("interest", sometimes,
                                       "`none`, or the interest that inspector or company has in the sale",
                                       "where the form asks"))

SOUNDSILL_BLOCK(OfficialSheet, "the `official sheet` block",
                key<&OfficialSheet::signed_on>("signed", always, "the day the state's own sheet was signed"),
                key<&OfficialSheet::by>("by", always, "who signed it"),
                key<&OfficialSheet::name>("name", never, "which sheet it is, when not the state's own"),
                key<&OfficialSheet::edition>("edition", never, "the day of its edition, as printed on it"),
                key<&OfficialSheet::address>("address", never,
                                             "the street as typed on it, to be held against this case's"))

SOUNDSILL_BLOCK(Consent, "somebody's word", key<&Consent::by>("by", always, "who gave it"),
                key<&Consent::on>("on", always, "when"))

SOUNDSILL_BLOCK(Accepted, "the `accepted` block",
                key<&Accepted::option>("option", always,
                                       "the option that was taken; work order, agreement and record are of it"),
                key<&Accepted::by>("by", always, "who signed for it"), key<&Accepted::on>("on", always, "when"),
                key<&Accepted::total>("total", never, "the price that was signed; it has to be the price worked out"))

SOUNDSILL_BLOCK(Locate, "a `locate` block",
                key<&Locate::ticket>("ticket", always, "the number of the ticket, in quotes"),
                key<&Locate::called>("called", always, "the day it was asked for"),
                key<&Locate::from>("clear from", always, "the first day on which soil may be rodded by it"),
                key<&Locate::until>("until", always, "the last day for which it holds"))

SOUNDSILL_BLOCK(Job, "the `job` block", key<&Job::on>("on", always, "the day the crew comes"),
                key<&Job::crew>("crew", always, "who comes, by name"),
                key<&Job::locate>("locate", sometimes, "the ticket for the marking of lines in the soil",
                                  "before soil is dug, rodded or drilled"),
                key<&Job::notes>("notes", never,
                                 "what else the crew is told: keys, dogs, where the water is taken from"))

SOUNDSILL_BLOCK(
    Agreement, "the `agreement` block", key<&Agreement::on>("on", always, "the day it was signed"),
    key<&Agreement::by>("by", always, "who signed it for the company: the licensee or an agent"),
    key<&Agreement::attached>("attached", never,
                              "what was attached to the report: agreement, warranty, diagram, waiver"),
    key<&Agreement::free_days>(
        "free treatment days", never,
        "days for which treatment is promised free of charge, counted as the form says; the form's days when not said"),
    key<&Agreement::fungus_notice>("fungus notice", sometimes,
                                   "the day the owner was told in writing of decay fungi, readings and growth",
                                   "before a fungicide, where the form asks"))

SOUNDSILL_BLOCK(WaiverSheet, "a waiver sheet",
                key<&WaiverSheet::option>("option", never, "the option it is for; the accepted one when not said"),
                key<&WaiverSheet::lines>("lines", never, "the work lines it is for; all when not said"),
                key<&WaiverSheet::leaves_out>("leaves out", always,
                                              "what of the state's minimum is left out, and where"),
                key<&WaiverSheet::because>("because", always, "the reason written on it"),
                key<&WaiverSheet::by>("by", always, "who signed it for the company"),
                key<&WaiverSheet::on>("on", always, "the day it was signed; before work begins"),
                key<&WaiverSheet::owner_accepts>("owner accepts", sometimes, "who signed it for the house, and when",
                                                 "before work begins"),
                key<&WaiverSheet::agreed_after>("agreed after", never,
                                                "who agreed, and when, that it holds though the work had begun"))

SOUNDSILL_BLOCK(AppliedRun, "a run as applied",
                key<&AppliedRun::run>("run", always, "the number of the run on the work order"),
                key<&AppliedRun::gal>("gal", sometimes, "gallons of finished mix that it took",
                                      "of a run with gallons"),
                key<&AppliedRun::holes>("holes", sometimes, "holes drilled", "of a run that is drilled"),
                key<&AppliedRun::plugged>("plugged", sometimes, "holes plugged again", "of a run that is drilled"),
                key<&AppliedRun::untreated>("untreated", never, "the waiver, when the run was left out"))

SOUNDSILL_BLOCK(AppliedProduct, "a product as applied",
                key<&AppliedProduct::product>("product", always, "a product of the company file"),
                key<&AppliedProduct::strength>("percent", sometimes, "of active ingredient in what was applied",
                                               "of a product that is mixed"),
                key<&AppliedProduct::fl_oz>("fl oz", never, "of concentrate that was used"))

SOUNDSILL_BLOCK(Applied, "a day of treatment", key<&Applied::on>("on", always, "the day; a record without one is none"),
                key<&Applied::from>("from", never, "when it began"), key<&Applied::to>("to", never, "when it ended"),
                key<&Applied::retreatment>("retreatment", never, "yes, when it was made under the warranty"),
                key<&Applied::because>("because", sometimes, "what called for it", "of a retreatment"),
                key<&Applied::crew>("crew", always, "who applied it, each by name"),
                key<&Applied::weather>("weather", always, "rain, wind, how warm; whether the soil was fit"),
                key<&Applied::products>("products", sometimes, "what was applied, and how strong",
                                        "of a treatment that uses one"),
                key<&Applied::runs>("runs", sometimes, "what each run took", "of a treatment with runs"),
                key<&Applied::done>("done", sometimes, "work lines that were done and are no runs",
                                    "of counted work and jobs"),
                key<&Applied::photos>("photos", never, "photos of the work"),
                key<&Applied::goes_on>("goes on", never, "the day on which the work goes on, while it is not finished"))

SOUNDSILL_BLOCK(Payment, "a payment", key<&Payment::on>("on", always, "the day it came in"),
                key<&Payment::amount>("amount", always, "dollars"), key<&Payment::by>("by", always, "who paid"),
                key<&Payment::how>("how", never, "check, card, from the closing"))

SOUNDSILL_BLOCK(Fee, "a fee", key<&Fee::what>("for", always, "what it is for, as printed"),
                key<&Fee::amount>("amount", always, "dollars"))

SOUNDSILL_BLOCK(Invoice, "the `invoice` block",
                key<&Invoice::number>("number", always, "the company's number of the invoice, in quotes"),
                key<&Invoice::on>("on", always, "the day it was written"),
                key<&Invoice::fees>("fees", never, "what is billed besides the lines of the estimate: the inspection"),
                key<&Invoice::paid>("paid", never, "what was paid, by whom and when; nothing when not said"),
                key<&Invoice::veteran_pays>("veteran pays", never, "yes, when the veteran pays the inspection"),
                key<&Invoice::notice_requires>("notice of value requires", never,
                                               "yes, when the notice of value asks for the inspection"))

SOUNDSILL_BLOCK(Filed, "a filing", key<&Filed::paper>("paper", always, "which paper, as the form names it"),
                key<&Filed::on>("on", always, "the day it was filed"))
SOUNDSILL_BLOCK(WarrantyEvent, "an event of the warranty",
                key<&WarrantyEvent::did>(
                    "event", always, "renewed, inspected, retreated, transferred, missed, claim, complaint or notice"),
                key<&WarrantyEvent::on>("on", always, "when"),
                key<&WarrantyEvent::visit>("seen on", never, "the visit on which it was seen"),
                key<&WarrantyEvent::paid>("paid", never, "the renewal fee that came in"),
                key<&WarrantyEvent::to>("to", sometimes, "the new holder", "of a transfer"),
                key<&WarrantyEvent::by>("by", never, "who asked, or told us"),
                key<&WarrantyEvent::because>("because", never, "what it was about"),
                key<&WarrantyEvent::settled>("settled", never, "the day a claim, complaint or notice was settled"))

SOUNDSILL_BLOCK(Case, "a case", key<&Case::format>("format", always, "1, the format of this file"),
                key<&Case::facts>("case", always, "number, revision, dates, purpose"),
                key<&Case::form>("form", always, "the data of the state whose rules hold"),
                key<&Case::edition>("edition", never, "the edition of that form under which the case was made"),
                key<&Case::people>("people", always, "who is concerned"),
                key<&Case::property>("property", always, "address and buildings"),
                key<&Case::visits>("visits", always, "when the house was looked at"),
                key<&Case::findings>("findings", always, "what was found; [] when nothing was"),
                key<&Case::work>("work", sometimes, "what answers the findings", "when something was found"),
                key<&Case::options>("options", sometimes, "the choices offered", "when there is work"),
                key<&Case::signature>("signed", sometimes, "the inspector's signature", "for a final paper"),
                key<&Case::official_sheet>("official sheet", sometimes,
                                           "the state's own sheet that this paper accompanies", "where the form asks"),
                key<&Case::adjustments>("adjustments", never,
                                        "what changes the price for a reason that the measures do not show"),
                key<&Case::accepted>("accepted", never, "the option that was taken"),
                key<&Case::job>("job", sometimes, "the day, the crew and the locate ticket", "for a work order"),
                key<&Case::agreement>("agreement", never, "the service agreement, once it is signed"),
                key<&Case::waivers>("waivers", sometimes, "the state's own waivers as signed",
                                    "of an accepted option that leaves out of the minimum"),
                key<&Case::applied>("applied", sometimes, "the days of treatment as they were",
                                    "for record and certificate"),
                key<&Case::invoice>("invoice", sometimes, "number, day and payments", "for an invoice"),
                key<&Case::filed>("filed", never, "what was filed with an office, and when"),
                key<&Case::warranty>("warranty", never, "what happened to the warranty after the treatment"))

std::vector<std::pair<std::string_view, const Field<Answer>*>> Dangers::all() const {
  const Field<Answer>* fields[] = {&well,        &cistern,         &ducts_in_slab,      &plenum,      &radon_pipe,
                                   &drain,       &lines,           &post_tension,       &heated_slab, &pond,
                                   &edible_beds, &blooming_plants, &sensitive_occupants};
  std::vector<std::pair<std::string_view, const Field<Answer>*>> out;
  const auto names = yaml::names(block());
  for (std::size_t i = 0; i < names.size(); ++i) out.emplace_back(names[i], fields[i]);
  return out;
}

std::string Case::address_line() const {
  if (!property || !property->address) return {};
  const Address& a = *property->address;
  std::string out = a.street.value_or("");
  if (a.city) out += ", " + *a.city;
  if (a.state) out += ", " + *a.state;
  if (a.zip) out += " " + a.zip->text;
  return out;
}

const std::vector<Structure>& Case::structures() const {
  static const std::vector<Structure> nothing;
  return property && property->structures ? *property->structures : nothing;
}

std::vector<PhotoUse> photos_of(const Case& c) {
  std::vector<PhotoUse> all;
  for (const Structure& s : c.structures())
    for (const PhotoFile& p : items(s.photos)) all.push_back({&p, nullptr, &s});
  for (const Finding& f : items(c.findings))
    for (const PhotoFile& p : items(f.photos)) all.push_back({&p, &f, nullptr});
  for (const Applied& a : items(c.applied))
    for (const PhotoFile& p : items(a.photos)) all.push_back({&p, nullptr, nullptr, &a});
  return all;
}

namespace {

std::string count(std::size_t n) {
  std::string out = std::to_string(n);
  for (std::size_t at = out.size(); at > 3; at -= 3) out.insert(at - 3, ",");
  return out;
}

/// No house has so much; what would be worked out from it takes hours, and nobody would read it.
bool too_many(const Case& c, Faults& faults) {
  const auto& findings = items(c.findings);
  const auto photos = photos_of(c);
  if (findings.size() > most::findings)
    faults.add(Rule::too_large, findings[most::findings].at,
               "this is one of " + count(findings.size()) + " findings; " + count(most::findings) + " are the most",
               "nobody would read such a paper, and nothing of it is worked out",
               "take out what was pasted by mistake, or make a case of each building");
  if (photos.size() > most::photos)
    faults.add(Rule::too_large, photos[most::photos].photo->at,
               "this is one of " + count(photos.size()) + " photos; " + count(most::photos) + " are the most",
               "no mail box takes such a paper, and nothing of it is worked out",
               "name the photos that show something new");
  return findings.size() > most::findings || photos.size() > most::photos;
}

}  // namespace

const yaml::Block& case_keys() { return Case::block(); }

std::optional<Case> read_case(const Source& source, Faults& faults) {
  const auto tree = yaml::read(source, faults);
  if (!tree) return std::nullopt;
  yaml::Reader reader(faults);
  Case made;
  made.at = tree->span;
  // Newer formats are refused by name rather than by a hundred unknown keys.
  if (const auto* format = tree->find("format"); format && format->value.is_scalar() && format->value.text != "1") {
    faults.add(Rule::newer_format, format->value.span,
               "format `" + format->value.text + "` is not read by this program",
               "keys of another format would be misread", "write `format: 1`, or use a newer soundsill");
    return std::nullopt;
  }
  if (!reader.block(*tree, tree->span, Case::block(), &made) || too_many(made, faults)) return std::nullopt;
  return made;
}

}  // namespace soundsill
