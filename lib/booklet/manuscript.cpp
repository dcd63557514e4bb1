#include "booklet/manuscript.h"

#include <algorithm>
#include <functional>
#include <mutex>
#include <set>

#include "base/parallel.h"
#include "base/text.h"
#include "diag/merge.h"

namespace dogear {
namespace booklet {

// A section as it was written, and all that its writing left behind besides.
struct Draft {
  WrittenSection section;
  std::set<std::string> anchors;
  std::vector<Writer::Reference> references;
  std::set<std::string> abbreviations;
  Diagnostics said;
  std::vector<canvas::MissingGlyph> missing;
};

struct KeptDraft {
  std::map<std::string, std::string> prose;  // its own, and that of blocks
  Draft draft;
};

}  // namespace booklet

struct SectionMemory::Impl {
  std::map<std::pair<std::size_t, std::string>, booklet::KeptDraft> sections;  // by size and name
  const booklet::KeptDraft* find(std::size_t size, const std::string& name) const {
    const auto found = sections.find({size, name});
    return found == sections.end() ? nullptr : &found->second;
  }
};

SectionMemory::SectionMemory() : impl_(std::make_unique<Impl>()) {}
SectionMemory::~SectionMemory() = default;

namespace booklet {
namespace {

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
std::vector<WrittenSection> planned(const Pattern& pattern, const Template& style) {
  std::vector<WrittenSection> out;
  const auto has = [&](std::string_view name) {
    return std::any_of(out.begin(), out.end(), [&](const WrittenSection& w) { return w.is(name); });
  };
  if (pattern.sections_written || style.sections.empty()) {
    for (const dogear::Section& s : pattern.sections)
      out.push_back({s.name, s.is_prose, s.span, {}, {}, {}});
  } else {
    for (const std::string& name : style.sections)
      out.push_back({name, false, pattern.span, {}, {}, {}});
  }
  if (!has("before")) {
    const auto at = std::find_if(out.begin(), out.end(), [](const WrittenSection& w) {
      return !w.is_prose && w.name != "cover" && w.name != "contents";
    });
    out.insert(at, WrittenSection{"before", false, pattern.span, {}, {}, {}});
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
    out.insert(at, WrittenSection{*name, false, pattern.span, {}, {}, {}});
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

void write_one(Writer& w, Column& column, const WrittenSection& section) {
  if (section.is_prose) {
    const auto prose = w.pattern().prose.find(section.name);
    if (prose != w.pattern().prose.end())
      write_prose(w, column, prose->second, 0);
    else
      w.diagnostics.error("D407", section.span,
                          join({"there is no file `", section.name, "`"}, ""));
  } else if (section.name == "cover") {
    write_cover(w, column);
  } else if (section.name == "requirements") {
    write_requirements(w, column);
  } else if (section.name == "schedule") {
    write_schedule(w, column);
  } else if (section.name == "cutting") {
    write_cutting(w, column);
  } else if (section.name == "blocks") {
    write_blocks(w, column);
  } else if (section.name == "assembly") {
    write_assembly(w, column);
  } else if (section.name == "finishing") {
    write_finishing(w, column);
  } else if (section.name == "templates") {
    write_templates(w, column);
  } else if (section.name == "coloring page") {
    write_coloring_page(w, column);
  } else if (section.name == "other colorings") {
    write_other_colorings(w, column);
  } else if (section.name == "errata") {
    write_errata(w, column);
  } else if (section.name == "back") {
    write_back(w, column);
  }
}

void check_references(const std::vector<Writer::Reference>& references,
                      const std::set<std::string>& anchors, Diagnostics& diagnostics) {
  const std::vector<std::string> known(anchors.begin(), anchors.end());
  for (const Writer::Reference& r : references) {
    if (anchors.contains(r.anchor)) continue;
    Diagnostic& e = diagnostics.error(
        "D406", r.span, join({"the booklet has no place called `#", r.anchor, "`"}, ""));
    const std::string near = nearest(r.anchor, known);
    if (!near.empty()) e.hints.push_back(join({"did you mean `#", near, "`?"}, ""));
  }
}

// Any section may show the steps of a block, and the designer's words before them.
std::map<std::string, std::string> prose_of(const Pattern& pattern, const WrittenSection& section) {
  std::map<std::string, std::string> out;
  for (const auto& [path, prose] : pattern.prose)
    if (path == section.name || starts_with(path, "prose/blocks/")) out[path] = prose.text;
  return out;
}

// Content that waits for page numbers holds on to its writer, and cannot be kept.
bool waits(const WrittenSection& section) {
  return std::any_of(section.boxes.begin(), section.boxes.end(), [](const Box& b) {
    return static_cast<bool>(b.late) || (b.repeat && b.repeat->late);
  });
}

bool share_any(const std::set<std::string>& a, const std::set<std::string>& b) {
  return std::any_of(a.begin(), a.end(), [&](const std::string& name) { return b.contains(name); });
}

// Parts of each section have numbers of their own, as far as numbers go.
constexpr int parts_at_most = 1 << 20;
constexpr std::size_t numbered_apart = 2000;  // sections

}  // namespace

// Writers for as many threads as ask; the first works with the fonts and the template given.
class Manuscript::Desks {
 public:
  struct Desk {
    std::optional<canvas::FontSet> fonts;
    std::optional<Template> style;
    Diagnostics said;
    std::optional<Writer> writer;

    // Writes the section with this number; `content` is given its column.
    void write(Draft& draft, std::size_t number, const std::function<void(Column&)>& content) {
      WrittenSection& section = draft.section;
      writer->scene.fonts.forget_missing();
      writer->flow.next_id = 1 + static_cast<int>(number % numbered_apart) * parts_at_most;
      writer->entries.clear();
      writer->references.clear();
      Column column = writer->column();
      column.begin(canvas::Role::section);
      content(column);
      column.end();
      section.boxes = std::move(column.boxes);
      section.elements = column.take_elements();
      section.entries = std::move(writer->entries);
      draft.anchors = writer->anchors;
      draft.references = std::move(writer->references);
      // Figures are drawn once for all, so that what one lacks is found by whoever drew it.
      const auto missing = writer->scene.fonts.missing();
      draft.missing.insert(draft.missing.end(), missing.begin(), missing.end());
      draft.said = std::exchange(said, {});
      if (section.boxes.empty()) return;
      Box& first = section.boxes.front();
      first.section_start = true;
      if (!first.running)
        first.running = section.entries.empty() ? "" : section.entries.front().title;
      if (section.is("back")) first.new_page = true;
      first.runs_on = section.is_prose || runs_on(section.name);
    }
  };

  Desks(const Scene& scene, std::size_t size, const Template& style, const Photos& photos) {
    all_.push_back(std::make_unique<Desk>());
    all_[0]->writer.emplace(scene, size, style, all_[0]->said, photos);
    free_.push_back(all_[0].get());
  }

  Desk& first() { return *all_[0]; }

  Desk& take() {
    const std::lock_guard<std::mutex> lock(mutex_);
    if (free_.empty()) {
      all_.push_back(std::make_unique<Desk>());
      Desk& desk = *all_.back();
      const Writer& like = *all_[0]->writer;
      desk.fonts.emplace(like.scene.fonts.another());
      desk.style.emplace(like.style.another());
      desk.writer.emplace(like, *desk.fonts, *desk.style, desk.said);
      return desk;
    }
    Desk& desk = *free_.back();
    free_.pop_back();
    return desk;
  }
  void give_back(Desk& desk) {
    const std::lock_guard<std::mutex> lock(mutex_);
    free_.push_back(&desk);
  }

 private:
  std::mutex mutex_;
  std::vector<std::unique_ptr<Desk>> all_;
  std::vector<Desk*> free_;
};

Manuscript::Manuscript(const Scene& scene, std::size_t size, const Template& style,
                       const Photos& photos)
    : scene_(scene),
      size_(size),
      style_(style),
      desks_(std::make_unique<Desks>(scene, size, style, photos)) {}

Manuscript::~Manuscript() = default;

void Manuscript::write(SectionMemory* memory) {
  const Pattern& pattern = scene_.checked.pattern;
  const auto known = abbreviations(style_.words);
  std::vector<Draft> drafts;
  for (WrittenSection& section : planned(pattern, style_)) {
    drafts.emplace_back();
    drafts.back().section = std::move(section);
  }
  const auto alone = [](const WrittenSection& s) { return !s.is("before") && !s.is("contents"); };
  const auto write_alone = [&](Desks::Desk& desk, std::size_t i, std::set<std::string> anchors) {
    Draft& draft = drafts[i];
    desk.writer->anchors = std::move(anchors);
    desk.write(draft, i, [&](Column& column) { write_one(*desk.writer, column, draft.section); });
    for (const Box& box : draft.section.boxes)
      find_abbreviations(box.content, known, draft.abbreviations);
  };

  // Each that stands by itself: from the memory, else beside the others.
  std::vector<std::size_t> asked;
  for (std::size_t i = 0; i < drafts.size(); ++i) {
    WrittenSection& section = drafts[i].section;
    if (!alone(section)) continue;
    const KeptDraft* kept = memory != nullptr ? memory->impl().find(size_, section.name) : nullptr;
    if (kept != nullptr && kept->prose == prose_of(pattern, section))
      drafts[i] = kept->draft;
    else
      asked.push_back(i);
  }
  in_parallel(asked.size(), [&](std::size_t k) {
    Desks::Desk& desk = desks_->take();
    write_alone(desk, asked[k], {});
    desks_->give_back(desk);
  });
  if (memory != nullptr) {
    const bool lacks = std::any_of(drafts.begin(), drafts.end(),
                                   [](const Draft& draft) { return !draft.missing.empty(); });
    for (const std::size_t i : asked) {
      const Draft& draft = drafts[i];
      const std::pair key{size_, draft.section.name};
      if (draft.said.all().empty() && !lacks && !waits(draft.section))
        memory->impl().sections[key] = {prose_of(pattern, draft.section), draft};
      else
        memory->impl().sections.erase(key);
    }
  }

  // Where two sections name the same place, the later is written again with other names.
  std::set<std::string> anchors, used;
  for (std::size_t i = 0; i < drafts.size(); ++i) {
    if (!alone(drafts[i].section)) continue;
    if (drafts[i].section.is("blocks")) before_blocks_ = anchors;
    if (share_any(drafts[i].anchors, anchors)) write_alone(desks_->first(), i, anchors);
    anchors.insert(drafts[i].anchors.begin(), drafts[i].anchors.end());
    used.insert(drafts[i].abbreviations.begin(), drafts[i].abbreviations.end());
  }

  // What speaks of the rest.
  Desks::Desk& desk = desks_->first();
  Writer& writer = *desk.writer;
  writer.anchors = anchors;
  for (std::size_t i = 0; i < drafts.size(); ++i)
    if (drafts[i].section.is("before"))
      desk.write(drafts[i], i, [&](Column& column) { write_begin(writer, column, used); });
  for (const Draft& draft : drafts) {
    if (draft.section.is("cover") || draft.section.is("contents")) continue;
    const std::vector<OutlineItem>& more = draft.section.entries;
    entries.insert(entries.end(), more.begin(), more.end());
  }
  for (std::size_t i = 0; i < drafts.size(); ++i)
    if (drafts[i].section.is("contents"))
      desk.write(drafts[i], i, [&](Column& column) { write_contents(writer, column, entries); });

  std::vector<Writer::Reference> references;
  for (Draft& draft : drafts) {
    add_all(draft.said, said);
    for (const canvas::MissingGlyph& m : draft.missing)
      missing_.emplace(std::pair(m.font, m.character), m.message);
    references.insert(references.end(), draft.references.begin(), draft.references.end());
    sections.push_back(std::move(draft.section));
  }
  check_references(references, writer.anchors, said);
  begin_pages();
}

// What follows the cover begins a page, and what follows the contents is looked for.
void Manuscript::begin_pages() {
  bool after_cover = false, after_contents = false;
  for (WrittenSection& section : sections) {
    if (section.boxes.empty()) continue;
    Box& first = section.boxes.front();
    first.new_page = first.new_page || after_cover;
    first.runs_on = first.runs_on && !after_contents;
    after_cover = section.boxes.back().bare;
    after_contents = section.is("contents");
  }
}

namespace {

// The boxes of all sections without what is on them, with those of one replaced.
std::vector<Box> skeleton(const std::vector<WrittenSection>& sections, std::size_t replaced,
                          const std::vector<Box>& by) {
  std::vector<Box> out;
  for (std::size_t i = 0; i < sections.size(); ++i) {
    for (const Box& box : i == replaced ? by : sections[i].boxes) {
      Box& bare = out.emplace_back();
      bare.height = box.height;
      bare.before = box.before, bare.after = box.after;
      bare.keep_with_next = box.keep_with_next;
      bare.break_cost = box.break_cost;
      bare.new_page = box.new_page;
      bare.section_start = box.section_start, bare.runs_on = box.runs_on;
      bare.repeat = box.repeat;
    }
  }
  return out;
}

// How far down its page the box stands.
double top_of(const std::vector<Box>& boxes, const std::vector<PageRun>& pages, std::size_t box) {
  for (const PageRun& page : pages) {
    if (box >= page.begin && box < page.end)
      return stack(boxes, page, nullptr).at(box - page.begin);
  }
  return 0;
}

}  // namespace

void Manuscript::fit_blocks() {
  const auto blocks = std::find_if(sections.begin(), sections.end(),
                                   [](const WrittenSection& s) { return s.is("blocks"); });
  if (blocks == sections.end() || blocks->boxes.empty()) return;
  const auto at = static_cast<std::size_t>(blocks - sections.begin());
  std::size_t first = 0;
  for (std::size_t i = 0; i < at; ++i) first += sections[i].boxes.size();
  const double height = style_.text_height();
  double cost = 0;
  const std::vector<Box> now = skeleton(sections, at, blocks->boxes);
  const double begun = top_of(now, paginate(now, height, &cost), first);
  if (begun <= 0) return;
  Desks::Desk& desk = desks_->first();
  Draft draft;
  draft.section.name = blocks->name;
  desk.writer->anchors = before_blocks_;
  desk.writer->begun = begun;
  desk.write(draft, at, [&](Column& column) { write_one(*desk.writer, column, draft.section); });
  std::vector<Box>& again = draft.section.boxes;
  if (again.empty()) return;
  again.front().new_page = blocks->boxes.front().new_page;
  again.front().runs_on = blocks->boxes.front().runs_on;
  double then = 0;
  paginate(skeleton(sections, at, again), height, &then);
  if (then < cost) blocks->boxes = std::move(again);
}

void Manuscript::say_what_is_missing(Diagnostics& diagnostics) const {
  auto all = missing_;
  for (const canvas::MissingGlyph& m : scene_.fonts.missing())
    all.emplace(std::pair(m.font, m.character), m.message);
  for (const auto& [glyph, message] : all)
    diagnostics.error("D404", scene_.checked.pattern.span, message);
}

}  // namespace booklet
}  // namespace dogear
