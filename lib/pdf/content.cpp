#include "pdf/content.h"

#include <algorithm>
#include <cmath>

#include "canvas/number.h"

namespace dogear::pdf {
namespace {

using namespace canvas;

constexpr double largest = 32000;     // pt; readers keep coordinates in 16 bits
constexpr int deepest = 40;           // lists within lists
constexpr int deepest_in_stream = 8;  // of these written in place; readers allow 28 nested states

// What the stream has set so far, so that nothing is set twice.
struct State {
  std::optional<Color> fill = black, stroke = black;
  double width = 1;
  std::vector<double> dash;
  bool round_caps = false, round_joins = false;
};

class Painter {
 public:
  // `page` is below zero for a form and in a file without tags, which have no tags, links and
  // anchors of its own.
  Painter(Painted& all, int page, double height) : all_(all), page_(page), height_(height) {}

  Stream out;

  void list(const DisplayList& display) {
    std::vector<LinkText> links;
    if (page_ >= 0)
      for (const Item& item : display.items())
        if (const auto* link = std::get_if<Link>(&item)) links.push_back({link, {}, {}});
    links_.swap(links);
    for (const Item& item : display.items()) std::visit([&](const auto& it) { put(it); }, item);
    links_.swap(links);
    for (const LinkText& link : links) place(link);
  }
  void begin_page() {
    out.bytes += "1 0 0 -1 0 ";
    number(height_);
    out.bytes += "cm\n";
  }
  // A form starts with whatever its caller had set.
  void begin_form() { op("0 g 0 G 1 w [] 0 d 0 J 0 j"); }
  void end_marks() {
    if (open_) out.bytes += "EMC\n";
    open_.reset();
  }

 private:
  // ---- numbers

  void number(double v, int places = 3) {
    if (!std::isfinite(v) || std::abs(v) > largest) {
      all_.error((page_ < 0 ? std::string("a figure") : "page " + std::to_string(page_ + 1)) +
                 " has a coordinate that is not a number or is out of range");
      v = 0;
    }
    append_number(out.bytes, v, places);
    out.bytes += ' ';
  }
  void point(Point p) {
    number(p.x);
    number(p.y);
  }
  void matrix(const Transform& t) {
    for (const double v : {t.a, t.b, t.c, t.d}) number(v, 6);
    number(t.e);
    number(t.f);
  }
  void op(const char* name) {
    out.bytes += name;
    out.bytes += '\n';
  }

  // ---- state

  void color(std::optional<Color>& now, const Color& wanted, const char* gray, const char* rgb) {
    if (now && *now == wanted) return;
    now = wanted;
    const auto part = [&](double v) { number(std::isfinite(v) ? std::clamp(v, 0.0, 1.0) : v, 4); };
    part(wanted.r);
    if (wanted.r == wanted.g && wanted.g == wanted.b) return op(gray);
    part(wanted.g);
    part(wanted.b);
    op(rgb);
  }
  void fill_color(const Color& c) { color(state_.fill, c, "g", "rg"); }
  void pen(const Color& c, double width, const std::vector<double>& dash, bool round_caps,
           bool round_joins) {
    color(state_.stroke, c, "G", "RG");
    if (state_.width != width) {
      number(width);
      op("w");
      state_.width = width;
    }
    if (state_.dash != dash) {
      out.bytes += '[';
      for (const double d : dash) number(d);
      op("] 0 d");
      state_.dash = dash;
    }
    if (state_.round_caps != round_caps) op(round_caps ? "1 J" : "0 J");
    if (state_.round_joins != round_joins) op(round_joins ? "1 j" : "0 j");
    state_.round_caps = round_caps;
    state_.round_joins = round_joins;
  }
  State save() {
    op("q");
    return state_;
  }
  void restore(State kept) {
    op("Q");
    state_ = std::move(kept);
  }

  // ---- marks for the structure tree

  static constexpr Structure::Element artifact = ~Structure::Element{0};

