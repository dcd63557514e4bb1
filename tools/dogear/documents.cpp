#include "documents.h"

#include <algorithm>

#include "base/text.h"
#include "invocation.h"

namespace dogear {

namespace {

struct Option {
  std::vector<std::string> names;  // "-o", "--output"; none for what is known by its place
  std::string value;               // "FOLDER"; empty for a flag
  std::vector<std::string> choices;
  std::string words;
  bool needed = false, many = false;
};

struct CommandWords {
  std::string name, words;
  std::vector<Option> places, options;
};

Option option_of(const CLI::Option& o) {
  Option out;
  for (const std::string& name : o.get_snames()) out.names.push_back("-" + name);
  for (const std::string& name : o.get_lnames()) out.names.push_back("--" + name);
  out.words = o.get_description();
  out.needed = o.get_required();
  out.many = o.get_items_expected_max() > 1;
  if (!o.nonpositional()) {
    out.value = o.get_name(true);
    return out;
  }
  if (o.get_items_expected_max() == 0) return out;
  // "TEXT:{pdf,html,listing}" where it is one of some words.
  const std::string type = o.get_type_name();
  const auto open = type.find('{'), close = type.find('}');
  out.value = type.substr(0, type.find(':'));
  if (open != std::string::npos && close != std::string::npos) {
    out.choices = split(type.substr(open + 1, close - open - 1), ',');
    out.value = join(out.choices, "|");
  }
  return out;
}

CommandWords words_of(const CLI::App& app) {
  CommandWords out{app.get_name(), app.get_description(), {}, {}};
  for (const CLI::Option* o : app.get_options())
    (o->nonpositional() ? out.options : out.places).push_back(option_of(*o));
  return out;
}

std::vector<CommandWords> commands_of(const CLI::App& app) {
  std::vector<CommandWords> out;
  for (const CLI::App* sub : app.get_subcommands(std::function<bool(const CLI::App*)>()))
    out.push_back(words_of(*sub));
  return out;
}

std::vector<std::string> names_of(const std::vector<CommandWords>& commands) {
  std::vector<std::string> names;
  for (const CommandWords& c : commands) names.push_back(c.name);
  return names;
}

// Text of a line of roff: hyphens of options stay hyphens, and no line is taken for a request.
std::string roff(const std::string& text) {
  std::string out = text.empty() || text[0] == '.' || text[0] == '\'' ? "\\&" : "";
  for (const char c : text) {
    if (c == '\\') {
      out += "\\e";
    } else if (c == '-') {
      out += "\\-";
    } else {
      out += c == '\n' ? ' ' : c;
    }
  }
  return out;
}

std::string roff_names(const Option& o) {
  std::string out;
  for (const std::string& name : o.names)
    out += (out.empty() ? "" : ", ") + ("\\fB" + roff(name) + "\\fR");
  if (!o.value.empty()) out += (out.empty() ? "" : " ") + ("\\fI" + roff(o.value) + "\\fR");
  return out;
}

std::string roff_options(const std::vector<Option>& options) {
  std::string out;
  for (const Option& o : options) out += ".TP\n" + roff_names(o) + "\n" + roff(o.words) + "\n";
  return out;
}

}  // namespace

std::string man_page(const CLI::App& app) {
  const CommandWords whole = words_of(app);
  std::string out = ".TH DOGEAR 1 \"\" \"dogear " DOGEAR_VERSION "\" \"User Commands\"\n.ad l\n";
  out += ".SH NAME\ndogear \\- compiles a quilt pattern into a checked, typeset booklet\n";
  out += ".SH SYNOPSIS\n";
  const auto commands = commands_of(app);
  for (const CommandWords& c : commands) {
    out += ".B dogear " + roff(c.name) + "\n";
    for (const Option& place : c.places) {
      const std::string name = "\\fI" + roff(place.value) + "\\fR" + (place.many ? " ..." : "");
      out += (place.needed ? name : "[" + name + "]") + "\n";
    }
    if (c.options.size() > 1) out += "[options]\n";  // besides that for help
    out += ".br\n";
  }
  out += ".SH DESCRIPTION\n";
  out +=
      "A pattern is a folder: pattern.yaml, one file a block in blocks/, words in prose/. dogear\n"
      "proves that the patches fit, finds the order of sewing, works out cuts and cloth, draws "
      "every\n"
      "step and typesets a booklet for each size. The manual lies in\n.IR " +
      std::string(DOGEAR_MANUAL) + " .\n";
  out += ".SH OPTIONS\n" + roff_options(whole.options);
  out += ".SH COMMANDS\n";
  for (const CommandWords& c : commands) {
    out += ".SS dogear " + roff(c.name) + "\n" + roff(c.words) + ".\n";
    out += roff_options(c.places) + roff_options(c.options);
  }
  out += ".SH EXIT STATUS\n" + roff(app.get_footer()) + "\n";
  out +=
      ".SH ENVIRONMENT\n.TP\nSOURCE_DATE_EPOCH\nSeconds since 1970: the date written into PDF "
      "files, which have none without it.\n.TP\nNO_COLOR\nMessages are printed without colour.\n";
  return out;
}

namespace {

std::string quoted_words(const std::vector<std::string>& words) {
  return "'" + join(words, " ") + "'";
}

std::vector<std::string> option_names(const CommandWords& c) {
  std::vector<std::string> names;
  for (const Option& o : c.options) names.insert(names.end(), o.names.begin(), o.names.end());
  return names;
}

std::string for_bash(const std::vector<CommandWords>& commands) {
  std::string out =
      "# Completion of dogear for bash.\n"
      "_dogear() {\n"
      "  local now=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n"
      "  local words=\n"
      "  COMPREPLY=()\n"
      "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
      "    COMPREPLY=($(compgen -W " +
      quoted_words(names_of(commands)) +
      " -- \"$now\"))\n"
      "    return\n"
      "  fi\n"
      "  case ${COMP_WORDS[1]}:$before in\n"
      "    *:--size) words=$(dogear sizes \"${COMP_WORDS[2]}\" 2>/dev/null) ;;\n";
  for (const CommandWords& c : commands) {
    for (const Option& o : c.options) {
      if (o.choices.empty()) continue;
      for (const std::string& name : o.names)
        out += "    " + c.name + ":" + name + ") words=" + quoted_words(o.choices) + " ;;\n";
    }
  }
  out +=
      "  esac\n"
      "  if [ -z \"$words\" ] && [ \"${now#-}\" != \"$now\" ]; then\n"
      "    case ${COMP_WORDS[1]} in\n";
  for (const CommandWords& c : commands)
    out += "      " + c.name + ") words=" + quoted_words(option_names(c)) + " ;;\n";
  out +=
      "    esac\n"
      "  fi\n"
      "  if [ -n \"$words\" ]; then\n"
      "    COMPREPLY=($(compgen -W \"$words\" -- \"$now\"))\n"
      "  else\n"
      "    compopt -o filenames 2>/dev/null\n"
      "    local IFS=$'\\n'\n"
      "    COMPREPLY=($(compgen -f -- \"$now\"))\n"
      "  fi\n"
      "}\n"
      "complete -F _dogear dogear\n";
  return out;
}

// Within single quotes; what zsh would read in a description is left out.
std::string zsh_text(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\'') {
      out += "'\\''";
    } else if (c == '[' || c == ']' || c == ':') {
      out += '\\';
      out += c;
    } else {
      out += c;
    }
  }
  return out;
}

