#include "pdf/pdf.h"

#include <stdexcept>

#include "pdf/check.h"
#include "pdf/file.h"
#include "pdf/links.h"
#include "pdf/metadata.h"
#include "pdf/pieces.h"
#include "pdf/profile.h"

namespace soundsill::pdf {

namespace {

/// One run from pages to bytes.
class Writer {
 public:
  Writer(const page::Pages& pages, const Options& options)
      : pages_(pages),
        options_(options),
        file_(options.flavour == Flavour::pdfa_1a ? File::Version::v1_4 : File::Version::v1_7),
        tags_(pages),
        faces_(file_) {}

  std::string write() {
    // Links lead forward too, so all pages have their number before the first is written.
    for (const page::Page& page : pages_.pages) page_ids_.push_back(file_.add_page(page.width, page.height));
    for (std::size_t i = 0; i < page_ids_.size(); ++i) write_page(static_cast<int>(i));
    faces_.write(options_.flavour == Flavour::pdfa_1a);
    add_bookmarks(file_, pages_, page_ids_);
    write_catalog();
    file_.append_to_info(info(pages_, options_));
    return file_.save();
  }

 private:
  /// The page that is being written.
  struct Sheet {
    int number;
    Id id;
    Paint paint;
    Pieces pieces;
    std::vector<Id> links;

    Sheet(Writer& writer, int page)
        : number(page),
          id(writer.page_ids_[static_cast<std::size_t>(page)]),
          paint(writer.pages_.pages[static_cast<std::size_t>(page)].height),
          pieces(paint, writer.tags_, writer.pages_, page) {}
  };

  void write_page(int number) {
    Sheet sheet(*this, number);
    for (const page::Mark& mark : pages_.pages[static_cast<std::size_t>(number)].marks)
      std::visit([&](const auto& m) { place(sheet, m); }, mark);
    sheet.pieces.close();
    sheet.paint.end_text();
    file_.set_contents(sheet.id, sheet.paint.operators());
    std::string entries = "/StructParents " + std::to_string(number) + " /Tabs /S";
    if (!sheet.links.empty()) {
      entries += " /Annots [";
      for (const Id link : sheet.links) entries += reference(link) + " ";
      entries += "]";
    }
    file_.append(sheet.id, entries);
  }

  void place(Sheet& sheet, const page::TextMark& mark) {
    if (mark.glyphs.empty()) return;
    sheet.pieces.enter(mark.node, Pieces::What::text);
    UsedFace& face = faces_.use(*mark.face, mark.glyphs);
    sheet.paint.text(mark, face, file_.font_name(sheet.id, face.id()));
  }

  void place(Sheet& sheet, const page::PathMark& mark) {
    if (mark.pieces.empty() || (!mark.fill && !mark.stroke)) return;  // paints nothing
    sheet.pieces.enter(mark.node, Pieces::What::other);
    sheet.paint.path(mark);
  }

  void place(Sheet& sheet, const page::ImageMark& mark) {
    sheet.pieces.enter(mark.node, Pieces::What::other);
    sheet.paint.image(mark.box, file_.image_name(sheet.id, image(mark.photo)));
  }

  void place(Sheet& sheet, const page::LinkMark& mark) {
    sheet.links.push_back(add_link(file_, tags_, pages_, page_ids_, sheet.number, mark));
  }

  /// The photo as an object of the file; it is written once, however often it is shown.
  Id image(const std::string& key) {
    const auto known = images_.find(key);
    if (known != images_.end()) return known->second;
    const auto found = pages_.photos.find(key);
    if (found == pages_.photos.end()) throw std::invalid_argument("photo `" + key + "` is not there");
    const photo::Placed& photo = found->second;
    const std::string entries = "/Type /XObject /Subtype /Image /Width " + std::to_string(photo.width) + " /Height " +
                                std::to_string(photo.height) + " /BitsPerComponent 8 /ColorSpace " +
                                (photo.grey ? "/DeviceGray" : "/DeviceRGB") + " /Filter /DCTDecode";
    return images_[key] = file_.add_stream(entries, photo.jpeg, File::Packing::none);
  }

  [[nodiscard]] std::string output_intent() {
    const Id profile = file_.add_stream("/N 3", rgb_profile(), File::Packing::deflate);
    return "/OutputIntents [<</Type /OutputIntent /S /GTS_PDFA1 /OutputConditionIdentifier (sRGB)"
           " /Info (sRGB) /DestOutputProfile " +
           reference(profile) + ">>]";
  }

  [[nodiscard]] std::string attachment(const Attachment& file) {
    const std::string date = pdf_date(pages_.created);
    const Id bytes = file_.add_stream("/Type /EmbeddedFile /Subtype " + name(file.mime) + " /Params <</Size " +
                                          std::to_string(file.bytes.size()) +
                                          (date.empty() ? "" : " /ModDate " + text_string(date)) + ">>",
                                      file.bytes, File::Packing::deflate);
    const std::string to_bytes = reference(bytes);
    const std::string named = text_string(file.name);
    const Id specification = file_.add_dictionary("/Type /Filespec /F " + named + " /UF " + named + " /Desc " +
                                                  text_string(file.description) + " /AFRelationship /Source /EF <</F " +
                                                  to_bytes + " /UF " + to_bytes + ">>");
    return "/AF [" + reference(specification) + "] /Names <</EmbeddedFiles <</Names [" + named + " " +
           reference(specification) + "]>>>>";
  }

  void write_catalog() {
    // Archives want the metadata readable without unpacking, and so does the look at a file that is to be replaced.
    const Id metadata = file_.add_stream("/Type /Metadata /Subtype /XML", xmp(pages_, options_), File::Packing::none);
    file_.append_to_catalog("/Lang " + text_string(pages_.language) +
                            " /MarkInfo <</Marked true>> /ViewerPreferences <</DisplayDocTitle true>> /Metadata " +
                            reference(metadata) + " /StructTreeRoot " + reference(tags_.write(file_, page_ids_)));
    file_.append_to_catalog(output_intent());
    if (options_.attachment) file_.append_to_catalog(attachment(*options_.attachment));
  }

  const page::Pages& pages_;
  const Options& options_;
  File file_;
  Tags tags_;
  UsedFaces faces_;
  std::vector<Id> page_ids_;
  std::map<std::string, Id> images_;
};

void check(const Options& options) {
  if (!options.attachment) return;
  if (options.flavour == Flavour::pdfa_1a) throw std::invalid_argument("PDF/A-1 carries no file");
  const std::string& name = options.attachment->name;
  for (const char c : name)
    if (c <= ' ' || c > '~' || c == '/' || c == '\\')
      throw std::invalid_argument("`" + name + "` is no plain name for a file inside the PDF");
  if (name.empty() || options.attachment->mime.empty())
    throw std::invalid_argument("the file inside the PDF has no name or no kind");
}

}  // namespace

std::string write(const page::Pages& pages, const Options& options) {
  check(options);
  check(pages);
  return Writer(pages, options).write();
}

}  // namespace soundsill::pdf
