#include "pdf/pdf.h"

#include <algorithm>
#include <chrono>
#include <cmath>

#include "base/text.h"
#include "pdf/archive.h"
#include "pdf/content.h"
#include "pdf/hash.h"
#include "pdf/image.h"
#include "pdf/objects.h"

namespace dogear {
namespace {

using namespace pdf;
using canvas::Document;

struct Dates {
  std::string pdf;  // "D:20261125190000Z"
  std::string xml;  // "2026-11-25T19:00:00Z"
};

Dates dates(std::int64_t seconds) {
  using namespace std::chrono;
  const sys_seconds time{std::chrono::seconds(seconds)};
  const auto day = floor<days>(time);
  const year_month_day date(day);
  const hh_mm_ss clock(time - day);
  const auto digits = [&](long value, long unit) {
    std::string out;
    for (; unit > 0; unit /= 10) out += static_cast<char>('0' + value / unit % 10);
    return out;
  };
  const std::string y = digits(static_cast<int>(date.year()), 1000);
  const std::string m = digits(static_cast<unsigned>(date.month()), 10);
  const std::string d = digits(static_cast<unsigned>(date.day()), 10);
  const std::string hours = digits(clock.hours().count(), 10);
  const std::string minutes = digits(clock.minutes().count(), 10);
  const std::string rest = digits(clock.seconds().count(), 10);
  return {join({"D:", y, m, d, hours, minutes, rest, "Z"}, ""),
          join({y, "-", m, "-", d, "T", hours, ":", minutes, ":", rest, "Z"}, "")};
}

bool safe_address(const std::string& uri) {
  for (const std::string_view scheme : {"https://", "http://", "mailto:"})
    if (uri.starts_with(scheme))
      return uri.size() < 2000 &&
             std::all_of(uri.begin(), uri.end(), [](char c) { return c > ' ' && c < 0x7F; });
  return false;
}

constexpr const char* producer = "libharu " HPDF_VERSION_TEXT;

// Puts painted pages together as one file.
class File {
 public:
  File(const Document& document, Painted& painted, std::vector<Stream> streams)
      : document_(document), painted_(painted), streams_(std::move(streams)) {}

  std::string write(const PdfOptions& options) {
    write_fonts();
    for (const canvas::RasterRef& image : painted_.images)
      images_.push_back(write_image(o_, *image));
    write_forms();
    write_pages(options);
    if (options.tagged) {
      write_links();
      write_outline();
      write_labels();
      painted_.structure.write(o_, pages_);
    }
    write_catalog();
    write_info(options);
    return o_.save();
  }

 private:
  HPDF_Dict resources(const Stream& stream) {
    const HPDF_Dict out = o_.dict();
    fill_resources(out, stream);
    return out;
  }
  void fill_resources(HPDF_Dict out, const Stream& stream) {
    if (!stream.fonts.empty()) {
      const HPDF_Dict fonts = o_.dict();
      for (const std::size_t i : stream.fonts)
        o_.set(fonts, resource_name('F', i).c_str(), fonts_[i]);
      o_.set(out, "Font", fonts);
    }
    if (!stream.forms.empty() || !stream.images.empty()) {
      const HPDF_Dict objects = o_.dict();
      for (const std::size_t i : stream.forms)
        o_.set(objects, resource_name('X', i).c_str(), forms_[i]);
      for (const std::size_t i : stream.images)
        o_.set(objects, resource_name('I', i).c_str(), images_[i]);
      o_.set(out, "XObject", objects);
    }
  }

  void write_fonts() {
    for (const FontUse& font : painted_.fonts)
      fonts_.push_back(font.used() ? font.write(o_) : nullptr);
  }

  void write_forms() {
    for (const FormStream& form : painted_.forms) {
      const HPDF_Dict dict = o_.stream(form.stream.bytes);
      o_.set_name(dict, "Type", "XObject");
      o_.set_name(dict, "Subtype", "Form");
      const canvas::Rect box = form.box.empty() ? canvas::Rect{0, 0, 0, 0} : form.box;
      o_.set(dict, "BBox",
             o_.reals({std::floor(box.left), std::floor(box.top), std::ceil(box.right),
                       std::ceil(box.bottom)}));
      forms_.push_back(dict);  // inner forms stand before those that draw them
      o_.set(dict, "Resources", resources(form.stream));
    }
  }

  void write_boxes(HPDF_Page page, double width, double height, const PdfOptions& options) {
    const auto box = [&](double by) { return o_.reals({-by, -by, width + by, height + by}); };
    o_.set(page, "MediaBox", box(options.bleed + options.room));
    o_.set(page, "BleedBox", box(options.bleed));
    o_.set(page, "TrimBox", box(0));
  }

