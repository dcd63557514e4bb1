#include "pdf/objects.h"

#include "base/text.h"

namespace dogear::pdf {
namespace {

void check(HPDF_STATUS status) {
  if (status != HPDF_OK)
    throw PdfFailure("the PDF writer failed with code " + std::to_string(status));
}

template <typename T>
T made(T object) {
  if (object == nullptr) throw PdfFailure("the PDF writer ran out of memory");
  return object;
}

void write_bytes(HPDF_Stream to, std::string_view bytes) {
  check(HPDF_Stream_Write(to, reinterpret_cast<const HPDF_BYTE*>(bytes.data()),
                          static_cast<HPDF_UINT>(bytes.size())));
}

// libharu names only the filters it applies itself.
HPDF_STATUS name_filter(HPDF_Dict, HPDF_Stream stream) {
  return HPDF_Stream_WriteStr(stream, "/Filter [/FlateDecode]\n");
}

// The lowest of 12: a third of the time of the next, and one part in fifty larger.
constexpr int packing = 1;

std::string utf16(std::string_view text) {
  std::string out = "\xFE\xFF";
  const auto unit = [&](char32_t u) {
    out += static_cast<char>(static_cast<unsigned char>(u >> 8));
    out += static_cast<char>(static_cast<unsigned char>(u & 0xFF));
  };
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_code_point(text, at);
    if (c < 0x10000) {
      unit(c);
    } else {
      unit(0xD800 + ((c - 0x10000) >> 10));
      unit(0xDC00 + ((c - 0x10000) & 0x3FF));
    }
  }
  return out;
}

}  // namespace

Objects::Objects()
    : packer_(made(libdeflate_alloc_compressor(packing)), &libdeflate_free_compressor),
      doc_(made(HPDF_New(nullptr, nullptr))) {
  doc_->pdf_version = HPDF_VER_17;
}

void Objects::pack_into(HPDF_Dict dict, std::string_view bytes) {
  packed_.resize(libdeflate_zlib_compress_bound(packer_.get(), bytes.size()));
  const std::size_t size = libdeflate_zlib_compress(packer_.get(), bytes.data(), bytes.size(),
                                                    packed_.data(), packed_.size());
  if (size == 0) throw PdfFailure("the PDF writer ran out of memory");
  write_bytes(dict->stream, std::string_view(packed_).substr(0, size));
  dict->filter = HPDF_STREAM_FILTER_NONE;
  dict->write_fn = name_filter;
}

Objects::~Objects() { HPDF_Free(doc_); }

HPDF_Page Objects::add_page(double width, double height, const std::string& content) {
  const HPDF_Page page = made(HPDF_AddPage(doc_));
  check(HPDF_Page_SetWidth(page, static_cast<HPDF_REAL>(width)));
  check(HPDF_Page_SetHeight(page, static_cast<HPDF_REAL>(height)));
  pack_into(static_cast<HPDF_PageAttr>(page->attr)->contents, content);
  return page;
}

HPDF_Dict Objects::dict() { return made(HPDF_Dict_New(doc_->mmgr)); }

HPDF_Dict Objects::object() {
  const HPDF_Dict out = dict();
  check(HPDF_Xref_Add(doc_->xref, out));
  return out;
}

HPDF_Array Objects::array() { return made(HPDF_Array_New(doc_->mmgr)); }

HPDF_Dict Objects::stream(std::string_view bytes) {
  const HPDF_Dict out = made(HPDF_DictStream_New(doc_->mmgr, doc_->xref));
  pack_into(out, bytes);
  return out;
}

HPDF_Dict Objects::plain_stream(std::string_view bytes) {
  const HPDF_Dict out = made(HPDF_DictStream_New(doc_->mmgr, doc_->xref));
  out->filter = HPDF_STREAM_FILTER_NONE;
  write_bytes(out->stream, bytes);
  return out;
}

void* Objects::binary(std::string_view bytes) {
  if (bytes.size() > 65535) throw PdfFailure("a text is too long for a PDF file");
  std::string copy(bytes);  // the interface takes bytes it may change
  return made(HPDF_Binary_New(doc_->mmgr, reinterpret_cast<HPDF_BYTE*>(copy.data()),
                              static_cast<HPDF_UINT>(copy.size())));
}

void Objects::set(HPDF_Dict to, const char* key, void* value) {
  check(HPDF_Dict_Add(to, key, made(value)));
}

void Objects::set_name(HPDF_Dict to, const char* key, const std::string& value) {
  check(HPDF_Dict_AddName(to, key, value.c_str()));
}

void Objects::set_number(HPDF_Dict to, const char* key, long value) {
  check(HPDF_Dict_AddNumber(to, key, static_cast<HPDF_INT32>(value)));
}

void Objects::set_real(HPDF_Dict to, const char* key, double value) {
  check(HPDF_Dict_AddReal(to, key, static_cast<HPDF_REAL>(value)));
}

void Objects::set_true(HPDF_Dict to, const char* key) {
  check(HPDF_Dict_AddBoolean(to, key, HPDF_TRUE));
}

void Objects::set_text(HPDF_Dict to, const char* key, std::string_view utf8) {
  set(to, key, binary(utf16(utf8)));
}

void Objects::set_ascii(HPDF_Dict to, const char* key, const std::string& value) {
  set(to, key, made(HPDF_String_New(doc_->mmgr, value.c_str(), nullptr)));
}

void Objects::set_bytes(HPDF_Dict to, const char* key, std::string_view value) {
  set(to, key, binary(value));
}

void Objects::push(HPDF_Array to, void* value) { check(HPDF_Array_Add(to, made(value))); }

void Objects::push_name(HPDF_Array to, const std::string& value) {
  check(HPDF_Array_AddName(to, value.c_str()));
}

void Objects::push_number(HPDF_Array to, long value) {
  check(HPDF_Array_AddNumber(to, static_cast<HPDF_INT32>(value)));
}

void Objects::push_real(HPDF_Array to, double value) {
  check(HPDF_Array_AddReal(to, static_cast<HPDF_REAL>(value)));
}

void Objects::push_bytes(HPDF_Array to, std::string_view value) { push(to, binary(value)); }

HPDF_Array Objects::reals(std::initializer_list<double> values) {
  const HPDF_Array out = array();
  for (const double v : values) push_real(out, v);
  return out;
}

std::string Objects::save() {
  check(HPDF_GetError(doc_));
  check(HPDF_SaveToStream(doc_));
  const HPDF_UINT32 size = HPDF_GetStreamSize(doc_);
  check(HPDF_ResetStream(doc_));
  std::string out(size, '\0');
  HPDF_UINT32 read = 0;
  while (read < size) {
    HPDF_UINT32 part = size - read;
    const HPDF_STATUS status =
        HPDF_ReadFromStream(doc_, reinterpret_cast<HPDF_BYTE*>(out.data()) + read, &part);
    read += part;
    if (part == 0 || (status != HPDF_OK && status != HPDF_STREAM_EOF)) break;
  }
  if (read != size) throw PdfFailure("the PDF writer lost part of the file");
  return out;
}

}  // namespace dogear::pdf
