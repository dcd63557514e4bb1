#include "pdf/fonts.h"

#include <hb-subset.h>
#include <hb.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "base/text.h"
#include "pdf/hash.h"

namespace dogear::pdf {
namespace {

template <auto destroy>
struct Destroy {
  template <typename T>
  void operator()(T* p) const {
    destroy(p);
  }
};
template <typename T, auto destroy>
using Owned = std::unique_ptr<T, Destroy<destroy>>;

struct Subset {
  std::string program;
  std::vector<std::uint32_t> glyphs;  // new number for each old one, in the order asked
};

// Only the tables a PDF viewer reads.
constexpr std::array<hb_tag_t, 14> dropped{
    HB_TAG('G', 'S', 'U', 'B'), HB_TAG('G', 'P', 'O', 'S'), HB_TAG('G', 'D', 'E', 'F'),
    HB_TAG('c', 'm', 'a', 'p'), HB_TAG('n', 'a', 'm', 'e'), HB_TAG('p', 'o', 's', 't'),
    HB_TAG('O', 'S', '/', '2'), HB_TAG('S', 'T', 'A', 'T'), HB_TAG('g', 'a', 's', 'p'),
    HB_TAG('h', 'd', 'm', 'x'), HB_TAG('V', 'D', 'M', 'X'), HB_TAG('L', 'T', 'S', 'H'),
    HB_TAG('k', 'e', 'r', 'n'), HB_TAG('D', 'S', 'I', 'G')};

Subset subset(hb_face_t* face, const std::vector<std::uint32_t>& old) {
  const Owned<hb_subset_input_t, hb_subset_input_destroy> input(hb_subset_input_create_or_fail());
  if (!input) throw PdfFailure("out of memory while preparing fonts");
  for (const std::uint32_t glyph : old) hb_set_add(hb_subset_input_glyph_set(input.get()), glyph);
  hb_subset_input_set_flags(input.get(), HB_SUBSET_FLAGS_NO_HINTING);
  hb_set_t* drop = hb_subset_input_set(input.get(), HB_SUBSET_SETS_DROP_TABLE_TAG);
  for (const hb_tag_t tag : dropped) hb_set_add(drop, tag);
  const Owned<hb_subset_plan_t, hb_subset_plan_destroy> plan(
      hb_subset_plan_create_or_fail(face, input.get()));
  if (!plan) throw PdfFailure("a font cannot be reduced to the characters in use");
  const Owned<hb_face_t, hb_face_destroy> small(hb_subset_plan_execute_or_fail(plan.get()));
  if (!small) throw PdfFailure("a font cannot be reduced to the characters in use");
  const Owned<hb_blob_t, hb_blob_destroy> blob(hb_face_reference_blob(small.get()));
  unsigned length = 0;
  const char* bytes = hb_blob_get_data(blob.get(), &length);
  Subset out;
  out.program.assign(bytes, length);
  const hb_map_t* map = hb_subset_plan_old_to_new_glyph_mapping(plan.get());
  for (const std::uint32_t glyph : old) out.glyphs.push_back(hb_map_get(map, glyph));
  return out;
}

void append_hex(std::string& out, unsigned value, int digits) {
  for (int shift = 4 * (digits - 1); shift >= 0; shift -= 4)
    out += "0123456789ABCDEF"[(value >> shift) & 0xF];
}

void append_utf16_hex(std::string& out, std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_code_point(text, at);
    if (c < 0x10000) {
      append_hex(out, c, 4);
    } else {
      append_hex(out, 0xD800 + ((c - 0x10000) >> 10), 4);
      append_hex(out, 0xDC00 + ((c - 0x10000) & 0x3FF), 4);
    }
  }
}

}  // namespace

FontUse::FontUse(const canvas::FontSet& fonts, canvas::FontId font)
    : fonts_(&fonts), font_(font), glyph_count_(hb_face_get_glyph_count(fonts.face(font))) {}

FontUse::Code FontUse::code(std::uint32_t glyph, std::string_view text) {
  if (glyph == 0 || glyph >= glyph_count_) return {};
  std::vector<std::uint16_t>& known = codes_[glyph];
  for (const std::uint16_t code : known) {
    const Entry& entry = entries_[code - 1u];
    if (entry.text == text) return {code, entry.width};
  }
  if (entries_.size() >= 65534) throw PdfFailure("too many different glyphs for one font");
  const double advance = hb_font_get_glyph_h_advance(fonts_->hb_font(font_), glyph);
  const int width = static_cast<int>(std::lround(advance * 1000 / fonts_->units_per_em(font_)));
  entries_.push_back({glyph, std::string(text), width});
  known.push_back(static_cast<std::uint16_t>(entries_.size()));
  return {known.back(), width};
}

std::string FontUse::to_unicode() const {
  std::string out =
      "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
      "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
      "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
      "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
  std::vector<std::size_t> mapped;
  for (std::size_t i = 0; i < entries_.size(); ++i)
    if (!entries_[i].text.empty()) mapped.push_back(i);
  for (std::size_t at = 0; at < mapped.size(); at += 100) {
    const std::size_t end = std::min(mapped.size(), at + 100);
    out += std::to_string(end - at) + " beginbfchar\n";
    for (std::size_t i = at; i < end; ++i) {
      out += '<';
      append_hex(out, static_cast<unsigned>(mapped[i] + 1), 4);
      out += "> <";
      append_utf16_hex(out, entries_[mapped[i]].text);
      out += ">\n";
    }
    out += "endbfchar\n";
  }
  return out + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
}

