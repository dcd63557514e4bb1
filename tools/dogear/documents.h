#pragma once
// What is written from the table of commands for other programs: for man and for shells.

#include <string>
#include <string_view>

#include "command_line.h"

namespace dogear {

std::string man_page(const CLI::App& app);
// For "bash", "zsh" or "fish". Names of sizes are asked of the pattern that is named before them.
std::string completion_script(const CLI::App& app, std::string_view shell);

int run_man(const Arguments& arguments);
int run_completion(const Arguments& arguments);

}  // namespace dogear
