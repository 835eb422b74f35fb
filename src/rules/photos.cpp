// The photo files that findings and structures name.
#include "rules/look.h"

namespace soundsill::rules {
namespace {

template <class Speaks>
void each(const Papers& papers, Speaks speaks) {
  for (const PhotoUse& use : photos_of(papers.basis.c)) {
    if (!use.photo->file) continue;
    const auto known = papers.photos.find(*use.photo->file);
    const std::string who = use.finding           ? said(*use.finding)
                            : use.structure->name ? quoted(*use.structure->name)
                                                  : "a structure";
    if (known != papers.photos.end()) speaks(who, use.photo->file, known->second);
  }
}

}  // namespace

void photo_missing(const Papers& papers, Faults& faults) {
  each(papers, [&](const std::string& who, const Field<std::string>& file, const PhotoState& state) {
    if (!state.trouble.empty())
      faults.add(Rule::photo_missing, file.at, quoted(*file) + " cannot be read: " + state.trouble,
                 who + " would be printed without the photo it names",
                 "put the file there, or correct its name as seen from the case file's folder");
  });
}

void photo_broken(const Papers& papers, Faults& faults) {
  each(papers, [&](const std::string& who, const Field<std::string>& file, const PhotoState& state) {
    if (state.trouble.empty() && !state.damage.empty())
      faults.add(Rule::photo_broken, file.at, quoted(*file) + " cannot be decoded: " + state.damage,
                 who + " would be printed with a torn photo, or none", "copy the file from the camera again");
  });
}

void photo_small(const Papers& papers, Faults& faults) {
  const Datum<int>* least = limit(papers, &Limits::photo_width);
  if (!least) return;
  each(papers, [&](const std::string&, const Field<std::string>& file, const PhotoState& state) {
    if (!state.trouble.empty() || !state.damage.empty() || !state.header) return;
    const int width = state.header->upright_width();
    if (width < *least->value)
      faults.add(
          Rule::photo_small, file.at,
          quoted(*file) + " is " + std::to_string(width) + " pixels wide; print takes " + std::to_string(*least->value),
          "the reader would see a blur where the evidence is", "take the photo as the camera made it");
  });
}

}  // namespace soundsill::rules
