// From the name of a case to everything that its papers are made of.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "cli/disk.h"
#include "cli/shelf.h"
#include "font/font.h"
#include "layout/layout.h"
#include "packet/owed.h"
#include "resolved/scopes.h"
#include "rules/rules.h"

namespace soundsill::cli {

struct Where {
  std::string forms;            ///< --forms DIR, or empty
  std::string templates;        ///< --templates DIR, or empty
  std::string language = "en";  ///< --lang: two letters
  std::optional<Date> today;
  Wanted wanted = Wanted::packet;
  std::string option;  ///< --option ID, or empty
};

/// Data that serves every case of a run, read once: words, template, fonts, the trade's words.
struct Shared {
  Sources sources;
  Faults faults;
  std::optional<Trade> trade;
  std::optional<Form> general;
  std::optional<document::Words> words;    ///< of the language that was asked for
  std::optional<document::Words> english;  ///< the words that count, when those are a translation
  std::optional<page::Template> look;
  std::string style_sheet;  ///< of papers as HTML
  font::Faces faces;
  std::unique_ptr<const page::Hyphens> hyphens;  ///< only when the template asks for them
};

/// One case with all that was worked out from it.
struct Loaded {
  std::string path, folder;
  Sources sources;
  Faults faults;
  std::optional<Case> c;
  std::shared_ptr<const Shelved<Company>> company;
  std::shared_ptr<const Shelved<Form>> form;
  std::optional<Form> own_form;  ///< the same with the company's own limits laid over it
  Survey survey;
  resolved::Resolved resolved;
  std::optional<Basis> basis;  ///< refers to the members above
  std::vector<Treatment> treatments;
  std::vector<Estimate> estimates;
  std::map<std::string, std::string> photos;  ///< bytes by the path that the case file gives
  bool proved = false;                        ///< every photo was decoded, and the broken ones were told
  bool unreadable = false;                    ///< a file could not be read at all: exit status 2

  Loaded() = default;
  Loaded(const Loaded&) = delete;
  Loaded& operator=(const Loaded&) = delete;
};

/// How deeply photos are looked at.
enum class PhotoCheck { none, header, whole };

/// What is read: the trade's words and the general form, or what papers are laid out with besides.
enum class Sharing { data, papers };
void load_shared(Shared& shared, const Where& where, const Files& files, Sharing what = Sharing::papers);
/// The template of another kind of paper; its faces are added to those of the packet.
[[nodiscard]] std::optional<page::Template> load_look(Shared& shared, const Where& where, const std::string& kind,
                                                      const Files& files);
/// Adds the faults of photos that cannot be decoded, and takes those photos from the case. `troubles` is by their
/// paths.
void tell_broken(Loaded& loaded, const std::map<std::string, std::string>& troubles);
/// Decodes the photos of a case whose paper will not show them all.
void prove_photos(Loaded& loaded);
/// Reads, measures, plans, prices and checks a case. `argument` is a file or its folder. With PhotoCheck::whole, photos
/// of a case that is otherwise without errors are not decoded yet: its paper does that, and once is enough.
void load_case(Loaded& loaded, const std::string& argument, const Shared& shared, const Where& where,
               const Files& files, Shelf& shelf, PhotoCheck photos);

}  // namespace soundsill::cli