  void mark(Structure::Element wanted) {
    if (page_ < 0 || (open_ && *open_ == wanted)) return;
    end_marks();
    open_ = wanted;
    if (wanted == artifact) return op("/Artifact BMC");
    out.bytes += "/" + all_.structure.name(wanted) + " <</MCID ";
    out.bytes += std::to_string(all_.structure.mark(wanted, page_));
    op(">> BDC");
  }
  // The part that text belongs to here: text right in a section is a paragraph of its own.
  Structure::Element text_part() {
    if (current_ == artifact || !all_.structure.holds_parts(current_)) return current_;
    if (!loose_) loose_ = all_.structure.open(current_, Role::paragraph, {}, 0);
    return *loose_;
  }
  void mark_text() {
    if (page_ >= 0) mark(text_part());
  }
  void mark_text(const GlyphRun& run) {
    if (page_ < 0) return;
    const Structure::Element part = text_part();
    if (part == artifact) return mark(part);
    const Point middle = run.bounds().center();
    for (LinkText& link : links_) {
      const Rect& area = link.link->area;
      if (all_.structure.shows_shapes(part) || middle.x < area.left || middle.x > area.right ||
          middle.y < area.top || middle.y > area.bottom)
        continue;
      if (!link.element) link.element = all_.structure.open_link(part);
      link.words += run.text();
      return mark(*link.element);
    }
    all_.structure.set_label(part, run.text());
    mark(part);
  }
  void mark_shape() {
    if (page_ < 0) return;
    const bool shown = current_ != artifact && all_.structure.shows_shapes(current_);
    mark(shown ? current_ : artifact);
  }

  // ---- shapes

  void path(const Path& p) {
    std::size_t at = 0;
    for (const Path::Op step : p.ops()) {
      switch (step) {
        case Path::Op::move:
          point(p.points()[at++]);
          op("m");
          break;
        case Path::Op::line:
          point(p.points()[at++]);
          op("l");
          break;
        case Path::Op::cubic:
          for (int i = 0; i < 3; ++i) point(p.points()[at++]);
          op("c");
          break;
        case Path::Op::close:
          op("h");
          break;
      }
    }
  }

  void put(const Shape& shape) {
    const Style& style = shape.style;
    if (shape.path.empty() || (!style.fill && !style.hatch && !style.stroke)) return;
    mark_shape();
    const bool at_once = style.fill && style.stroke && !style.hatch;
    if (style.fill) {
      fill_color(*style.fill);
      if (at_once) pen(*style.stroke, style.width, style.dash, style.round_caps, style.round_joins);
      path(shape.path);
      if (at_once)
        op(style.even_odd ? "B*" : "B");
      else
        op(style.even_odd ? "f*" : "f");
    }
    if (style.hatch) put_hatch(shape, *style.hatch);
    if (style.stroke && !at_once) {
      pen(*style.stroke, style.width, style.dash, style.round_caps, style.round_joins);
      path(shape.path);
      op("S");
    }
  }

  void put_hatch(const Shape& shape, const Hatch& hatch) {
    const Rect bounds = shape.path.bounds();
    const auto swatch = swatch_for(hatch, bounds);
    const bool stored = swatch && all_.swatches[*swatch].uses >= uses_worth_storing;
    State kept = save();
    path(shape.path);
    op(shape.style.even_odd ? "W* n" : "W n");
    if (stored) {
      if (swatch->at != Point{}) {
        out.bytes += "1 0 0 1 ";
        point(swatch->at);
        op("cm");
      }
      draw_form(swatch_form(*swatch));
    } else {
      marks(hatch, bounds);
    }
    restore(std::move(kept));
  }

  void marks(const Hatch& hatch, const Rect& area) {
    const HatchMarks found = hatch_marks(hatch, area);
    if (!found.lines.empty()) {
      pen(hatch.color, hatch.line, {}, false, false);
      path(found.lines);
      op("S");
    }
    if (!found.dots.empty()) {
      pen(hatch.color, found.dot, {}, true, false);
      path(found.dots);
      op("S");
    }
  }

  std::size_t swatch_form(const Swatch& swatch) {
    std::optional<std::size_t>& form = all_.swatches[swatch].form;
    if (form) return *form;
    Painter painter(all_, -1, 0);
    painter.begin_form();
    painter.marks(swatch.hatch, swatch.area());
    all_.forms.push_back({std::move(painter.out), swatch.area().grown(4)});
    return *(form = all_.forms.size() - 1);
  }

