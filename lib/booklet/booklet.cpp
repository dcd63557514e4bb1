#include "booklet/booklet.h"

#include <algorithm>
#include <map>

#include "base/text.h"
#include "booklet/writer.h"

namespace dogear {

using booklet::Column;
using booklet::OutlineItem;
using booklet::Writer;

struct Written {
  std::string name;
  bool is_prose = false;
  Span span;
  std::vector<booklet::Box> boxes;
  std::vector<booklet::Element> elements;
  std::vector<OutlineItem> entries;
};

// A section as it was written, and all that its writing read or left behind besides.
struct KeptSection {
  std::map<std::string, std::string> prose;  // its own, and that of blocks
  std::set<std::string> anchors_before, anchors;
  std::vector<Writer::Reference> references;
  std::set<std::string> abbreviations;
  Written written;
};

struct SectionMemory::Impl {
  std::map<std::pair<std::size_t, std::string>, KeptSection> sections;  // by size and name
  int next_id = 1;  // of tagged parts, so that what is kept shares none with what is written
};

SectionMemory::SectionMemory() : impl_(std::make_unique<Impl>()) {}
SectionMemory::~SectionMemory() = default;

namespace {

bool is(const Written& section, std::string_view name) {
  return !section.is_prose && section.name == name;
}

// Abbreviations explained to the reader wherever they are met, those whose meaning the words hold:
// name -> the language's own short form.
std::map<std::string, std::string> abbreviations(const Words& words) {
  constexpr std::string_view head = "meaning of ";
  std::map<std::string, std::string> out;
  for (auto it = words.texts.lower_bound(head); it != words.texts.end(); ++it) {
    if (!starts_with(it->first, head)) break;
    const std::string name = it->first.substr(head.size());
    if (std::string own = words("short " + name); !own.empty()) out[name] = std::move(own);
  }
  return out;
}

bool is_word_in(std::string_view word, std::string_view text) {
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  for (std::size_t at = text.find(word); at != std::string_view::npos;
       at = text.find(word, at + 1)) {
    const bool before = at == 0 || !letter(text[at - 1]);
    std::size_t end = at + word.size();
    // "two HSTs"
    if (word[0] < 'a' && end < text.size() && text[end] == 's') ++end;
    if (before && (end == text.size() || !letter(text[end]))) return true;
  }
  return false;
}

void find_abbreviations(const canvas::DisplayList& list,
                        const std::map<std::string, std::string>& known,
                        std::set<std::string>& found) {
  for (const canvas::Item& item : list.items()) {
    if (const auto* run = std::get_if<canvas::GlyphRun>(&item)) {
      const std::string text = run->text();
      for (const auto& [name, own] : known)
        if (is_word_in(own, text)) found.insert(name);
    } else if (const auto* group = std::get_if<canvas::Group>(&item)) {
      if (group->list) find_abbreviations(*group->list, known, found);
    }
  }
}

// The designer's order, else the template's, with what to know before beginning, the templates, the
// other colorings and the corrections if they were left out.
std::vector<Written> planned(const Pattern& pattern, const Template& style) {
  std::vector<Written> out;
  const auto has = [&](std::string_view name) {
    return std::any_of(out.begin(), out.end(), [&](const Written& w) { return is(w, name); });
  };
  if (pattern.sections_written || style.sections.empty()) {
    for (const Section& s : pattern.sections)
      out.push_back({s.name, s.is_prose, s.span, {}, {}, {}});
  } else {
    for (const std::string& name : style.sections)
      out.push_back({name, false, pattern.span, {}, {}, {}});
  }
  if (!has("before")) {
    const auto at = std::find_if(out.begin(), out.end(), [](const Written& w) {
      return !w.is_prose && w.name != "cover" && w.name != "contents";
    });
    out.insert(at, Written{"before", false, pattern.span, {}, {}, {}});
  }
  // At the end, but before those that come behind them there.
  const std::vector<std::string> last{"templates", "coloring page", "other colorings", "errata",
                                      "back"};
  for (auto name = last.begin(); name != last.end(); ++name) {
    if (*name == "coloring page" || *name == "back" || has(*name)) continue;
    auto at = out.end();
    while (at != out.begin() && !(at - 1)->is_prose &&
           std::find(name, last.end(), (at - 1)->name) != last.end())
      --at;
    out.insert(at, Written{*name, false, pattern.span, {}, {}, {}});
  }
  return out;
}

// Sections that may begin below another; the rest are looked for, and begin a page.
bool runs_on(std::string_view section) {
  for (const std::string_view name :
       {"before", "schedule", "finishing", "templates", "other colorings", "errata"})
    if (section == name) return true;
  return false;
}

void write(Writer& w, Column& column, const Written& section) {
  if (section.is_prose) {
    const auto prose = w.pattern().prose.find(section.name);
    if (prose != w.pattern().prose.end())
      booklet::write_prose(w, column, prose->second, 0);
    else
      w.diagnostics.error("D407", section.span,
                          join({"there is no file `", section.name, "`"}, ""));
  } else if (section.name == "cover") {
    booklet::write_cover(w, column);
  } else if (section.name == "requirements") {
    booklet::write_requirements(w, column);
  } else if (section.name == "schedule") {
    booklet::write_schedule(w, column);
  } else if (section.name == "cutting") {
    booklet::write_cutting(w, column);
  } else if (section.name == "blocks") {
    booklet::write_blocks(w, column);
  } else if (section.name == "assembly") {
    booklet::write_assembly(w, column);
  } else if (section.name == "finishing") {
    booklet::write_finishing(w, column);
  } else if (section.name == "templates") {
    booklet::write_templates(w, column);
  } else if (section.name == "coloring page") {
    booklet::write_coloring_page(w, column);
  } else if (section.name == "other colorings") {
    booklet::write_other_colorings(w, column);
  } else if (section.name == "errata") {
    booklet::write_errata(w, column);
  } else if (section.name == "back") {
    booklet::write_back(w, column);
  }
}

constexpr std::size_t most_pages = 1000;

void check_references(Writer& w) {
  const std::vector<std::string> known(w.anchors.begin(), w.anchors.end());
  for (const Writer::Reference& r : w.references) {
    if (w.anchors.count(r.anchor) != 0) continue;
    Diagnostic& e = w.diagnostics.error(
        "D406", r.span, join({"the booklet has no place called `#", r.anchor, "`"}, ""));
    const std::string near = nearest(r.anchor, known);
    if (!near.empty()) e.hints.push_back(join({"did you mean `#", near, "`?"}, ""));
  }
}

// Every section as boxes and elements, and what the contents list.
struct Manuscript {
  std::vector<Written> sections;
  std::vector<OutlineItem> entries;
};

// Writes sections, or takes them from a memory where all that they are written from is the same.
class Scribe {
 public:
  Scribe(Writer& writer, SectionMemory::Impl* memory)
      : writer_(writer), memory_(memory), known_(abbreviations(writer.words)) {
    if (memory_ != nullptr) writer_.flow.next_id = memory_->next_id;
  }

