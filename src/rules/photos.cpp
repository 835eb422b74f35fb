// Serves rules/each.h. The photo files that findings and structures name.
#include "rules/look.h"

namespace soundsill::rules {
namespace {

template <class Speaks>
void each(const Papers& papers, Speaks speaks) {
  for (const PhotoUse& use : photos_of(papers.basis.c)) {
    if (!use.photo->file) continue;
    const auto known = papers.photos.find(*use.photo->file);
    const std::string who = use.finding                            ? said(*use.finding)
                            : use.applied                          ? "the treatment record"
                            : use.structure && use.structure->name ? quoted(*use.structure->name)
                                                                   : "a structure";
    if (known != papers.photos.end()) speaks(who, *use.photo, known->second);
  }
}

}  // namespace

void no_photo(const Papers& papers, Faults& faults) {
  for (const Finding& f : items(papers.basis.c.findings)) {
    if (!f.live_seen.value_or(false) || f.photos.unread()) continue;
    if (f.photos && (!f.photos->empty() || misread(f.photos.at, faults))) continue;
    faults.add(Rule::no_photo, f.live_seen.at, said(f) + " was seen alive, and has no photo",
               "once the house is treated nobody can see it again",
               "add `photos: [{file: ..., shows: ...}]` if one was taken");
  }
}

void photo_missing(const Papers& papers, Faults& faults) {
  each(papers, [&](const std::string& who, const PhotoFile& photo, const PhotoState& state) {
    const auto& file = photo.file;
    if (!state.trouble.empty())
      faults.add(Rule::photo_missing, file.at, quoted(*file) + " cannot be read: " + state.trouble,
                 who + " would be printed without the photo it names",
                 "put the file there, or correct its name as seen from the case file's folder");
  });
}

void photo_broken(const Papers& papers, Faults& faults) {
  each(papers, [&](const std::string& who, const PhotoFile& photo, const PhotoState& state) {
    const auto& file = photo.file;
    if (state.trouble.empty() && !state.damage.empty())
      faults.add(Rule::photo_broken, file.at, quoted(*file) + " cannot be decoded: " + state.damage,
                 who + " would be printed with a torn photo, or none",
                 "copy the file from the camera again, or save it smaller");
  });
}

void photo_part(const Papers& papers, Faults& faults) {
  for (const PhotoUse& use : photos_of(papers.basis.c)) {
    const PhotoFile& p = *use.photo;
    const Ratio whole(100);
    PhotoCrop shown{{Ratio(0)}, {Ratio(0)}, {whole}, {whole}};
    if (p.crop) shown = *p.crop;
    const Ratio right = shown.x.value + shown.width.value, bottom = shown.y.value + shown.height.value;
    const bool empty = shown.width.value <= Ratio(0) || shown.height.value <= Ratio(0);
    if (empty || right > whole || bottom > whole) {
      faults.add(Rule::photo_part, p.crop.at,
                 empty ? "the part of the photo that is shown has no size" : "the part shown reaches out of its photo",
                 "nothing could be printed where the picture ends",
                 "write left, top, width and height in percent: left and width together are at most 100");
      continue;
    }
    const auto within = [&](const PhotoPoint& at) {
      return at.x.value >= shown.x.value && at.y.value >= shown.y.value && at.x.value <= right && at.y.value <= bottom;
    };
    for (const PhotoMark& mark : items(p.marks)) {
      if (!mark.from || !mark.to) continue;
      if (mark.from->x == mark.to->x && mark.from->y == mark.to->y)
        faults.add(Rule::photo_part, mark.to.at, "the mark begins and ends at the same point",
                   "an arrow or a circle without a length is not seen", "write another point under `to:`");
      for (const Field<PhotoPoint>* end : {&mark.from, &mark.to})
        if (!within(**end))
          faults.add(Rule::photo_part, end->at, "the mark lies outside the part of the photo that is shown",
                     "the reader would look for it in vain", "move it, or show more of the photo with `crop:`");
    }
  }
}

void photo_small(const Papers& papers, Faults& faults) {
  const Datum<int>* least = limit(papers, &Limits::photo_width);
  if (!least) return;
  each(papers, [&](const std::string&, const PhotoFile& photo, const PhotoState& state) {
    if (!state.trouble.empty() || !state.damage.empty() || !state.header) return;
    const Ratio share = photo.crop ? photo.crop->width.value / Ratio(100) : Ratio(1);
    const auto width = (Ratio(state.header->upright_width()) * share).floor();
    if (width < *least->value)
      faults.add(Rule::photo_small, photo.crop ? photo.crop.at : photo.file.at,
                 (photo.crop ? "the part shown of " : "") + quoted(*photo.file) + " is " + std::to_string(width) +
                     " pixels wide; print takes " + std::to_string(*least->value),
                 "the reader would see a blur where the evidence is",
                 photo.crop ? "show more of the photo" : "take the photo as the camera made it");
  });
}

}  // namespace soundsill::rules
