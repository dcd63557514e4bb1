#pragma once
// The first pattern of a designer who starts: the texts of start/, built into the program.

#include <map>
#include <string>

namespace dogear {

// By path within the pattern's folder; {{title}} stands where its title goes.
const std::map<std::string, std::string>& start_files();

}  // namespace dogear
