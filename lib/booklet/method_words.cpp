// How a batch of ready-made units is sewn, in words.

#include <algorithm>

#include "base/length.h"
#include "booklet/writer.h"
#include "drawing/method.h"

namespace dogear::booklet {
namespace {

class Method {
 public:
  Method(const Writer& writer, UnitId id)
      : w_(writer), id_(id), unit_(writer.scene.piecing.units[id]), batch_(*unit_.batch) {}

  std::string sentence() const {
    const std::size_t marked = drawing::marked_piece(w_.scene, unit_);
    switch (batch_.method) {
      case dogear::Method::one_at_a_time:
        break;
      case dogear::Method::two_at_a_time:
        return say(batch_.kind == ReadyMade::quarter_square ? "method crossed" : "method two",
                   marked);
      case dogear::Method::eight_at_a_time:
        return say("method eight", marked);
      case dogear::Method::four_at_a_time:
        return say("method four", 1);
      case dogear::Method::stitched_corners:
        return stitched();
    }
    return {};
  }

 private:
  std::string label(std::size_t take) const {
    return w_.scene.piecing.pieces[batch_.takes[take].piece].label(w_.pattern());
  }

  std::string seam() const {
    return w_.said("seam-allowance",
                   w_.words.inches(w_.pattern().seam_allowance.round_nearest(16)));
  }

  std::string say(std::string_view key, std::size_t marked) const {
    return w_.words(key, {{"marked", label(marked)},
                          {"other", label(1 - marked)},
                          {"seam", seam()},
                          {"n", w_.words.number(batch_.yield)},
                          {"units", unit_noun(w_, id_, {}, NounForm::many)}});
  }

  std::string stitched() const {
    std::vector<std::string> squares;
    long long all = 0;
    for (std::size_t i = 1; i < batch_.takes.size(); ++i) {
      squares.push_back(w_.words(
          "count of piece", {{"n", w_.words.number(batch_.takes[i].count)}, {"piece", label(i)}}));
      all += batch_.takes[i].count;
    }
    const bool geese = batch_.kind == ReadyMade::flying_geese;
    return w_.words(geese      ? "method stitched geese"
                    : all == 1 ? "method stitched one"
                               : "method stitched",
                    {{"squares", w_.words.list(squares)}, {"base", label(0)}, {"seam", seam()}});
  }

  const Writer& w_;
  UnitId id_;
  const SewnUnit& unit_;
  const SewnBatch& batch_;
};

}  // namespace

std::string batch_sentence(const Writer& writer, UnitId unit, const std::string& owner) {
  const std::string how = Method(writer, unit).sentence();
  const BatchCount* b = batches_of(writer.quantities(), unit);
  if (b == nullptr || b->batches < 2 || writer.scene.piecing.units[unit].batch->yield < 2)
    return how;
  const std::string n = writer.said_number("batch." + owner + ".batches", b->batches);
  return how + " " +
         (b->batches == 2 && !writer.drafting ? writer.words("rounds twice")
                                              : writer.words("rounds", {{"n", n}}));
}

std::string batch_make(const Writer& writer, UnitId unit, const std::string& owner) {
  const BatchCount* b = batches_of(writer.quantities(), unit);
  if (b == nullptr) return {};
  const std::string batch = "batch." + owner;
  const std::string n = writer.said(batch + ".made", std::to_string(b->made()));
  if (b->extra == 0) return writer.words("make", {{"n", n}});
  return writer.words(b->extra == 1 ? "make one extra" : "make extra",
                      {{"n", n}, {"extra", writer.said_number(batch + ".extra", b->extra)}});
}

}  // namespace dogear::booklet
