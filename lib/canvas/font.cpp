#include "canvas/font.h"

#include <hb-ot.h>
#include <hb.h>

#include <algorithm>
#include <array>
#include <set>
#include <unordered_map>
#include <utility>

#include "base/files.h"
#include "base/text.h"

namespace dogear::canvas {
struct Face {
  hb_face_t* face = nullptr;
  hb_font_t* font = nullptr;
  int upem = 1000;
  std::string name, postscript_name;
  FontMetrics metrics;
};

// A shaped word in font units, kept for every size.
struct Word {
  struct Part {
    std::uint32_t id;
    double x, y, advance, scale;
    std::string text;
  };
  std::vector<Part> parts;
  double width = 0;
  std::vector<char32_t> missing;
};

namespace {

using FeatureList = std::vector<hb_feature_t>;

void feature(FeatureList& list, const char* tag, bool on) {
  list.push_back(
      {hb_tag_from_string(tag, 4), on ? 1u : 0u, HB_FEATURE_GLOBAL_START, HB_FEATURE_GLOBAL_END});
}

std::string face_name(hb_face_t* face, hb_ot_name_id_t id) {
  std::array<char, 256> buffer{};
  unsigned size = buffer.size();
  hb_ot_name_get_utf8(face, id, hb_language_from_string("en", 2), &size, buffer.data());
  return std::string(buffer.data(), std::min<std::size_t>(size, buffer.size() - 1));
}

double metric(hb_font_t* font, hb_ot_metrics_tag_t tag) {
  hb_position_t value = 0;
  hb_ot_metrics_get_position_with_fallback(font, tag, &value);
  return value;
}

bool has_table(hb_face_t* face, hb_tag_t tag) {
  hb_blob_t* blob = hb_face_reference_table(face, tag);
  const bool found = hb_blob_get_length(blob) > 0;
  hb_blob_destroy(blob);
  return found;
}

// Fills `out`; returns what is wrong with the font, or nothing.
std::string open_face(const std::string& bytes, Face& out) {
  hb_blob_t* blob = hb_blob_create_or_fail(bytes.data(), static_cast<unsigned>(bytes.size()),
                                           HB_MEMORY_MODE_DUPLICATE, nullptr, nullptr);
  if (blob == nullptr) return "is empty";
  out.face = hb_face_create(blob, 0);
  hb_blob_destroy(blob);
  hb_face_make_immutable(out.face);
  if (hb_face_get_glyph_count(out.face) == 0 || !has_table(out.face, HB_TAG('c', 'm', 'a', 'p')))
    return "is not a font that can be read";
  if (!has_table(out.face, HB_TAG('g', 'l', 'y', 'f'))) return "has no TrueType outlines";
  out.font = hb_font_create(out.face);
  out.upem = static_cast<int>(hb_face_get_upem(out.face));
  hb_font_set_scale(out.font, out.upem, out.upem);
  hb_ot_font_set_funcs(out.font);
  hb_font_make_immutable(out.font);
  out.name = face_name(out.face, HB_OT_NAME_ID_FULL_NAME);
  out.postscript_name = face_name(out.face, HB_OT_NAME_ID_POSTSCRIPT_NAME);
  const double em = out.upem;
  out.metrics.ascent = metric(out.font, HB_OT_METRICS_TAG_HORIZONTAL_ASCENDER) / em;
  out.metrics.descent = -metric(out.font, HB_OT_METRICS_TAG_HORIZONTAL_DESCENDER) / em;
  out.metrics.cap_height = metric(out.font, HB_OT_METRICS_TAG_CAP_HEIGHT) / em;
  out.metrics.x_height = metric(out.font, HB_OT_METRICS_TAG_X_HEIGHT) / em;
  out.metrics.underline_depth = -metric(out.font, HB_OT_METRICS_TAG_UNDERLINE_OFFSET) / em;
  out.metrics.underline_thickness = metric(out.font, HB_OT_METRICS_TAG_UNDERLINE_SIZE) / em;
  return {};
}

bool white_space(char32_t c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == 0xA0 || c == 0x202F;
}

Word shape_with_harfbuzz(const Face& face, std::string_view text, const FeatureList& features) {
  hb_buffer_t* buffer = hb_buffer_create();
  hb_buffer_set_flags(buffer, HB_BUFFER_FLAG_REMOVE_DEFAULT_IGNORABLES);
  hb_buffer_set_direction(buffer, HB_DIRECTION_LTR);
  hb_buffer_set_script(buffer, HB_SCRIPT_LATIN);
  hb_buffer_set_language(buffer, hb_language_from_string("en", 2));
  hb_buffer_add_utf8(buffer, text.data(), static_cast<int>(text.size()), 0, -1);
  hb_shape(face.font, buffer, features.data(), static_cast<unsigned>(features.size()));
  unsigned count = 0;
  const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(buffer, &count);
  const hb_glyph_position_t* places = hb_buffer_get_glyph_positions(buffer, &count);

  Word word;
  for (unsigned i = 0; i < count; ++i) {
    const std::size_t begin = infos[i].cluster;
    const bool first = i == 0 || infos[i - 1].cluster != begin;
    std::size_t end = text.size();
    for (unsigned k = i + 1; k < count; ++k)
      if (infos[k].cluster != begin) {
        end = infos[k].cluster;
        break;
      }
    const std::string_view cluster = text.substr(begin, end - begin);
    if (infos[i].codepoint == 0) {
      for (std::size_t at = 0; at < cluster.size();) {
        const char32_t c = next_code_point(cluster, at);
        hb_codepoint_t found = 0;
        if (!hb_font_get_nominal_glyph(face.font, c, &found) || found == 0)
          word.missing.push_back(c);
      }
      continue;
    }
    word.parts.push_back({infos[i].codepoint, word.width + places[i].x_offset,
                          static_cast<double>(-places[i].y_offset),
                          static_cast<double>(places[i].x_advance), 1,
                          first ? std::string(cluster) : std::string()});
    word.width += places[i].x_advance;
  }
  hb_buffer_destroy(buffer);
  return word;
}

void append_word(Word& word, const Word& more) {
  for (Word::Part part : more.parts) {
    part.x += word.width;
    word.parts.push_back(std::move(part));
  }
  word.width += more.width;
  word.missing.insert(word.missing.end(), more.missing.begin(), more.missing.end());
}

void scale_word(Word& word, double scale, double rise) {
  for (Word::Part& part : word.parts) {
    part.x *= scale;
    part.y = part.y * scale - rise;
    part.advance *= scale;
    part.scale *= scale;
  }
  word.width *= scale;
}

// The fraction by itself: through the font's own feature, or built from small figures.
Word shape_fraction(const Face& face, const FractionSpan& span) {
  FeatureList with, lining;
  feature(with, "frac", true);
  feature(lining, "lnum", true);
  Word word = shape_with_harfbuzz(face, span.num + "\u2044" + span.den, with);
  // The font has no small figures if a digit looks as it does elsewhere.
  const auto full_size = [&](const std::string& digits, std::uint32_t first) {
    for (const FeatureList& features : {FeatureList{}, lining}) {
      const Word plain = shape_with_harfbuzz(face, digits, features);
      if (plain.parts.empty() || plain.parts.front().id == first) return true;
    }
    return false;
  };
  const bool real = word.parts.size() == span.num.size() + 1 + span.den.size() &&
                    !full_size(span.num, word.parts.front().id) &&
                    !full_size(span.den, word.parts[span.num.size() + 1].id);
  if (real) return word;
  word = shape_with_harfbuzz(face, span.num, lining);
  scale_word(word, 0.6, 0.4 * face.metrics.cap_height * face.upem);
  Word den = shape_with_harfbuzz(face, span.den, lining);
  scale_word(den, 0.6, 0);
  append_word(word, shape_with_harfbuzz(face, "\u2044", {}));
  append_word(word, den);
  return word;
}

}  // namespace

struct FontSet::Impl {
  std::array<Face, font_count> faces;
  std::unordered_map<std::string, Word> words;
  std::set<std::pair<FontId, char32_t>> missing;
  std::string key;

