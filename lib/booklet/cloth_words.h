#pragma once
// Cloth in the booklet's words: what is bought, and what is cut from what.

#include <string>
#include <vector>

#include "booklet/writer.h"
#include "drawing/layouts.h"

namespace dogear::booklet {

// "3 fat quarters of 18 in × 21 in", "2 squares of 10 in", "1 scrap of 9 in × 14 in".
std::string sheets_words(const Writer& w, const ClothSource& source, long long count);
// "fat quarter 2", "fat quarters 1 to 3": sheets by their numbers.
std::string numbered_sheets(const Writer& w, const ClothSource& source, const ClothLayout& layout);

// All that is bought of a fabric: "1⅛ yd", "2 fat quarters of 18 in × 21 in and ½ yd", "" where all
// of it is in a bundle. Without measures where they have no room.
std::string bought_words(const Writer& w, const FabricNeed& need, bool measures = true);

// What a part of a layout is cut from: "2½ in × WOF", "4½ in from fat quarter 1".
std::string strip_words(const Writer& w, const ClothLayout& layout, const ClothLayout::Part& part,
                        bool across);
// What comes from a strip, from the left: "16 A3", "2 rows of 9 B3 (cut down to 1½ in)".
std::string runs_words(const Writer& w, const StripPlan& plan);
// What is left of a strip, largest first: "5½ in", "1 × 30 in"; a dash where nothing is.
std::string strip_rest_words(const Writer& writer, const StripPlan& plan);

// What a fabric leaves, largest first and small ends by number: "1 whole strip; 2½ × 16¼ in; 2 A3".
std::string leftover_words(const Writer& w, const FabricNeed& need);

// "8 A3", "¾ yd (70 cm)".
std::string number_of_pieces(const Writer& w, long long n, PieceId piece);
std::string yards_and_metric(const Writer& w, const Fraction& yards, long long centimetres);

// By the fabrics' numbers; they are planned in order of use.
std::vector<const FabricNeed*> needs_by_number(const SizeQuantities& quantities);

// "3 yd (270 cm), for a backing of 53 in × 56 in", "At least 53 in × 56 in".
std::string backing_words(const Writer& w, const Backing& backing);
std::string batting_words(const Writer& w, const Batting& batting);

}  // namespace dogear::booklet
