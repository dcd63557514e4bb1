#pragma once
// The commands of the program: real files, printing and exit codes around lib/compile.

#include <string>
#include <vector>

namespace dogear {

enum ExitCode { fine = 0, faulty_pattern = 1, differs = 1, wrong_usage = 2, no_access = 3 };

struct Arguments {
  std::string folder;                // compare: the old side; lines: the file
  std::vector<std::string> folders;  // build: one or more
  std::size_t threads = 0;           // build; 0: as many as there are processors
  std::string other;                 // compare: the new side
  std::string size;                  // empty: every size
  std::string paper;                 // empty: the pattern's own
  std::string out;                   // folder of `build`, file of `draw`
  std::string depfile;               // build
  std::string form = "pdf";          // build: pdf, html or listing
  bool grey = false;                 // build
  bool imposed = false;              // build
  double bleed = 0;                  // build, in inches
  double thickness = 0.004;          // build: of the paper, in inches
  std::string as = "text";           // quantities, check, explain, compare
  bool ledger = false;               // quantities
  std::string list;    // quantities: "shopping", "kit", ...; empty: what is cut and bought
  std::string kits;    // quantities: how many, "12" or "lap=12,wall=6"
  std::string figure;  // draw
  std::string code;    // explain; empty: every code
  bool renew = false;  // outline
  std::string kind;    // schema; empty: which there are
  std::string against = "HEAD";  // proof: a git revision
  int port = 0;                  // watch; 0: one that is free
};

int run_check(const Arguments& arguments);
int run_build(const Arguments& arguments);
int run_outline(const Arguments& arguments);
int run_start(const Arguments& arguments);
int run_quantities(const Arguments& arguments);
int run_list(const Arguments& arguments);  // of quantities: one for a purpose of its own
int run_draw(const Arguments& arguments);
int run_sizes(const Arguments& arguments);
int run_explain(const Arguments& arguments);
int run_compare(const Arguments& arguments);
int run_proof(const Arguments& arguments);
int run_watch(const Arguments& arguments);
int run_lines(const Arguments& arguments);
int run_schema(const Arguments& arguments);

}  // namespace dogear