  Impl() = default;
  Impl(const Impl&) = delete;
  Impl& operator=(const Impl&) = delete;
  ~Impl() {
    for (Face& f : faces) {
      hb_font_destroy(f.font);
      hb_face_destroy(f.face);
    }
  }

  const Face& face(FontId id) const { return faces[static_cast<std::size_t>(id)]; }

  void start_key(FontId font, const Features& f, char kind) {
    const int bits =
        (f.tabular ? 1 : 0) | (f.lining ? 2 : 0) | (f.ligatures ? 4 : 0) | (f.small_caps ? 8 : 0);
    key.clear();
    key += kind;
    key += static_cast<char>('a' + static_cast<int>(font));
    key += static_cast<char>('a' + bits);
  }

  static FeatureList list(const Features& f) {
    FeatureList out;
    if (f.tabular) feature(out, "tnum", true);
    if (f.lining) feature(out, "lnum", true);
    if (!f.ligatures) feature(out, "liga", false);
    if (f.small_caps) feature(out, "smcp", true);
    return out;
  }

  const Word& word(FontId font, const Features& f, std::string_view text) {
    start_key(font, f, 'w');
    key += text;
    const auto found = words.find(key);
    if (found != words.end()) return found->second;
    return words.emplace(key, shape_with_harfbuzz(face(font), text, list(f))).first->second;
  }