  void write_pages(const PdfOptions& options) {
    for (std::size_t i = 0; i < streams_.size(); ++i) {
      const canvas::Page& page = document_.pages[i];
      pages_.push_back(o_.add_page(page.width, page.height, streams_[i].bytes));
      if (options.bleed + options.room > 0)
        write_boxes(pages_.back(), page.width, page.height, options);
      const auto dict = static_cast<HPDF_Dict>(
          HPDF_Page_GetInheritableItem(pages_.back(), "Resources", HPDF_OCLASS_DICT));
      if (dict == nullptr) throw PdfFailure("the PDF writer lost a page's resources");
      fill_resources(dict, streams_[i]);
    }
  }

  HPDF_Page page(int number) const { return pages_[static_cast<std::size_t>(number)]; }
  double page_height(int number) const {
    return document_.pages[static_cast<std::size_t>(number)].height;
  }

  HPDF_Array destination(const PlacedAnchor& anchor) {
    const HPDF_Array out = o_.array();
    o_.push(out, page(anchor.page));
    o_.push_name(out, "XYZ");
    o_.push_real(out, anchor.at.x);
    o_.push_real(out, page_height(anchor.page) - anchor.at.y);
    o_.push_number(out, 0);  // keep the reader's zoom
    return out;
  }

  static std::string description(const PlacedLink& placed) {
    const std::string_view words = trim(placed.words);
    if (!placed.link.title.empty()) return placed.link.title;
    if (!words.empty()) return std::string(words);
    return placed.link.uri.empty() ? placed.link.destination : placed.link.uri;
  }

  void write_links() {
    std::map<int, HPDF_Array> of_page;
    for (const PlacedLink& placed : painted_.links) {
      const double height = page_height(placed.page);
      const HPDF_Dict annotation = o_.object();
      o_.set_name(annotation, "Type", "Annot");
      o_.set_name(annotation, "Subtype", "Link");
      o_.set(annotation, "Rect",
             o_.reals({placed.area.left, height - placed.area.bottom, placed.area.right,
                       height - placed.area.top}));
      o_.set(annotation, "Border", o_.reals({0, 0, 0}));
      o_.set_number(annotation, "F", 4);  // printed
      o_.set_text(annotation, "Contents", description(placed));
      if (placed.link.uri.empty()) {
        o_.set(annotation, "Dest", destination(painted_.anchors.at(placed.link.destination)));
      } else {
        const HPDF_Dict action = o_.dict();
        o_.set_name(action, "S", "URI");
        o_.set_ascii(action, "URI", placed.link.uri);
        o_.set(annotation, "A", action);
      }
      HPDF_Array& annotations = of_page[placed.page];
      if (annotations == nullptr) {
        annotations = o_.array();
        o_.set(page(placed.page), "Annots", annotations);
      }
      o_.push(annotations, annotation);
      painted_.structure.add_link(placed.element, placed.page, annotation);
    }
  }

  struct OutlineNode {
    HPDF_Dict dict = nullptr;
    HPDF_Dict last_child = nullptr;
    int level = 0;
    long count = 0;  // entries below, all of them open
  };

  void write_outline() {
    if (document_.outline.empty()) return;
    std::vector<OutlineNode> nodes;
    nodes.push_back({o_.object(), nullptr, 0, 0});
    o_.set_name(nodes[0].dict, "Type", "Outlines");
    std::vector<std::size_t> path{0};
    for (const canvas::OutlineEntry& entry : document_.outline) {
      while (path.size() > 1 && nodes[path.back()].level >= entry.level) path.pop_back();
      const HPDF_Dict dict = o_.object();
      OutlineNode& parent = nodes[path.back()];
      o_.set_text(dict, "Title", entry.title);
      o_.set(dict, "Parent", parent.dict);
      o_.set(dict, "Dest", destination(painted_.anchors.at(entry.destination)));
      if (parent.last_child == nullptr) {
        o_.set(parent.dict, "First", dict);
      } else {
        o_.set(parent.last_child, "Next", dict);
        o_.set(dict, "Prev", parent.last_child);
      }
      parent.last_child = dict;
      for (const std::size_t above : path) ++nodes[above].count;
      nodes.push_back({dict, nullptr, std::max(entry.level, 1), 0});
      path.push_back(nodes.size() - 1);
    }
    for (const OutlineNode& node : nodes) {
      if (node.last_child == nullptr) continue;
      o_.set(node.dict, "Last", node.last_child);
      o_.set_number(node.dict, "Count", node.count);
    }
    o_.set(o_.catalog(), "Outlines", nodes[0].dict);
  }