  void draw_form(std::size_t form) {
    out.forms.insert(form);
    out.bytes += '/' + resource_name('X', form) + ' ';
    op("Do");
  }

  // ---- text

  void put(const GlyphRun& run) {
    if (run.glyphs.empty()) return;
    const auto font = static_cast<std::size_t>(run.font);
    if (font >= all_.fonts.size() || !(run.size > 0)) {
      all_.error("a text has no such font or no size");
      return;
    }
    mark_text(run);
    out.fonts.insert(font);
    fill_color(run.color);
    const Transform place = Transform::turn(run.turn).then(Transform::move(run.x, run.y));
    op("BT");
    put_gap(run, place);
    for (std::size_t i = 0; i < run.glyphs.size();) {
      std::size_t end = i + 1;
      while (end < run.glyphs.size() && run.glyphs[end].y == run.glyphs[i].y &&
             run.glyphs[end].scale == run.glyphs[i].scale)
        ++end;
      put_row(run, i, end, place);
      i = end;
    }
    op("ET");
  }

  // A line's last word and the next line's first must not run together for who listens: an unseen
  // space goes before a run that follows another of the same part, unless the two touch or a hyphen
  // ends the first.
  void put_gap(const GlyphRun& run, const Transform& place) {
    if (page_ < 0 || !open_ || *open_ == artifact || all_.structure.shows_shapes(*open_)) return;
    const Point start = place.then(to_page_).apply(Point{});
    const Structure::Element part = all_.structure.block_of(*open_);
    const bool follows =
        text_before_ && text_before_->element == part && !text_before_->joins &&
        std::hypot(start.x - text_before_->end.x, start.y - text_before_->end.y) > 0.1 * run.size;
    const std::string& last = run.glyphs.back().text;
    const bool joins =
        last == " " || last == "\u2009" || last == "-" || last == "\u2010" || last == "\u00AD";
    text_before_ = TextBefore{part, place.then(to_page_).apply(Point{run.width, 0}), joins};
    const std::string& first = run.glyphs.front().text;
    if (!follows || first == " ") return;
    GlyphRun gap = run;
    gap.glyphs = all_.font_set.space(run.font, run.size).glyphs;
    for (Glyph& glyph : gap.glyphs) glyph.x -= glyph.advance;
    if (!gap.glyphs.empty()) put_row(gap, 0, gap.glyphs.size(), place);
  }

  // Glyphs on one baseline and of one size.
  void put_row(const GlyphRun& run, std::size_t begin, std::size_t end, const Transform& place) {
    const Glyph& first = run.glyphs[begin];
    const double size = run.size * first.scale;
    out.bytes += '/' + resource_name('F', static_cast<std::size_t>(run.font)) + ' ';
    number(size);
    out.bytes += "Tf ";
    matrix(Transform::scale(1, -1).then(Transform::move(first.x, first.y)).then(place));
    out.bytes += "Tm [";
    FontUse& use = all_.fonts[static_cast<std::size_t>(run.font)];
    double pen_at = first.x;
    bool in_string = false;
    for (std::size_t i = begin; i < end; ++i) {
      const Glyph& glyph = run.glyphs[i];
      const FontUse::Code code = use.code(glyph.id, glyph.text);
      if (code.code == 0) {
        all_.error("the text “" + run.text() + "” has a glyph that " +
                   all_.font_set.name(run.font) + " lacks");
        continue;
      }
      const double back = (pen_at - glyph.x) * 1000 / size;
      if (!(std::abs(back) < 0.6)) {
        if (in_string) out.bytes += '>';
        in_string = false;
        const double kept = std::round(back);
        number(kept, 0);
        pen_at -= kept * size / 1000;
      }
      if (!in_string) out.bytes += '<';
      in_string = true;
      for (int shift = 12; shift >= 0; shift -= 4)
        out.bytes += "0123456789ABCDEF"[(code.code >> shift) & 0xF];
      pen_at += code.width * size / 1000;
    }
    if (in_string) out.bytes += '>';
    op("] TJ");
  }

