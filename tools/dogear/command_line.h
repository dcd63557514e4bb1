#pragma once
// All commands, their options and words, as one table: it is read by the parser, the help, the
// manual page and the completion.

#include <CLI/CLI.hpp>

#include "commands.h"

namespace dogear {

using Command = int (*)(const Arguments&);

// Parsing fills `arguments` and `chosen`; both must outlive `app`.
void define_commands(CLI::App& app, Arguments& arguments, Command& chosen);

}  // namespace dogear
