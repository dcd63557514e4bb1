#pragma once
#include <catch2/catch.hpp>
#include <string>

#include "model/shapes.h"

namespace dogear::test {

// A shape by its trade name, on a grid of 1 in.
inline Polygon shape(const std::string& words, GridKind grid) {
  Node node;
  node.kind = Node::Kind::scalar;
  node.text = words;
  Diagnostics d;
  const auto found = read_shape(node, grid, Exact(1), d);
  REQUIRE(found);
  return found->outline;
}

}  // namespace dogear::test