HPDF_Dict FontUse::descriptor(Objects& objects, const std::string& name,
                              std::string_view program) const {
  hb_face_t* face = fonts_->face(font_);
  const double to_1000 = 1000.0 / fonts_->units_per_em(font_);
  const Owned<hb_blob_t, hb_blob_destroy> head(
      hb_face_reference_table(face, HB_TAG('h', 'e', 'a', 'd')));
  unsigned length = 0;
  const char* bytes = hb_blob_get_data(head.get(), &length);
  const HPDF_Array box = objects.array();
  for (unsigned i = 0; i < 4; ++i) {  // xMin, yMin, xMax, yMax stand at byte 36
    const unsigned at = 36 + 2 * i;
    const int value = at + 1 < length
                          ? static_cast<std::int16_t>((static_cast<unsigned char>(bytes[at]) << 8) |
                                                      static_cast<unsigned char>(bytes[at + 1]))
                          : 0;
    objects.push_number(box, std::lround(value * to_1000));
  }
  using canvas::FontId;
  const bool sans = font_ == FontId::sans || font_ == FontId::sans_bold;
  const bool bold = font_ == FontId::text_bold || font_ == FontId::sans_bold;
  const bool italic = font_ == FontId::text_italic;
  const canvas::FontMetrics& metrics = fonts_->metrics(font_);
  const HPDF_Dict out = objects.object();
  objects.set_name(out, "Type", "FontDescriptor");
  objects.set_name(out, "FontName", name);
  objects.set_number(out, "Flags", 4 | (sans ? 0 : 2) | (italic ? 64 : 0));
  objects.set(out, "FontBBox", box);
  objects.set_number(
      out, "ItalicAngle",
      std::lround(hb_style_get_value(fonts_->hb_font(font_), HB_STYLE_TAG_SLANT_ANGLE)));
  objects.set_number(out, "Ascent", std::lround(metrics.ascent * 1000));
  objects.set_number(out, "Descent", std::lround(-metrics.descent * 1000));
  objects.set_number(out, "CapHeight", std::lround(metrics.cap_height * 1000));
  objects.set_number(out, "StemV", bold ? 140 : 80);
  const HPDF_Dict file = objects.stream(program);
  objects.set_number(file, "Length1", static_cast<long>(program.size()));
  objects.set(out, "FontFile2", file);
  // One bit for each code, from 0 (no character) on: PDF/A-1 wants to know that all are there.
  std::string codes((entries_.size() + 8) / 8, '\0');
  for (std::size_t code = 0; code <= entries_.size(); ++code)
    codes[code / 8] = static_cast<char>(codes[code / 8] | (0x80 >> code % 8));
  objects.set(out, "CIDSet", objects.stream(codes));
  return out;
}

HPDF_Dict FontUse::write(Objects& objects) const {
  std::vector<std::uint32_t> glyphs;
  glyphs.reserve(entries_.size());
  for (const Entry& entry : entries_) glyphs.push_back(entry.glyph);
  const Subset small = subset(fonts_->face(font_), glyphs);

  std::string name;
  std::uint64_t tag = Hash().add(small.program).value();
  for (int i = 0; i < 6; ++i, tag /= 26) name += static_cast<char>('A' + tag % 26);
  name += '+';
  name.append(fonts_->postscript_name(font_), 0, 100);

  std::string map(2, '\0');
  for (const std::uint32_t glyph : small.glyphs) {
    map += static_cast<char>(static_cast<unsigned char>(glyph >> 8));
    map += static_cast<char>(static_cast<unsigned char>(glyph & 0xFF));
  }
  const HPDF_Array widths = objects.array();
  for (const Entry& entry : entries_) objects.push_number(widths, entry.width);
  const HPDF_Array from_one = objects.array();
  objects.push_number(from_one, 1);
  objects.push(from_one, widths);

  const HPDF_Dict system = objects.dict();
  objects.set_ascii(system, "Registry", "Adobe");
  objects.set_ascii(system, "Ordering", "Identity");
  objects.set_number(system, "Supplement", 0);

  const HPDF_Dict descendant = objects.object();
  objects.set_name(descendant, "Type", "Font");
  objects.set_name(descendant, "Subtype", "CIDFontType2");
  objects.set_name(descendant, "BaseFont", name);
  objects.set(descendant, "CIDSystemInfo", system);
  objects.set(descendant, "FontDescriptor", descriptor(objects, name, small.program));
  objects.set_number(descendant, "DW", 0);
  objects.set(descendant, "W", from_one);
  objects.set(descendant, "CIDToGIDMap", objects.stream(map));

  const HPDF_Array descendants = objects.array();
  objects.push(descendants, descendant);
  const HPDF_Dict font = objects.object();
  objects.set_name(font, "Type", "Font");
  objects.set_name(font, "Subtype", "Type0");
  objects.set_name(font, "BaseFont", name);
  objects.set_name(font, "Encoding", "Identity-H");
  objects.set(font, "DescendantFonts", descendants);
  objects.set(font, "ToUnicode", objects.stream(to_unicode()));
  return font;
}

}  // namespace dogear::pdf