  template <typename Content>
  void run(Written& section, Content&& content) {
    Column column = writer_.column();
    column.begin(canvas::Role::section);
    writer_.entries.clear();
    content(column);
    column.end();
    section.boxes = std::move(column.boxes);
    section.elements = column.take_elements();
    section.entries = std::move(writer_.entries);
    if (memory_ != nullptr) memory_->next_id = writer_.flow.next_id;
    if (section.boxes.empty()) return;
    booklet::Box& first = section.boxes.front();
    first.section_start = true;
    if (!first.running)
      first.running = section.entries.empty() ? "" : section.entries.front().title;
    if (is(section, "back")) first.new_page = true;
    first.runs_on = section.is_prose || runs_on(section.name);
  }

  // A section that stands by itself; abbreviations found in it go into `used`.
  void write_alone(Written& section, std::set<std::string>& used) {
    std::map<std::string, std::string> prose = prose_of(section);
    KeptSection* kept = find(section);
    if (kept == nullptr || kept->prose != prose || kept->anchors_before != writer_.anchors) {
      KeptSection fresh;
      fresh.prose = std::move(prose);
      fresh.anchors_before = writer_.anchors;
      const std::size_t references = writer_.references.size();
      const std::size_t messages = writer_.diagnostics.all().size();
      run(section, [&](Column& column) { write(writer_, column, section); });
      for (const booklet::Box& box : section.boxes)
        find_abbreviations(box.content, known_, fresh.abbreviations);
      used.insert(fresh.abbreviations.begin(), fresh.abbreviations.end());
      const bool said =
          writer_.diagnostics.all().size() > messages || !writer_.scene.fonts.missing().empty();
      // Content that waits for page numbers holds on to this writer.
      const bool waits = std::any_of(section.boxes.begin(), section.boxes.end(), [](const auto& b) {
        return static_cast<bool>(b.late) || (b.repeat && b.repeat->late);
      });
      if (memory_ == nullptr || said || waits) return forget(section);
      fresh.anchors = writer_.anchors;
      fresh.references.assign(writer_.references.begin() + static_cast<std::ptrdiff_t>(references),
                              writer_.references.end());
      fresh.written = section;
      memory_->sections[key(section)] = std::move(fresh);
      return;
    }
    section.boxes = kept->written.boxes;
    section.elements = kept->written.elements;
    section.entries = kept->written.entries;
    writer_.anchors = kept->anchors;
    writer_.references.insert(writer_.references.end(), kept->references.begin(),
                              kept->references.end());
    used.insert(kept->abbreviations.begin(), kept->abbreviations.end());
  }

 private:
  std::pair<std::size_t, std::string> key(const Written& section) const {
    return {writer_.size, section.name};
  }
  KeptSection* find(const Written& section) {
    if (memory_ == nullptr) return nullptr;
    const auto found = memory_->sections.find(key(section));
    return found == memory_->sections.end() ? nullptr : &found->second;
  }
  void forget(const Written& section) {
    if (memory_ != nullptr) memory_->sections.erase(key(section));
  }