  void write_labels() {
    bool any = false;
    const HPDF_Array numbers = o_.array();
    for (std::size_t i = 0; i < document_.pages.size(); ++i) {
      any |= !document_.pages[i].label.empty();
      const HPDF_Dict label = o_.dict();
      o_.set_text(label, "P", document_.pages[i].label);
      o_.push_number(numbers, static_cast<long>(i));
      o_.push(numbers, label);
    }
    const HPDF_Dict labels = o_.object();
    o_.set(labels, "Nums", numbers);
    if (any) o_.set(o_.catalog(), "PageLabels", labels);
  }

  void write_catalog() {
    const HPDF_Dict catalog = o_.catalog();
    if (!document_.language.empty()) o_.set_ascii(catalog, "Lang", document_.language);
    const HPDF_Dict preferences = o_.dict();
    o_.set_true(preferences, "DisplayDocTitle");
    o_.set(catalog, "ViewerPreferences", preferences);
  }

  void write_info(const PdfOptions& options) {
    const HPDF_Dict info = o_.doc()->info;
    if (info == nullptr) throw PdfFailure("the PDF writer made no document information");
    if (!document_.title.empty()) o_.set_text(info, "Title", document_.title);
    if (!document_.author.empty()) o_.set_text(info, "Author", document_.author);
    if (!document_.subject.empty()) o_.set_text(info, "Subject", document_.subject);
    o_.set_text(info, "Creator", creator);
    o_.set_text(info, "Producer", producer);
    About about{document_.title,
                document_.author,
                document_.subject,
                document_.language,
                producer,
                {},
                false};
    if (options.date) {
      const Dates when = dates(*options.date);
      o_.set_ascii(info, "CreationDate", when.pdf);
      o_.set_ascii(info, "ModDate", when.pdf);
      about.date = when.xml;
    }
    about.for_all = options.tagged && !document_.title.empty() && !document_.language.empty();
    write_metadata(o_, about);
    write_colour_profile(o_);
    const HPDF_Array id = o_.array();
    const std::string bytes = identifier();
    o_.push_bytes(id, bytes);
    o_.push_bytes(id, bytes);
    o_.set(o_.doc()->trailer, "ID", id);
  }

  std::string identifier() const {
    std::string out;
    for (const std::string_view salt : {"first half", "second half"}) {
      Hash hash;
      hash.add(salt).add(document_.id).add(document_.title).add(document_.author);
      for (const FormStream& form : painted_.forms) hash.add(form.stream.bytes);
      for (const Stream& stream : streams_) hash.add(stream.bytes);
      for (const canvas::RasterRef& image : painted_.images) hash.add(image->bytes);
      for (int shift = 56; shift >= 0; shift -= 8)
        out += static_cast<char>(static_cast<unsigned char>(hash.value() >> shift));
    }
    return out;
  }

  const Document& document_;
  Painted& painted_;
  std::vector<Stream> streams_;
  Objects o_;
  std::vector<HPDF_Dict> fonts_, images_, forms_;
  std::vector<HPDF_Page> pages_;
};

void check_destinations(const Document& document, Painted& painted) {
  for (const PlacedLink& placed : painted.links) {
    const std::string where = "page " + std::to_string(placed.page + 1);
    if (!placed.link.uri.empty()) {
      if (!safe_address(placed.link.uri))
        painted.error(where + " links to “" + placed.link.uri +
                      "”, which is no http, https or mailto address");
    } else if (!painted.anchors.contains(placed.link.destination)) {
      painted.error(where + " links to “" + placed.link.destination + "”, which is nowhere");
    }
  }
  for (const canvas::OutlineEntry& entry : document.outline)
    if (!painted.anchors.contains(entry.destination))
      painted.error("the bookmark “" + entry.title + "” leads to “" + entry.destination +
                    "”, which is nowhere");
}

}  // namespace

std::optional<std::string> to_pdf(const Document& document, const canvas::FontSet& fonts,
                                  std::string& error, const PdfOptions& options) {
  error.clear();
  try {
    Painted painted(fonts, options.tagged);
    for (const canvas::MissingGlyph& missing : fonts.missing()) painted.error(missing.message);
    if (document.pages.empty()) painted.error("the document has no pages");
    for (const canvas::Page& page : document.pages) painted.survey(page.content);
    std::vector<Stream> streams;
    for (std::size_t i = 0; i < document.pages.size(); ++i) {
      const canvas::Page& page = document.pages[i];
      const auto fits = [](double side) { return side >= 3 && side <= 14400; };
      if (!fits(page.width) || !fits(page.height))
        painted.error("page " + std::to_string(i + 1) + " is not between 3 and 14400 pt a side");
      streams.push_back(paint_page(painted, page, static_cast<int>(i)));
    }
    check_destinations(document, painted);
    for (const std::string& text : painted.errors) error += (error.empty() ? "" : "\n") + text;
    if (!error.empty()) return {};
    return File(document, painted, std::move(streams)).write(options);
  } catch (const PdfFailure& failure) {
    error = failure.what();
    return {};
  }
}

}  // namespace dogear
