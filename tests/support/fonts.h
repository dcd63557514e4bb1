#pragma once
// The fonts every test of this folder shares, loaded once.

#include <catch2/catch.hpp>

#include "base/files.h"
#include "canvas/font.h"

inline const dogear::canvas::FontSet& test_fonts() {
  static const dogear::canvas::FontSet fonts = [] {
    std::string error;
    auto loaded = dogear::canvas::FontSet::load(dogear::DiskFiles{},
                                                dogear::canvas::FontPaths::debian(), error);
    INFO(error);
    REQUIRE(loaded);
    return std::move(*loaded);
  }();
  return fonts;
}
