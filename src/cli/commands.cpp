#include "cli/commands.h"

#include <atomic>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <deque>
#include <filesystem>
#include <memory>
#include <set>
#include <utility>

#include "cli/in_order.h"
#include "cli/output.h"
#include "cli/paper.h"
#include "cli/twin.h"
#include "listing/data.h"
#include "listing/listing.h"
#include "listing/review.h"
#include "source/most.h"

namespace soundsill::cli {

namespace {
thread_local std::string* kept = nullptr;
int output_error = 0;  // the first of standard output, which only the main thread writes

bool arrived(std::FILE* to, bool well) {
  if (!well && to == stdout && output_error == 0) output_error = errno;
  return well;
}

}  // namespace

Aside::Aside() { kept = &said_; }
Aside::~Aside() { kept = nullptr; }
std::string Aside::take() { return std::exchange(said_, {}); }

bool put_piece(std::FILE* to, std::string_view text) {
  return arrived(to, std::fwrite(text.data(), 1, text.size(), to) == text.size());
}

bool put(std::FILE* to, std::string_view text) {
  if (kept && to == stderr) {
    *kept += text;
    return true;
  }
  const bool whole = put_piece(to, text);
  return arrived(to, std::fflush(to) == 0) && whole;
}

std::string lost_output() {
  (void)put(stdout, {});
  return output_error != 0 ? std::strerror(output_error) : "";
}

ExitStatus refuse(const std::string& why) {
  put(stderr, "soundsill: " + safe_line(why) + "\n");
  return ExitStatus::usage;
}

void print_faults(std::FILE* to, const Faults& faults, bool color) {
  std::string out;
  for (const Diagnostic& d : faults.all()) out += render(d, {color}) + "\n";
  put(to, out);
}

Date today_of(const Where& where) {
  if (where.today) return *where.today;
  const auto now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm local{};
  ::localtime_r(&now, &local);
  using namespace std::chrono;
  return {year(local.tm_year + 1900) / month(static_cast<unsigned>(local.tm_mon + 1)) /
          day(static_cast<unsigned>(local.tm_mday))};
}

bool stops(const Faults& faults, bool strict) { return faults.errors() > 0 || (strict && faults.warnings() > 0); }

ExitStatus worse(ExitStatus a, ExitStatus b) { return static_cast<int>(a) > static_cast<int>(b) ? a : b; }

ExitStatus verdict(const Loaded& loaded, bool strict) {
  if (loaded.unreadable) return ExitStatus::usage;
  return stops(loaded.faults, strict) ? ExitStatus::faults : ExitStatus::fine;
}

bool shared_or_say(Shared& shared, const Request& request, const Files& files) {
  load_shared(shared, request.where, files);
  shared.faults.sort();
  print_faults(stderr, shared.faults, request.color);
  return shared.faults.errors() == 0;
}

ExitStatus check_cases(const Request& request) {
  const DiskFiles files;
  Shelf shelf(files);
  Shared shared;
  if (!shared_or_say(shared, request, files)) return ExitStatus::usage;
  ExitStatus worst = ExitStatus::fine;
  Faults all;                // for JSON, which is one value however many cases there are
  std::deque<Loaded> cases;  // faults point into the texts of their case
  std::size_t errors = 0, warnings = 0;
  for (const std::string& name : request.cases) {
    Loaded& loaded = cases.emplace_back();
    load_case(loaded, name, shared, request.where, files, shelf, PhotoCheck::whole);
    // Some faults show only when the words are set: a letter that no face has, a text without room.
    if (loaded.basis && loaded.faults.errors() == 0) (void)make_paper(loaded, shared, Paper::packet, {});
    worst = worse(worst, verdict(loaded, request.strict));
    errors += loaded.faults.errors();
    warnings += loaded.faults.warnings();
    for (const Diagnostic& d : loaded.faults.all()) all.add(d);
    if (request.format == "text") print_faults(stdout, loaded.faults, request.color);
    loaded.photos.clear();
  }
  bool arrived = std::ferror(stdout) == 0;
  if (request.format == "sarif") arrived = put(stdout, listing::faults_sarif(all, SOUNDSILL_VERSION));
  if (request.format == "json") arrived = put(stdout, listing::faults_json(all));
  if (request.format == "text" && errors + warnings > 0) arrived = put(stdout, listing::tally(errors, warnings) + "\n");
  return arrived ? worst : worse(worst, ExitStatus::usage);
}

ExitStatus measure_case(const Request& request) {
  const DiskFiles files;
  Shelf shelf(files);
  Shared shared;
  if (!shared_or_say(shared, request, files)) return ExitStatus::usage;
  Loaded loaded;
  load_case(loaded, request.cases.front(), shared, request.where, files, shelf, PhotoCheck::none);
  print_faults(stderr, loaded.faults, request.color);
  if (loaded.basis) {
    const listing::Measures all{*loaded.basis, loaded.treatments, loaded.estimates};
    if (!put(stdout, request.format == "json" ? listing::measures_json(all)
                                              : safe_for_terminal(listing::measures_text(all, request.explain))))
      return ExitStatus::usage;
  }
  return verdict(loaded, request.strict);
}

pdf::Flavour flavour(const Request& request) {
  return request.pdfa == "1a" ? pdf::Flavour::pdfa_1a : pdf::Flavour::pdfa_3a;
}

std::string paper_path(const Request& request, const Loaded& loaded, const Shared& shared, const std::string& name,
                       const std::string& ending) {
  if (!request.output.empty()) return request.output;
  const std::string tongue = shared.english ? "-" + request.where.language : "";
  return join_path(loaded.folder, name + tongue + (request.draft ? "-draft." : ".") + ending);
}

ExitStatus write_paper(const Request& request, const Made& made, const std::string& path, const Shared& shared,
                       const Files& files, ExitStatus status) {
  if (path == "-") return put(stdout, made.bytes) ? status : ExitStatus::usage;
  const auto refusal = [&](const std::string& at) -> std::string {
    switch (standing(at, made.subject, shared.words->say(document::Word::draft), files)) {
      case Standing::foreign: {  // never, not even with --replace: it may be the case itself
        const FileRead old = files.read(at, most::paper_bytes);
        return (old.bytes ? "is no paper of soundsill" : "cannot be read: " + old.trouble) + "; it stays as it is";
      }
      case Standing::another:
        if (request.replace) return {};
        return "is the final paper of another case or revision; it stays as it is. --replace lets it give way.";
      case Standing::nothing:
      case Standing::same:
        break;
    }
    return {};
  };
  const Placed written = write_whole(path, made.bytes, refusal);
  if (!written.good()) {
    const std::string why = written.refusal.empty() ? "cannot be written: " + written.trouble : written.refusal;
    put(stderr, "soundsill: `" + safe_line(path) + "` " + safe_line(why) + "\n");
    return ExitStatus::usage;
  }
  put(stderr, "wrote " + safe_line(path) + "\n");
  return status;
}

namespace {

bool must_stand_apart(const Loaded& loaded) {
  const auto& apart = loaded.form->value->estimate_apart;
  return apart && apart->value.value_or(false);
}

/// `packet.pdf` beside `packet-estimate.pdf`.
std::string beside(const std::string& path, const std::string& ending) {
  return (path.ends_with(ending) ? path.substr(0, path.size() - ending.size()) : path) + "-estimate" + ending;
}

/// A paper that is asked for: where it goes, and what it is called among pictures.
struct Asked {
  std::string path;
  Paper paper;
  std::string name;
};

constexpr std::size_t most_photo_threads = 8;  // each holds a large picture

Making making(const Request& request) {
  return {request.draft, request.bare, flavour(request),
          // A batch has a case for every core; a single one lends them to its photos.
          request.cases.size() == 1 ? threads_for(request.jobs, most_photo_threads) : 1U};
}

/// A paper as PDF, and in the form that is asked for.
struct Forms {
  Made pdf, asked;
};

/// The papers a request asks for; nothing when faults keep them back. They are made as PDF whatever the form: a fault
/// that shows only then keeps every form back.
std::vector<Forms> made_papers(const Request& request, Loaded& loaded, const Shared& shared,
                               const std::vector<Asked>& wanted) {
  std::vector<Forms> out;
  if (!loaded.basis || !loaded.c->facts || !(request.draft || !stops(loaded.faults, request.strict))) return out;
  for (const Asked& one : wanted) {
    Made pdf = make_paper(loaded, shared, one.paper, making(request));
    if (request.format == "pdf") {
      out.push_back({{}, std::move(pdf)});
      continue;
    }
    Made other = request.format == "html" ? html_paper(loaded, shared, one.paper, request.draft)
                                          : svg_drawing(loaded, shared, request.draft);
    weigh(loaded, shared.look->file, other.bytes.size());
    out.push_back({std::move(pdf), std::move(other)});
  }
  loaded.faults.sort();
  return out;
}

/// Pictures of the pages instead of files of papers.
ExitStatus write_page_pictures(const Request& request, const std::vector<Forms>& papers,
                               const std::vector<Asked>& wanted, ExitStatus status) {
  std::vector<std::pair<std::string, std::string>> pdfs;
  for (std::size_t i = 0; i < papers.size(); ++i) {
    const Forms& both = papers[i];
    pdfs.emplace_back(wanted[i].name, both.pdf.bytes.empty() ? both.asked.bytes : both.pdf.bytes);
  }
  const std::string shown = safe_line(request.pictures);
  if (const std::string trouble = write_pictures(request.pictures, pdfs); !trouble.empty()) {
    put(stderr, "soundsill: no pictures in `" + shown + "`: " + safe_line(trouble) + "\n");
    return ExitStatus::usage;
  }
  put(stderr, "wrote the pages into " + shown + "\n");
  return status;
}

ExitStatus write_papers(const Request& request, Loaded& loaded, const Shared& shared, const Files& files,
                        const std::vector<Asked>& wanted) {
  const std::vector<Forms> papers = made_papers(request, loaded, shared, wanted);
  print_faults(stderr, loaded.faults, request.color);
  ExitStatus status = verdict(loaded, request.strict);
  if (papers.empty() || (!request.draft && status != ExitStatus::fine)) {
    put(stderr, listing::tally(loaded.faults.errors(), loaded.faults.warnings()) + "; nothing written\n");
    return status;
  }
  if (!request.pictures.empty()) {
    status = worse(status, write_page_pictures(request, papers, wanted, status));
    if (request.output.empty()) return status;
  }
  for (std::size_t i = 0; i < papers.size(); ++i)
    status = worse(status, write_paper(request, papers[i].asked, wanted[i].path, shared, files, status));
  return status;
}

ExitStatus report_case(const Request& request, const std::string& name, const Shared& shared, const Files& files,
                       Shelf& shelf) {
  Loaded loaded;
  load_case(loaded, name, shared, request.where, files, shelf, PhotoCheck::whole);
  const std::string path = paper_path(request, loaded, shared, "packet", request.format);
  const bool apart = loaded.form && loaded.form->value && (request.apart || must_stand_apart(loaded));
  if (apart && path == "-") {
    put(stderr, "soundsill: findings and estimate are two files here; name one with -o\n");
    return ExitStatus::usage;
  }
  if (apart)
    return write_papers(
        request, loaded, shared, files,
        {{path, Paper::findings, "findings"}, {beside(path, "." + request.format), Paper::estimate, "estimate"}});
  return write_papers(request, loaded, shared, files, {{path, Paper::packet, "page"}});
}

}  // namespace

ExitStatus estimate_case(const Request& request) {
  if (request.output.empty() && request.where.language != "en") {
    put(stderr, "soundsill: --lang is for papers; name one with -o\n");
    return ExitStatus::usage;
  }
  const DiskFiles files;
  Shelf shelf(files);
  Shared shared;
  if (!shared_or_say(shared, request, files)) return ExitStatus::usage;
  Loaded loaded;
  load_case(loaded, request.cases.front(), shared, request.where, files, shelf,
            request.output.empty() ? PhotoCheck::none : PhotoCheck::whole);
  if (!request.output.empty()) {
    Request as_pdf = request;  // --format is that of the listing here
    as_pdf.format = "pdf";
    return write_papers(as_pdf, loaded, shared, files, {{request.output, Paper::estimate, "estimate"}});
  }
  print_faults(stderr, loaded.faults, request.color);
  if (!loaded.basis) return verdict(loaded, request.strict);
  const listing::Measures all{*loaded.basis, loaded.treatments, loaded.estimates};
  std::string out;
  if (request.ceiling) {
    const auto found = choices(*loaded.basis);
    out = listing::ceiling_text(*loaded.basis, found, *request.ceiling);
    const ExitStatus none = under(found, *request.ceiling) ? ExitStatus::fine : ExitStatus::faults;
    return put(stdout, safe_for_terminal(out)) ? worse(none, verdict(loaded, request.strict)) : ExitStatus::usage;
  }
  if (request.audience == "owner")
    out = safe_for_terminal(listing::owner_text(all, request.given));
  else if (request.format == "json")
    out = listing::estimate_json(all);
  else if (request.format == "csv")
    out = listing::estimate_csv(all);
  else
    out = safe_for_terminal(listing::estimate_text(all, request.explain));
  return put(stdout, out) ? verdict(loaded, request.strict) : ExitStatus::usage;
}

ExitStatus draw_case(const Request& request) {
  const DiskFiles files;
  Shelf shelf(files);
  Shared shared;
  if (!shared_or_say(shared, request, files)) return ExitStatus::usage;
  Loaded loaded;
  load_case(loaded, request.cases.front(), shared, request.where, files, shelf, PhotoCheck::whole);
  const std::string path = paper_path(request, loaded, shared, "plan", request.format);
  return write_papers(request, loaded, shared, files, {{path, Paper::drawing, "plan"}});
}

namespace {

/// Each case once, however often and by whatever name it was given: two threads must not write one packet.
std::vector<std::string> each_once(const std::vector<std::string>& names) {
  std::set<std::filesystem::path> known;
  std::vector<std::string> out;
  for (const std::string& name : names) {
    std::error_code failed;
    const auto file = std::filesystem::path(name) / (is_folder(name) ? "case.yaml" : "");
    const auto whole = std::filesystem::weakly_canonical(file, failed);
    if (known.insert(failed ? file : whole).second) out.push_back(name);
  }
  return out;
}

}  // namespace

ExitStatus report_cases(const Request& asked) {
  Request request = asked;
  request.cases = each_once(asked.cases);
  if (request.cases.size() > 1 && !(request.output.empty() && request.pictures.empty())) {
    put(stderr, "soundsill: -o and --png take one case; without them each packet goes into the folder of its case\n");
    return ExitStatus::usage;
  }
  const DiskFiles files;
  Shelf shelf(files);
  Shared shared;
  if (!shared_or_say(shared, request, files)) return ExitStatus::usage;
  if (request.cases.size() == 1) return report_case(request, request.cases.front(), shared, files, shelf);
  struct Told {
    ExitStatus status;
    std::string said;
  };
  ExitStatus worst = ExitStatus::fine;
  std::atomic_flag taken;
  const auto make_work = [&] {
    // A face serves one thread at a time, so each has its own; the first takes what has been read.
    std::shared_ptr<Shared> own(std::shared_ptr<Shared>(), &shared);
    if (taken.test_and_set()) {
      own = std::make_shared<Shared>();
      load_shared(*own, request.where, files);
    }
    return [&request, &files, &shelf, own](std::size_t i) {
      Aside aside;
      const ExitStatus status = report_case(request, request.cases[i], *own, files, shelf);
      return Told{status, aside.take()};
    };
  };
  in_order(request.cases.size(), threads_for(request.jobs, request.cases.size()), make_work, [&](const Told& told) {
    put(stderr, told.said);
    worst = worse(worst, told.status);
  });
  return worst;
}

ExitStatus print_schema(const Request& request) {
  const std::string schema = request.schema_of == "packet" ? listing::packet_schema() : listing::case_schema();
  return put(stdout, schema) ? ExitStatus::fine : ExitStatus::usage;
}

}  // namespace soundsill::cli
