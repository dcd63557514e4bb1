#include "compile/printing.h"

#include "canvas/grey.h"
#include "canvas/impose.h"
#include "pdf/pdf.h"

namespace dogear {
namespace {

constexpr double room_for_marks = 18;  // pt: a quarter inch

Printed as_pdf(const canvas::Document& document, std::string name, const canvas::FontSet& fonts,
               const PdfOptions& options) {
  Printed out;
  out.output.name = std::move(name);
  if (auto bytes = to_pdf(document, fonts, out.reasons, options))
    out.output.bytes = std::move(*bytes);
  return out;
}

}  // namespace

std::vector<Printed> print(const canvas::Document& document, const std::string& name,
                           const Options& options, const canvas::FontSet& fonts) {
  const Printing& how = options.printing;
  std::size_t coloured = 0;
  std::optional<canvas::Document> grey;
  if (how.grey) grey = canvas::in_grey(document, coloured);
  const canvas::Document& pages = grey ? *grey : document;
  const std::string base = how.grey ? name + "-grey" : name;

  std::vector<Printed> out;
  out.push_back(as_pdf(pages, base + ".pdf", fonts, {options.date, how.bleed, 0, true}));
  out.back().coloured_photos = coloured;
  if (!how.imposed) return out;

  const double room = how.bleed > 0 ? room_for_marks : 0;
  std::string reason;
  const auto sheets = canvas::impose(pages, {how.bleed, room, how.paper}, reason);
  if (sheets)
    out.push_back(
        as_pdf(*sheets, base + "-imposed.pdf", fonts, {options.date, how.bleed, room, false}));
  else
    out.push_back({{base + "-imposed.pdf", {}}, reason, 0});
  return out;
}

}  // namespace dogear
