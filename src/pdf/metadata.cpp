#include "pdf/metadata.h"

#include <stdexcept>

#include "pdf/pdf.h"
#include "pdf/syntax.h"

namespace soundsill::pdf {

namespace {

/// PDF/A knows no other properties than its own, so the one of PDF/UA is described in the file. An rdf:li that has
/// content may have no properties as attributes (RDF/XML, production parseTypeOther and nodeElement): these stand on an
/// rdf:Description within it.
constexpr std::string_view ua_description =
    "<pdfaExtension:schemas><rdf:Bag><rdf:li><rdf:Description pdfaSchema:schema=\"PDF/UA identification\""
    " pdfaSchema:namespaceURI=\"http://www.aiim.org/pdfua/ns/id/\" pdfaSchema:prefix=\"pdfuaid\">"
    "<pdfaSchema:property><rdf:Seq><rdf:li pdfaProperty:name=\"part\" pdfaProperty:valueType=\"Integer\""
    " pdfaProperty:category=\"internal\" pdfaProperty:description=\"Part of PDF/UA\"/></rdf:Seq></pdfaSchema:property>"
    "</rdf:Description></rdf:li></rdf:Bag></pdfaExtension:schemas>\n";

constexpr std::string_view names =
    " xmlns:dc=\"http://purl.org/dc/elements/1.1/\" xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\""
    " xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\" xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\""
    " xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\""
    " xmlns:pdfaExtension=\"http://www.aiim.org/pdfa/ns/extension/\""
    " xmlns:pdfaSchema=\"http://www.aiim.org/pdfa/ns/schema#\""
    " xmlns:pdfaProperty=\"http://www.aiim.org/pdfa/ns/property#\"";

std::string element(const std::string& tag, std::string_view text) {
  return "<" + tag + ">" + xml_text(text) + "</" + tag + ">\n";
}

/// dc:title and its like are lists: by language ("Alt"), by rank ("Seq") or without order ("Bag").
std::string list(const std::string& tag, const std::string& kind, std::string_view text) {
  const std::string item = kind == "Alt" ? "<rdf:li xml:lang=\"x-default\">" : "<rdf:li>";
  return "<" + tag + "><rdf:" + kind + ">" + item + xml_text(text) + "</rdf:li></rdf:" + kind + "></" + tag + ">\n";
}

std::string dublin_core(const page::Pages& pages) {
  std::string body = element("dc:format", "application/pdf") + list("dc:title", "Alt", pages.title);
  if (!pages.author.empty()) body += list("dc:creator", "Seq", pages.author);
  if (!pages.subject.empty()) body += list("dc:description", "Alt", pages.subject);
  body += list("dc:language", "Bag", pages.language);
  if (!pages.source.empty()) body += element("dc:source", pages.source);
  return body;
}

/// Which program made it, and the day of the paper.
std::string made(const page::Pages& pages, const std::string& tool) {
  std::string body = element("xmp:CreatorTool", tool);
  const std::string date = pages.created + "T00:00:00Z";
  if (!pages.created.empty()) body += element("xmp:CreateDate", date) + element("xmp:ModifyDate", date);
  return body;
}

/// Control letters have no place in XML, so Info leaves them out as well.
std::string clean(const std::string& text) {
  std::string out;
  for (const char c : text)
    if (static_cast<unsigned char>(c) >= ' ') out += c;
  return out;
}

std::string entry(const char* key, const std::string& text) {
  return text.empty() ? std::string() : std::string("/") + key + " " + text_string(text) + "\n";
}

/// The texts that both places hold, cleaned once.
page::Pages texts(const page::Pages& pages) {
  page::Pages out;
  out.title = clean(pages.title);
  out.author = clean(pages.author);
  out.subject = clean(pages.subject);
  out.language = clean(pages.language);
  out.created = pages.created;
  out.source = clean(pages.source);
  return out;
}

}  // namespace

std::string subject_opening(const std::string& subject) {
  const std::string whole = list("dc:description", "Alt", clean(subject));
  return whole.substr(0, whole.find("</rdf:li>"));
}

std::string pdf_date(const std::string& iso) {
  if (iso.empty()) return {};
  std::string digits;
  for (const char c : iso)
    if (c >= '0' && c <= '9') digits += c;
  if (iso.size() != 10 || iso[4] != '-' || iso[7] != '-' || digits.size() != 8)
    throw std::invalid_argument("`" + iso + "` is no date of the form YYYY-MM-DD");
  return "D:" + digits + "000000Z";
}

std::string info(const page::Pages& pages, const Options& options) {
  const page::Pages said = texts(pages);
  const std::string date = pdf_date(said.created);
  return entry("Title", said.title) + entry("Author", said.author) + entry("Subject", said.subject) +
         entry("Creator", clean(options.producer)) + entry("Producer", clean(options.producer)) +
         entry("CreationDate", date) + entry("ModDate", date);
}

std::string xmp(const page::Pages& pages, const Options& options) {
  const page::Pages said = texts(pages);
  const bool first_part = options.flavour == Flavour::pdfa_1a;
  std::string out = "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n";
  out +=
      "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n";
  out += "<rdf:Description rdf:about=\"\"" + std::string(names) + ">\n";
  out += dublin_core(said) + made(said, clean(options.producer)) + element("pdf:Producer", clean(options.producer));
  out += element("pdfaid:part", first_part ? "1" : "3") + element("pdfaid:conformance", "A");
  // PDF/UA builds on PDF 1.7 and forbids to map types that it has: a PDF 1.4 has to (tags.cpp), and claims nothing.
  if (!first_part) (out += element("pdfuaid:part", "1")) += ua_description;
  out += "</rdf:Description>\n";
  return out += "</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>";
}

}  // namespace soundsill::pdf
