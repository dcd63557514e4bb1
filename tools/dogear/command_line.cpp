#include "command_line.h"

#include "base/length.h"
#include "documents.h"

namespace dogear {

namespace {

// A word of the command line as inches, none more than `most`.
double inches(const std::string& text, double most) {
  LengthError error;
  const auto length = parse_length(text, error);
  if (!length) throw CLI::ValidationError(text, error.message);
  const double value = length->inches.approx();
  if (value < 0 || value > most)
    throw CLI::ValidationError(text, "it is not between 0 and " + decimal(most, 2) + " in");
  return value;
}

constexpr const char* exit_codes =
    "Exit codes: 0 all is well, 1 the pattern has errors, 2 the command is wrong,\n"
    "3 a file could not be read or written. Of `compare`: 0 the same, 1 they differ,\n"
    "3 a side could not be read or has errors.";

}  // namespace

void define_commands(CLI::App& app, Arguments& arguments, Command& chosen) {
  app.description("Compiles a quilt pattern into a checked, typeset booklet.");
  app.set_version_flag("--version", "dogear " DOGEAR_VERSION);
  app.footer(exit_codes);
  app.require_subcommand(1);

  const auto command = [&](const char* name, const char* words, int (*what)(const Arguments&)) {
    CLI::App* sub = app.add_subcommand(name, words);
    sub->add_option("DIR", arguments.folder, "The pattern's folder, with its pattern.yaml")
        ->required();
    sub->callback([&chosen, what] { chosen = what; });
    return sub;
  };
  const auto size_option = [&](CLI::App* sub, const char* words) {
    return sub->add_option("--size", arguments.size, words)->type_name("NAME");
  };
  const auto paper_option = [&](CLI::App* sub) {
    sub->add_option(
           "--paper", arguments.paper,
           "letter, a4, half-letter, a5 or a template of your own (a .yaml file); otherwise the "
           "pattern's")
        ->type_name("PAPER");
  };

  const auto output_option = [&](CLI::App* sub) {
    sub->add_option("-o,--output", arguments.out, "File to write; otherwise standard output")
        ->type_name("FILE");
  };

  CLI::App* start = app.add_subcommand(
      "start", "Write a small whole pattern into a new folder, to change into your own");
  start->add_option("DIR", arguments.folder, "A folder that is not there yet, or empty")
      ->required();
  start->callback([&chosen] { chosen = run_start; });

  CLI::App* check =
      command("check", "Tell what is wrong with a pattern; writes nothing", run_check);
  size_option(check, "Set the pages of this size only");
  paper_option(check);
  check->add_option("--as", arguments.as, "Print messages for people, or all on standard output")
      ->check(CLI::IsMember({"text", "json", "sarif"}))
      ->capture_default_str();

  CLI::App* build = app.add_subcommand("build", "Write the booklet of every size as a PDF");
  build->add_option("DIR", arguments.folders, "Folders of patterns, each with its pattern.yaml")
      ->required();
  build->callback([&chosen] { chosen = run_build; });
  size_option(build, "Write this size only");
  build
      ->add_option("--as", arguments.form,
                   "pdf; html: all sizes in one page for a screen; listing: the text and the cover "
                   "picture of a shop's page")
      ->check(CLI::IsMember({"pdf", "html", "listing"}))
      ->capture_default_str();
  build
      ->add_option("-o,--output", arguments.out, "Folder to write to; otherwise the one you are in")
      ->type_name("FOLDER");
  paper_option(build);
  build
      ->add_option("--depfile", arguments.depfile,
                   "Also write what the outputs depend on, for make")
      ->type_name("FILE");
  build->add_flag("--grey", arguments.grey, "Turn every colour into grey; writes NAME-grey.pdf");
  build
      ->add_option("--threads", arguments.threads,
                   "How many threads work at once; otherwise as many as there are processors")
      ->type_name("N")
      ->check(CLI::Range(1, 256));
  CLI::Option* imposed =
      build->add_flag("--imposed", arguments.imposed,
                      "Also write NAME-imposed.pdf: sheets to print on both sides, flipped on the "
                      "short edge, to fold and staple");
  build
      ->add_option_function<std::string>(
          "--bleed", [&](const std::string& text) { arguments.bleed = inches(text, 1); },
          "How far ink may reach beyond the trimmed edge, as \"1/8 in\"")
      ->type_name("LENGTH");
  build
      ->add_option_function<std::string>(
          "--paper-thickness",
          [&](const std::string& text) { arguments.thickness = inches(text, 0.05); },
          "With --imposed: pages of inner sheets move to the fold by this much a sheet; otherwise "
          "0.004 in")
      ->type_name("LENGTH")
      ->needs(imposed);

  CLI::App* outline = command(
      "outline",
      "Write a first draft of the instructions into prose/, or tell what has changed in it since",
      run_outline);
  outline->add_flag("--renew", arguments.renew,
                    "Take what has changed as the draft from now on; your words stay as they are");

  CLI::App* proof = command(
      "proof", "Write a web page of what changed: figures, pages and quantities, before and after",
      run_proof);
  proof->add_option("--against", arguments.against, "The git revision to compare with")
      ->type_name("REV")
      ->capture_default_str();
  output_option(proof);

  CLI::App* watch = command(
      "watch", "Show the pattern in a browser of this machine, and show it anew when it is saved",
      run_watch);
  watch->add_option("--port", arguments.port, "Port to listen on; otherwise one that is free")
      ->check(CLI::Range(1, 65535))
      ->type_name("N");

  CLI::App* quantities = command("quantities", "Print what is cut and bought", run_quantities);
  CLI::Option* size = size_option(quantities, "Print this size only");
  CLI::Option* as = quantities->add_option("--as", arguments.as, "How to print")
                        ->check(CLI::IsMember({"text", "csv", "json", "markdown"}))
                        ->capture_default_str();
  CLI::Option* ledger =
      quantities
          ->add_flag("--ledger", arguments.ledger,
                     "Instead write every size's quantities to DIR/quantities.txt")
          ->excludes(as)
          ->excludes(size);
  std::vector<CLI::Option*> lists;
  const auto list = [&](CLI::Option* option) {
    option->excludes(ledger);
    for (CLI::Option* other : lists) option->excludes(other);
    lists.push_back(option);
  };
  const auto list_flag = [&](const char* flag, const char* name, const char* words) {
    list(quantities->add_flag_callback(
        flag, [&arguments, name] { arguments.list = name; }, words));
  };
  list_flag("--shopping", "shopping", "Instead print what to buy, to take along");
  list(quantities
           ->add_option_function<std::string>(
               "--kit",
               [&arguments](const std::string& kits) {
                 arguments.list = "kit";
                 arguments.kits = kits;
               },
               "Instead print how so many kits are cut from bolts, and what goes into each box: "
               "12, or lap=12,wall=6")
           ->type_name("N"));
  list_flag("--step-outs", "step-outs",
            "Instead print the samples of a class, one frozen at each step, and their cloth");
  list_flag("--schedule", "schedule",
            "Instead print what is made, cut and bought in each month of the schedule");
  list_flag("--leftovers", "leftovers",
            "Instead print what is left of the cloth, and the filler blocks that it gives");

  CLI::App* draw = command("draw", "Write one figure as SVG", run_draw);
  draw->add_option("FIGURE", arguments.figure, "Its address, such as block/star")->required();
  size_option(draw, "Draw it for this size; otherwise for the first");
  output_option(draw);

  command("sizes", "Print the names of the pattern's sizes, one a line", run_sizes);

  CLI::App* compare =
      app.add_subcommand("compare", "Tell what changed in what is bought, cut and sewn");
  compare
      ->add_option("OLD", arguments.folder,
                   "A pattern's folder, a ledger, or REV:path of a git revision")
      ->required();
  compare->add_option("NEW", arguments.other, "What it is compared with")->required();
  compare
      ->add_option("--as", arguments.as,
                   "How to print; errata: the list for pattern.yaml that tells buyers of OLD")
      ->check(CLI::IsMember({"text", "markdown", "json", "errata"}))
      ->capture_default_str();
  compare->callback([&chosen] { chosen = run_compare; });

  CLI::App* lines = app.add_subcommand(
      "lines", "Print a ledger or a YAML file as lines that say their place, for `git diff`");
  lines->add_option("FILE", arguments.folder, "quantities.txt, pattern.yaml, ...")->required();
  lines->callback([&chosen] { chosen = run_lines; });

  CLI::App* explain = app.add_subcommand("explain", "Tell what a message's code means");
  CLI::Option* code =
      explain->add_option("CODE", arguments.code, "Such as D204; otherwise list all");
  explain->add_option("--as", arguments.as, "markdown: the page of the manual, with every code")
      ->check(CLI::IsMember({"text", "markdown"}))
      ->capture_default_str()
      ->excludes(code);
  explain->callback([&chosen] { chosen = run_explain; });

  CLI::App* schema =
      app.add_subcommand("schema", "Print the JSON Schema of a kind of source file, for editors");
  CLI::Option* kind = schema->add_option("KIND", arguments.kind,
                                         "pattern, block, template or words; otherwise list them");
  schema->add_option("--as", arguments.as, "markdown: the page of the manual, with every key")
      ->check(CLI::IsMember({"text", "markdown"}))
      ->capture_default_str()
      ->excludes(kind);
  schema->callback([&chosen] { chosen = run_schema; });

  CLI::App* completion =
      app.add_subcommand("completion", "Print a script that completes words on the command line");
  completion->add_option("SHELL", arguments.code, "bash, zsh or fish")
      ->required()
      ->check(CLI::IsMember({"bash", "zsh", "fish"}));
  output_option(completion);
  completion->callback([&chosen] { chosen = run_completion; });

  CLI::App* man = app.add_subcommand("man", "Print the manual page dogear(1), for man");
  output_option(man);
  man->callback([&chosen] { chosen = run_man; });
}

}  // namespace dogear
