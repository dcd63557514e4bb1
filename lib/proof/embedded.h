#pragma once
// The texts of proof.css and live.js as they were when the program was built.

#include <map>
#include <string>

namespace dogear {

const std::map<std::string, std::string>& proof_files();  // by name

}  // namespace dogear
