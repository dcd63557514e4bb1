// dogear: arguments in, exit codes out.

#include <algorithm>
#include <cstdio>
#include <exception>

#include "base/text.h"
#include "command_line.h"

namespace {

// Says so where the first word is no command; options are the parser's.
bool is_command(const CLI::App& app, const std::string& word) {
  std::vector<std::string> names;
  for (const CLI::App* sub : app.get_subcommands(std::function<bool(const CLI::App*)>()))
    names.push_back(sub->get_name());
  if (word.empty() || word[0] == '-' || std::find(names.begin(), names.end(), word) != names.end())
    return true;
  const std::string near = dogear::nearest(word, names);
  std::fputs(("dogear: there is no command `" + word + "`; " +
              (near.empty() ? "`dogear --help` lists them" : "did you mean `" + near + "`?") + '\n')
                 .c_str(),
             stderr);
  return false;
}

int run(int argc, char** argv) {
  using namespace dogear;
  CLI::App app("", "dogear");
  Arguments arguments;
  Command chosen = nullptr;
  define_commands(app, arguments, chosen);
  if (argc < 2) {
    std::fputs(
        "dogear: what shall it do? `dogear start DIR` writes a first pattern, `dogear check DIR`\n"
        "checks one, `dogear build DIR` writes its booklets; `dogear --help` lists all commands\n",
        stderr);
    return wrong_usage;
  }
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    if (argc > 1 && error.get_exit_code() != 0 && !is_command(app, argv[1])) return wrong_usage;
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
