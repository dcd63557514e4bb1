#include "invocation.h"

#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <filesystem>
#include <iostream>

#include "base/text.h"
#include "diag/print.h"
#include "diag/report.h"

namespace dogear {

namespace {

bool colour_wanted() {
  const char* no_color = std::getenv("NO_COLOR");
  const char* terminal = std::getenv("TERM");
  return ::isatty(STDERR_FILENO) != 0 && (no_color == nullptr || *no_color == '\0') &&
         (terminal == nullptr || std::string_view(terminal) != "dumb");
}

}  // namespace

Streams standard_streams() { return {std::cout, std::cerr}; }

int Invocation::end(bool whole) {
  settle(session_, whole);
  streams_.err << print_for_people(session_.diagnostics, session_.sources, colour_wanted(),
                                   arguments_.folder);
  if (session_.diagnostics.has_errors()) {
    const auto& all = session_.diagnostics.all();
    const auto first = std::find_if(
        all.begin(), all.end(), [](const Diagnostic& d) { return d.severity == Severity::error; });
    streams_.err << "`dogear explain " << first->code << "` tells more of this kind of error.\n";
  }
  return exit_code();
}

int Invocation::end_with_report(bool whole) {
  settle(session_, whole);
  std::error_code ignored;
  const std::string absolute =
      std::filesystem::weakly_canonical(arguments_.folder, ignored).string();
  const ReportFacts facts{DOGEAR_VERSION, arguments_.folder, absolute, exit_code()};
  print(arguments_.as == "json" ? report_as_json(session_.diagnostics, facts)
                                : report_as_sarif(session_.diagnostics, session_.sources, facts));
  return exit_code();
}

int Invocation::exit_code() const {
  if (unwritten_) return no_access;
  if (!session_.diagnostics.has_errors()) return fine;
  if (said("D001") || said("D410")) return no_access;
  return said("D602") || said("D603") ? wrong_usage : faulty_pattern;
}

std::optional<canvas::FontSet> Invocation::fonts() {
  return load_fonts(session_, canvas::FontPaths::debian());
}

std::optional<int> Invocation::wrong_paper() const {
  const std::string& paper = arguments_.paper;
  const auto known = papers();
  if (paper.empty() || std::find(known.begin(), known.end(), paper) != known.end() ||
      paper.ends_with(".yaml")) {
    return std::nullopt;
  }
  streams_.err << "dogear: there is no paper called " << paper << "; name " << join(known, ", ")
               << " or a template's .yaml file\n";
  return wrong_usage;
}

Options Invocation::options() const {
  constexpr double inch = 72;  // pt
  Options options;
  options.size = arguments_.size;
  options.paper = arguments_.paper;
  if (arguments_.form == "html") options.form = Form::screen;
  if (arguments_.form == "listing") options.form = Form::listing;
  options.printing = {arguments_.grey, arguments_.imposed, arguments_.bleed * inch,
                      arguments_.thickness * inch};
  if (const char* epoch = std::getenv("SOURCE_DATE_EPOCH")) {
    const std::string_view text(epoch);
    std::int64_t seconds = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seconds);
    if (error == std::errc() && end == text.data() + text.size()) options.date = seconds;
  }
  return options;
}

bool Invocation::make_folder(const std::string& folder) {
  std::error_code error;
  if (folder.empty() || std::filesystem::is_directory(folder, error)) return true;
  std::filesystem::create_directories(folder, error);
  if (!error) return true;
  return cannot_write(folder, error.message());
}

bool Invocation::write(const std::string& path, std::string_view content) {
  std::string reason;
  return files_.write(path, content, reason) || cannot_write(path, reason);
}

bool Invocation::renew(const std::string& path, std::string_view content) {
  std::string unread;
  return files_.read(path, unread) == content || write(path, content);
}

int Invocation::deliver(std::string_view content) {
  const bool done = arguments_.out.empty() ? print(content) : write(arguments_.out, content);
  return done ? fine : no_access;
}

bool Invocation::print(std::string_view content) {
  streams_.out << content << std::flush;
  return streams_.out.good() || cannot_write("standard output", "it is closed or full");
}

bool Invocation::said(std::string_view code) const {
  const auto& all = session_.diagnostics.all();
  return std::any_of(all.begin(), all.end(), [&](const Diagnostic& d) { return d.code == code; });
}

bool Invocation::cannot_write(const std::string& path, const std::string& reason) {
  streams_.err << "dogear: " << path << " cannot be written: " << reason << '\n';
  unwritten_ = true;
  return false;
}

}  // namespace dogear
