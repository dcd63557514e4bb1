// dogear: arguments in, exit codes out.

#include <cstdio>
#include <exception>

#include "command_line.h"

namespace {

int run(int argc, char** argv) {
  using namespace dogear;
  CLI::App app("Compiles a quilt pattern into a checked, typeset booklet.", "dogear");
  Arguments arguments;
  Command chosen = nullptr;
  define_commands(app, arguments, chosen);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? fine : wrong_usage;
  }
  return chosen(arguments);
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const std::exception& error) {
    std::fputs("dogear: this should not have happened: ", stderr);
    std::fputs(error.what(), stderr);
    std::fputs("\n", stderr);
    return dogear::no_access;
  }
}