  void put(const Image& image) {
    if (!image.raster) return;
    mark_shape();
    State kept = save();
    matrix(Transform{1, 0, 0, -1, 0, 1}.then(image.transform));
    op("cm");
    const std::size_t number = all_.image(image.raster);
    out.images.insert(number);
    out.bytes += '/' + resource_name('I', number) + ' ';
    op("Do");
    restore(std::move(kept));
  }

  // ---- lists within the list

  // Links and anchors of a list that is stored as a form.
  void find_targets(const DisplayList& display) {
    for (const Item& item : display.items()) {
      if (const auto* link = std::get_if<Link>(&item)) place({link, {}, {}});
      if (const auto* anchor = std::get_if<Anchor>(&item)) put(*anchor);
      const auto* form = std::get_if<Form>(&item);
      const auto* group = std::get_if<Group>(&item);
      const DisplayList* inner = form != nullptr    ? form->list.get()
                                 : group != nullptr ? group->list.get()
                                                    : nullptr;
      if (inner == nullptr || !all_.lists[inner].has_targets) continue;
      const Transform outer = to_page_;
      to_page_ = (form != nullptr ? form->transform : group->transform).then(to_page_);
      find_targets(*inner);
      to_page_ = outer;
    }
  }

  std::size_t form_of(const DisplayList& display) {
    Painted::Facts& facts = all_.lists[&display];
    if (facts.form) return *facts.form;
    Painter painter(all_, -1, 0);
    painter.depth_ = depth_ + 1;
    painter.begin_form();
    painter.list(display);
    all_.forms.push_back({std::move(painter.out), facts.box.grown(1)});
    const std::size_t index = all_.forms.size() - 1;
    all_.lists[&display].form = index;
    return index;
  }

  void put_list(const DisplayList& display, const Transform& t, const std::optional<Path>& clip) {
    if (display.empty()) return;
    if (depth_ >= deepest) {
      all_.error("figures are nested too deeply");
      return;
    }
    const Painted::Facts facts = all_.lists[&display];
    const bool in_place = facts.uses <= 1 && depth_ < deepest_in_stream;
    const bool plain = t == Transform{} && !clip;
    if (in_place && plain) {
      ++depth_;
      list(display);
      --depth_;
      return;
    }
    // All of a figure and of what is not read is one piece of marked content.
    const bool one_piece =
        page_ >= 0 && (current_ == artifact || all_.structure.shows_shapes(current_));
    if (in_place && one_piece) {
      mark(current_);
    } else if (in_place) {
      end_marks();
    } else if (facts.has_text) {
      mark_text();
    } else {
      mark_shape();
    }
    const Transform outer = to_page_;
    to_page_ = t.then(to_page_);
    State kept = save();
    if (clip) {
      path(*clip);
      op("W n");
    }
    if (t != Transform{}) {
      matrix(t);
      op("cm");
    }
    if (in_place) {
      ++depth_;
      list(display);
      --depth_;
      if (!one_piece) end_marks();
    } else {
      draw_form(form_of(display));
      if (page_ >= 0 && facts.has_targets) find_targets(display);
    }
    restore(std::move(kept));
    to_page_ = outer;
  }

  void put(const Form& form) {
    if (form.list) put_list(*form.list, form.transform, form.clip);
  }

  void put(const Group& group) {
    // An empty cell keeps its place in the table; any other part without content is none.
    const bool cell = group.role == Role::cell || group.role == Role::header_cell;
    if (!group.list || (group.list->empty() && !cell)) return;
    const Structure::Element outer = current_;
    const std::optional<Structure::Element> outer_loose = loose_;
    if (page_ >= 0 && current_ != artifact) {
      // Whatever lies in a figure is the figure.
      const bool within = all_.structure.shows_shapes(current_);
      const bool figure = group.role == Role::figure && !group.alt.empty();
      // A picture without words is decoration.
      if (group.role == Role::artifact || (group.role == Role::figure && !figure && !within))
        current_ = artifact;
      else if (!within)
        current_ = all_.structure.open(current_, group.role, group.alt, group.id);
      if (figure && !within) {
        const Rect box = group.transform.then(to_page_).apply(all_.lists[group.list.get()].box);
        if (!box.empty())
          all_.structure.set_box(current_, page_,
                                 {box.left, height_ - box.bottom, box.right, height_ - box.top});
      }
      loose_.reset();
    }
    put_list(*group.list, group.transform, {});
    // Text after the part is a paragraph of its own, unless the part was nothing to read.
    loose_ = current_ == artifact ? outer_loose : std::nullopt;
    current_ = outer;
  }