  // Always one glyph with the text of a plain space.
  const Word& space(FontId font) {
    start_key(font, {}, 's');
    const auto found = words.find(key);
    if (found != words.end()) return found->second;
    return words.emplace(key, shape_with_harfbuzz(face(font), " ", {})).first->second;
  }

  // U+2009 keeps "3" and "7/8" apart for whoever copies or listens to the text.
  Word thin_gap(FontId font) {
    const Face& f = face(font);
    Word gap = shape_with_harfbuzz(f, "\u2009", {});
    if (gap.parts.empty()) {
      gap = shape_with_harfbuzz(f, " ", {});
      for (Word::Part& part : gap.parts) part.text = "\u2009";
      gap.missing.clear();
    }
    const bool sans = font == FontId::sans || font == FontId::sans_bold;
    gap.width = (sans ? 0.05 : 0.04) * f.upem;  // fractions bring room of their own
    for (Word::Part& part : gap.parts) part.advance = gap.width;
    return gap;
  }

  const Word& fraction(FontId font, const Features& f, const FractionSpan& span) {
    start_key(font, f, 'f');
    key += span.whole + " " + span.num + "/" + span.den;
    const auto found = words.find(key);
    if (found != words.end()) return found->second;
    Word out;
    if (!span.whole.empty()) {
      append_word(out, shape_with_harfbuzz(face(font), span.whole, list(f)));
      append_word(out, thin_gap(font));
    }
    append_word(out, shape_fraction(face(font), span));
    return words.emplace(key, std::move(out)).first->second;
  }

  void put(ShapedText& out, const Word& more) {
    const double unit = out.size / face(out.font).upem;
    for (const Word::Part& p : more.parts)
      out.glyphs.push_back(
          {p.id, out.width + p.x * unit, p.y * unit, p.advance * unit, p.scale, p.text});
    out.width += more.width * unit;
    for (const char32_t c : more.missing) missing.emplace(out.font, c);
  }

  void put_words(ShapedText& out, std::string_view text, const Features& f) {
    std::size_t begin = 0;
    for (std::size_t at = 0; at < text.size();) {
      const std::size_t here = at;
      if (!white_space(next_code_point(text, at))) continue;
      if (here > begin) put(out, word(out.font, f, text.substr(begin, here - begin)));
      put(out, space(out.font));
      begin = at;
    }
    if (begin < text.size()) put(out, word(out.font, f, text.substr(begin)));
  }

