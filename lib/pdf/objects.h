#pragma once
// libharu as a writer of objects: each call either works or throws PdfFailure, which to_pdf
// catches.

#include <hpdf.h>
#include <libdeflate.h>

#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

namespace dogear::pdf {

struct PdfFailure : std::runtime_error {
  using std::runtime_error::runtime_error;
};

class Objects {
 public:
  Objects();
  ~Objects();
  Objects(const Objects&) = delete;
  Objects& operator=(const Objects&) = delete;

  HPDF_Doc doc() const { return doc_; }
  HPDF_Dict catalog() const { return doc_->catalog; }
  HPDF_Page add_page(double width, double height, const std::string& content);

  HPDF_Dict dict();    // written where it is put
  HPDF_Dict object();  // with a number of its own; may be referred to from many places
  HPDF_Array array();
  HPDF_Dict stream(std::string_view bytes);        // an object, compressed
  HPDF_Dict plain_stream(std::string_view bytes);  // as they are

  void set(HPDF_Dict to, const char* key, void* value);
  void set_name(HPDF_Dict to, const char* key, const std::string& value);
  void set_number(HPDF_Dict to, const char* key, long value);
  void set_real(HPDF_Dict to, const char* key, double value);
  void set_true(HPDF_Dict to, const char* key);
  void set_text(HPDF_Dict to, const char* key, std::string_view utf8);
  void set_ascii(HPDF_Dict to, const char* key, const std::string& value);
  void set_bytes(HPDF_Dict to, const char* key, std::string_view value);

  void push(HPDF_Array to, void* value);
  void push_name(HPDF_Array to, const std::string& value);
  void push_number(HPDF_Array to, long value);
  void push_real(HPDF_Array to, double value);
  void push_bytes(HPDF_Array to, std::string_view value);
  HPDF_Array reals(std::initializer_list<double> values);

  std::string save();

 private:
  void* binary(std::string_view bytes);
  void pack_into(HPDF_Dict dict, std::string_view bytes);
  std::unique_ptr<libdeflate_compressor, decltype(&libdeflate_free_compressor)> packer_;
  HPDF_Doc doc_;
  std::string packed_;  // room for the stream being packed
};

}  // namespace dogear::pdf