std::string for_zsh(const std::vector<CommandWords>& commands) {
  std::string out =
      "#compdef dogear\n"
      "# Completion of dogear for zsh.\n"
      "_dogear_sizes() { compadd -- ${(f)\"$(dogear sizes \"${words[2]}\" 2>/dev/null)\"} }\n"
      "_dogear() {\n"
      "  local -a commands\n"
      "  commands=(\n";
  for (const CommandWords& c : commands) out += "    '" + c.name + ":" + zsh_text(c.words) + "'\n";
  out +=
      "  )\n"
      "  if (( CURRENT == 2 )); then\n"
      "    _describe command commands\n"
      "    return\n"
      "  fi\n"
      "  shift words\n"
      "  (( CURRENT-- ))\n"
      "  case ${words[1]} in\n";
  for (const CommandWords& c : commands) {
    out += "    " + c.name + ")\n      _arguments";
    for (const Option& o : c.options) {
      for (const std::string& name : o.names) {
        out += " \\\n        '" + name + "[" + zsh_text(o.words) + "]";
        if (name == "--size") {
          out += ":name:_dogear_sizes";
        } else if (!o.choices.empty()) {
          out += ":word:(" + join(o.choices, " ") + ")";
        } else if (!o.value.empty()) {
          out += ":" + zsh_text(o.value) + ":_files";
        }
        out += "'";
      }
    }
    out += " \\\n        '*:file:_files'\n      ;;\n";
  }
  return out + "  esac\n}\n_dogear \"$@\"\n";
}

std::string fish_text(const std::string& text) {
  std::string out = "'";
  for (const char c : text) {
    if (c == '\'' || c == '\\') out += '\\';
    out += c;
  }
  return out + "'";
}

std::string for_fish(const std::vector<CommandWords>& commands) {
  std::string out = "# Completion of dogear for fish.\n";
  for (const CommandWords& c : commands)
    out += "complete -c dogear -f -n __fish_use_subcommand -a " + c.name + " -d " +
           fish_text(c.words) + "\n";
  for (const CommandWords& c : commands) {
    for (const Option& o : c.options) {
      out += "complete -c dogear -n '__fish_seen_subcommand_from " + c.name + "'";
      for (const std::string& name : o.names)
        out += starts_with(name, "--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
      if (std::find(o.names.begin(), o.names.end(), "--size") != o.names.end()) {
        out += " -x -a '(dogear sizes (commandline -opc)[3] 2>/dev/null)'";
      } else if (!o.choices.empty()) {
        out += " -x -a '" + join(o.choices, " ") + "'";
      } else if (!o.value.empty()) {
        out += " -r";
      }
      out += " -d " + fish_text(o.words) + "\n";
    }
  }
  return out;
}

int print_document(const Arguments& arguments,
                   std::string (*make)(const CLI::App&, std::string_view)) {
  CLI::App app("", "dogear");
  Arguments unused;
  Command none = nullptr;
  define_commands(app, unused, none);
  Invocation run(arguments);
  return run.deliver(make(app, arguments.code));
}

}  // namespace

std::string completion_script(const CLI::App& app, std::string_view shell) {
  const auto commands = commands_of(app);
  return shell == "bash"  ? for_bash(commands)
         : shell == "zsh" ? for_zsh(commands)
                          : for_fish(commands);
}

int run_man(const Arguments& arguments) {
  return print_document(arguments,
                        [](const CLI::App& app, std::string_view) { return man_page(app); });
}

int run_completion(const Arguments& arguments) {
  return print_document(arguments, completion_script);
}

}  // namespace dogear