  ShapedText start(FontId font, double size) const {
    const FontMetrics& m = face(font).metrics;
    return {font, size, {}, 0, m.ascent * size, m.descent * size};
  }
};

FontPaths FontPaths::debian() {
  const std::string fonts = "/usr/share/fonts/truetype/";
  return {fonts + "vollkorn/Vollkorn-Regular.ttf", fonts + "vollkorn/Vollkorn-SemiBold.ttf",
          fonts + "vollkorn/Vollkorn-Italic.ttf", fonts + "lato/Lato-Regular.ttf",
          fonts + "lato/Lato-Bold.ttf"};
}

void ShapedText::append(const ShapedText& more, double gap) {
  for (Glyph glyph : more.glyphs) {
    glyph.x += width + gap;
    glyphs.push_back(std::move(glyph));
  }
  width += gap + more.width;
  ascent = std::max(ascent, more.ascent);
  descent = std::max(descent, more.descent);
}

std::string ShapedText::text() const {
  std::string out;
  for (const Glyph& glyph : glyphs) out += glyph.text;
  return out;
}

FontSet::FontSet(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
FontSet::FontSet(FontSet&&) noexcept = default;
FontSet& FontSet::operator=(FontSet&&) noexcept = default;
FontSet::~FontSet() = default;

std::optional<FontSet> FontSet::load(const Files& files, const FontPaths& paths,
                                     std::string& error) {
  auto impl = std::make_unique<Impl>();
  error.clear();
  const std::array<const std::string*, font_count> in_order{
      &paths.text, &paths.text_bold, &paths.text_italic, &paths.sans, &paths.sans_bold};
  for (std::size_t i = 0; i < in_order.size(); ++i) {
    std::string why;
    const std::optional<std::string> bytes = files.read(*in_order[i], why);
    if (bytes) why = open_face(*bytes, impl->faces[i]);
    if (bytes && why.empty()) continue;
    if (!error.empty()) error += "\n";
    error += "font " + *in_order[i] + (bytes ? " " : ": ") + why;
  }
  if (!error.empty()) return {};
  return FontSet(std::move(impl));
}

FontSet FontSet::another() const {
  auto impl = std::make_unique<Impl>();
  for (std::size_t i = 0; i < font_count; ++i) {
    const Face& own = impl_->faces[i];
    impl->faces[i] = own;
    hb_face_reference(own.face);
    hb_font_reference(own.font);
  }
  return FontSet(std::move(impl));
}

ShapedText FontSet::shape(FontId font, double size, std::string_view utf8,
                          Features features) const {
  ShapedText out = impl_->start(font, size);
  std::size_t at = 0;
  if (features.fractions)
    for (const FractionSpan& span : find_fractions(utf8)) {
      impl_->put_words(out, utf8.substr(at, span.begin - at), features);
      impl_->put(out, impl_->fraction(font, features, span));
      at = span.end;
    }
  impl_->put_words(out, utf8.substr(at), features);
  return out;
}

double FontSet::width(FontId font, double size, std::string_view utf8, Features features) const {
  return shape(font, size, utf8, features).width;
}

ShapedText FontSet::space(FontId font, double size, std::optional<double> width) const {
  ShapedText out = impl_->start(font, size);
  impl_->put(out, impl_->space(font));
  if (width) {
    for (Glyph& glyph : out.glyphs) glyph.advance = *width;
    out.width = *width;
  }
  return out;
}

const FontMetrics& FontSet::metrics(FontId font) const { return impl_->face(font).metrics; }
const std::string& FontSet::name(FontId font) const { return impl_->face(font).name; }
const std::string& FontSet::postscript_name(FontId font) const {
  return impl_->face(font).postscript_name;
}

bool FontSet::has(FontId font, char32_t character) const {
  hb_codepoint_t found = 0;
  return hb_font_get_nominal_glyph(impl_->face(font).font, character, &found) && found != 0;
}

std::vector<MissingGlyph> FontSet::missing() const {
  std::vector<MissingGlyph> out;
  for (const auto& [font, character] : impl_->missing) {
    std::string code;
    for (unsigned n = character; n != 0 || code.size() < 4; n /= 16)
      code.insert(code.begin(), "0123456789ABCDEF"[n % 16]);
    std::string message = name(font) + " has no character ";
    if (character >= 0x20) message += utf8(character);
    message.append(" (U+").append(code).append(")");
    out.push_back({character, font, std::move(message)});
  }
  return out;
}

void FontSet::forget_missing() const { impl_->missing.clear(); }

hb_face_t* FontSet::face(FontId font) const { return impl_->face(font).face; }
hb_font_t* FontSet::hb_font(FontId font) const { return impl_->face(font).font; }
int FontSet::units_per_em(FontId font) const { return impl_->face(font).upem; }

}  // namespace dogear::canvas