  struct LinkText {
    const Link* link;
    std::optional<Structure::Element> element;
    std::string words;
  };

  void place(const LinkText& text) {
    if (page_ < 0 || text.link->area.empty()) return;
    const bool loose = current_ == artifact || all_.structure.shows_shapes(current_);
    const Structure::Element element =
        text.element ? *text.element
                     : all_.structure.open_link(loose ? Structure::root : text_part());
    all_.links.push_back({page_, to_page_.apply(text.link->area), *text.link, element, text.words});
  }

  void put(const Link&) {}  // when its list is done

  void put(const Anchor& anchor) {
    if (page_ < 0) return;
    if (!all_.anchors.emplace(anchor.name, PlacedAnchor{page_, to_page_.apply(anchor.at)}).second)
      all_.error("the place “" + anchor.name + "” is defined twice");
  }

  struct TextBefore {
    Structure::Element element;
    Point end;  // on the page
    bool joins;
  };

  Painted& all_;
  int page_;
  double height_;
  int depth_ = 0;
  Transform to_page_;  // from the list's coordinates to the page's, y down
  State state_;
  Structure::Element current_ = Structure::root;
  std::optional<Structure::Element> loose_;  // paragraph of text that lies in no part
  std::optional<TextBefore> text_before_;
  std::vector<LinkText> links_;             // of the list being painted
  std::optional<Structure::Element> open_;  // whose marked content is open in the stream
};

}  // namespace

std::string resource_name(char kind, std::size_t number) {
  std::string out(1, kind);
  return out += std::to_string(number);
}

Painted::Painted(const FontSet& set, bool tags) : font_set(set), tagged(tags) {
  for (int i = 0; i < font_count; ++i) fonts.emplace_back(set, static_cast<FontId>(i));
}

void Painted::error(const std::string& text) {
  if (std::find(errors.begin(), errors.end(), text) == errors.end()) errors.push_back(text);
}

std::size_t Painted::image(const RasterRef& raster) {
  const auto known = std::find(images.begin(), images.end(), raster);
  if (known != images.end()) return static_cast<std::size_t>(known - images.begin());
  images.push_back(raster);
  return images.size() - 1;
}

void Painted::survey(const DisplayList& list) {
  Facts found;
  for (const Item& item : list.items()) {
    if (const auto* shape = std::get_if<Shape>(&item)) {
      const Rect bounds = shape->path.bounds();
      found.box.add(bounds.grown(shape->style.stroke ? shape->style.width * 5 : 0));
      if (shape->style.hatch)
        if (const auto swatch = swatch_for(*shape->style.hatch, bounds)) ++swatches[*swatch].uses;
    } else if (const auto* run = std::get_if<GlyphRun>(&item)) {
      found.has_text = true;
      found.box.add(run->bounds().grown(run->size * 0.3));
    } else if (std::holds_alternative<Link>(item) || std::holds_alternative<Anchor>(item)) {
      found.has_targets = true;
    } else if (const auto* image = std::get_if<Image>(&item)) {
      found.box.add(image->transform.apply(Rect{0, 0, 1, 1}));
    }
    const auto* form = std::get_if<Form>(&item);
    const auto* group = std::get_if<Group>(&item);
    const DisplayList* inner = form != nullptr    ? form->list.get()
                               : group != nullptr ? group->list.get()
                                                  : nullptr;
    if (inner == nullptr) continue;
    if (lists.find(inner) == lists.end()) survey(*inner);
    Facts& facts = lists[inner];
    ++facts.uses;
    found.has_text |= facts.has_text;
    found.has_targets |= facts.has_targets;
    found.box.add((form != nullptr ? form->transform : group->transform).apply(facts.box));
  }
  lists[&list] = found;
}

Stream paint_page(Painted& painted, const Page& page, int number) {
  Painter painter(painted, painted.tagged ? number : -1, page.height);
  painter.begin_page();
  painter.list(page.content);
  painter.end_marks();
  return std::move(painter.out);
}

}  // namespace dogear::pdf