  // Any section may show the steps of a block, and the designer's words before them.
  std::map<std::string, std::string> prose_of(const Written& section) const {
    std::map<std::string, std::string> out;
    if (memory_ == nullptr) return out;
    for (const auto& [path, prose] : writer_.pattern().prose)
      if (path == section.name || starts_with(path, "prose/blocks/")) out[path] = prose.text;
    return out;
  }

  Writer& writer_;
  SectionMemory::Impl* memory_;
  std::map<std::string, std::string> known_;
};

Manuscript write_sections(Writer& writer, SectionMemory* memory = nullptr) {
  writer.scene.fonts.forget_missing();
  std::vector<Written> sections = planned(writer.pattern(), writer.style);
  Scribe scribe(writer, memory != nullptr ? &memory->impl() : nullptr);
  // First all that stands by itself, then what speaks of the rest: abbreviations used, contents.
  std::set<std::string> used;
  for (Written& section : sections)
    if (!is(section, "before") && !is(section, "contents")) scribe.write_alone(section, used);
  for (Written& section : sections) {
    if (is(section, "before"))
      scribe.run(section, [&](Column& column) { booklet::write_begin(writer, column, used); });
  }
  std::vector<OutlineItem> entries;
  for (const Written& section : sections) {
    if (is(section, "cover") || is(section, "contents")) continue;
    entries.insert(entries.end(), section.entries.begin(), section.entries.end());
  }
  for (Written& section : sections) {
    if (is(section, "contents"))
      scribe.run(section,
                 [&](Column& column) { booklet::write_contents(writer, column, entries); });
  }
  check_references(writer);
  return {std::move(sections), std::move(entries)};
}

// What the fonts lack is an error, too.
bool is_whole(const Writer& writer, std::size_t errors) {
  for (const canvas::MissingGlyph& missing : writer.scene.fonts.missing())
    writer.diagnostics.error("D404", writer.pattern().span, missing.message);
  return writer.diagnostics.error_count() == errors;
}

}  // namespace

std::optional<canvas::Document> set_booklet(const Scene& scene, std::size_t size,
                                            const Template& style, Diagnostics& diagnostics,
                                            const booklet::Photos& photos, SectionMemory* memory) {
  const std::size_t errors = diagnostics.error_count();
  Writer writer(scene, size, style, diagnostics, photos);
  Manuscript written = write_sections(writer, memory);
  if (diagnostics.error_count() != errors) return std::nullopt;

  // Boxes -> pages.
  std::vector<booklet::Box> boxes;
  bool after_contents = false;
  for (Written& section : written.sections) {
    const bool after_cover = !boxes.empty() && boxes.back().bare;
    if (after_cover && !section.boxes.empty()) section.boxes.front().new_page = true;
    if (after_contents && !section.boxes.empty()) section.boxes.front().runs_on = false;
    after_contents = is(section, "contents");
    std::move(section.boxes.begin(), section.boxes.end(), std::back_inserter(boxes));
  }
  canvas::Document document;
  const Pattern& pattern = writer.pattern();
  document.title = pattern.title + " · " + writer.size_def().title;
  document.author = pattern.designer;
  document.subject = pattern.summary;
  document.language = pattern.language;
  document.id = pattern.id + "/" + writer.size_def().id + "/" + pattern.edition;
  document.pages =
      booklet::make_pages(boxes, style, scene.fonts, {document.title, "", pattern.designer});
  if (document.pages.size() > most_pages)
    diagnostics
        .error("D478", pattern.sizes[size].span,
               join({"the booklet has ", std::to_string(document.pages.size()), " pages, and ",
                     std::to_string(most_pages), " are the most"},
                    ""))
        .hints.push_back("look for words or blocks that stand in it many times");
  for (const OutlineItem& e : written.entries)
    document.outline.push_back({e.title, e.level, e.anchor});

  if (!is_whole(writer, errors)) return std::nullopt;
  return document;
}

std::optional<BookletParts> write_booklet(const Scene& scene, std::size_t size,
                                          const Template& style, Diagnostics& diagnostics,
                                          const booklet::Photos& photos) {
  const std::size_t errors = diagnostics.error_count();
  Writer writer(scene, size, style, diagnostics, photos);
  Manuscript written = write_sections(writer);
  if (!is_whole(writer, errors)) return std::nullopt;
  BookletParts parts;
  parts.size = writer.size_def().id;
  parts.size_title = writer.size_def().title;
  for (Written& section : written.sections) {
    for (booklet::Element& e : section.elements) {
      if (!e.children.empty()) parts.sections.push_back(std::move(e));
    }
  }
  for (const OutlineItem& e : written.entries)
    parts.outline.push_back({e.title, e.level, e.anchor});
  return parts;
}

std::vector<booklet::Element> requirements_of(const Scene& scene, std::size_t size,
                                              const Template& style, Diagnostics& diagnostics) {
  Writer writer(scene, size, style, diagnostics);
  Column column = writer.column();
  booklet::write_requirements_table(writer, column);
  return column.take_elements();
}

}  // namespace dogear
