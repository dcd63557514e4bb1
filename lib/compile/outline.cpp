#include "compile/outline.h"

#include <algorithm>

#include "base/text.h"
#include "compile/line_diff.h"

namespace dogear {

namespace {

constexpr std::string_view opens = "<!-- ", closes = " -->";

// Where the words of one size begin or end.
bool is_mark(const std::string& paragraph) {
  return (starts_with(paragraph, "{{#") || starts_with(paragraph, "{{/")) &&
         paragraph.ends_with("}}") && paragraph.find("}}") + 2 == paragraph.size();
}

// The lines on which the paragraphs begin in her words, as they are or by the figures they show, 0
// for those that are not there. Sizes may say the same: each is looked for behind the one before
// it.
std::vector<std::size_t> lines_of(const std::string& words,
                                  const std::vector<std::string>& paragraphs) {
  std::vector<std::size_t> lines;
  std::size_t from = 0;
  // What she has moved to the front is found as well.
  const auto find = [&](const std::string& what) {
    const std::size_t at = words.find(what, from);
    return at == std::string::npos ? words.find(what) : at;
  };
  for (const std::string& paragraph : paragraphs) {
    std::size_t at = find(paragraph);
    if (const auto figure = paragraph.find("](figure:");
        at == std::string::npos && figure != std::string::npos) {
      at = find(paragraph.substr(figure));
      // She begins it where the empty line before it ends.
      const std::size_t gap = at == std::string::npos ? at : words.rfind("\n\n", at);
      if (gap != std::string::npos) at = gap + 2;
    }
    if (at == std::string::npos) {
      lines.push_back(0);
      continue;
    }
    lines.push_back(1 + static_cast<std::size_t>(std::count(
                            words.begin(), words.begin() + static_cast<std::ptrdiff_t>(at), '\n')));
    if (!is_mark(paragraph) && at >= from) from = at + 1;
  }
  return lines;
}

// The lines of a step without the figure; in Markdown a line is broken by a backslash.
std::vector<std::string> lines_said(const std::string& paragraph) {
  std::vector<std::string> lines = split(paragraph, '\n');
  std::erase_if(lines, [](const std::string& line) { return starts_with(line, "!["); });
  for (std::string& line : lines)
    if (line.ends_with('\\')) line.pop_back();
  return lines;
}

std::string figure_of(const std::string& paragraph) {
  const auto at = paragraph.find("](figure:");
  return at == std::string::npos ? "" : paragraph.substr(at);
}

// What a paragraph says that another of the same figure, if there is one among the others, does
// not.
std::string unlike(const std::string& paragraph, const std::vector<std::string>& others,
                   std::size_t from, std::size_t count) {
  std::vector<std::string> lines = lines_said(paragraph);
  const std::string figure = figure_of(paragraph);
  for (std::size_t i = from; i < from + count && !figure.empty(); ++i) {
    if (figure_of(others[i]) != figure) continue;
    const std::vector<std::string> known = lines_said(others[i]);
    std::erase_if(lines, [&](const std::string& line) {
      return std::find(known.begin(), known.end(), line) != known.end();
    });
    return join(lines, " ");
  }
  return lines.empty() ? paragraph : lines.front();
}

}  // namespace

std::string OutlineChange::words() const {
  return (gone ? "gone: " : line > 0 ? "new, after this: " : "new: ") + text;
}

std::string outline_text(const std::vector<Draft>& drafts) {
  std::string out;
  for (const Draft& draft : drafts) {
    out += std::string(opens) + draft.path + std::string(closes) + "\n\n";
    for (const std::string& paragraph : draft.paragraphs) out += paragraph + "\n\n";
  }
  return out;
}

std::vector<Draft> read_outline(std::string_view text) {
  std::vector<Draft> out;
  std::string paragraph;
  const auto end = [&] {
    if (!paragraph.empty() && !out.empty()) out.back().paragraphs.push_back(paragraph);
    paragraph.clear();
  };
  for (std::string line : split(std::string(text), '\n')) {
    if (line.ends_with('\r')) line.pop_back();
    if (starts_with(line, opens) && line.ends_with(closes)) {
      end();
      out.push_back({line.substr(opens.size(), line.size() - opens.size() - closes.size()), {}});
    } else if (trim(line).empty()) {
      end();
    } else {
      paragraph += (paragraph.empty() ? "" : "\n") + line;
    }
  }
  end();
  return out;
}

bool is_outline(std::string_view text) {
  const std::string_view line = text.substr(0, text.find('\n'));
  return starts_with(line, std::string(opens) + "prose/") && trim(line).ends_with(trim(closes));
}

std::vector<OutlineChange> compare_outlines(const std::vector<Draft>& was,
                                            const std::vector<Draft>& now,
                                            const std::map<std::string, std::string>& words) {
  std::vector<OutlineChange> out;
  const auto find = [](const std::vector<Draft>& in, const std::string& path) {
    const auto at =
        std::find_if(in.begin(), in.end(), [&](const Draft& d) { return d.path == path; });
    return at == in.end() ? std::vector<std::string>() : at->paragraphs;
  };
  const auto compare = [&](const std::string& path) {
    const auto before = find(was, path), after = find(now, path);
    const auto hers = words.find(path);
    const std::string text = hers == words.end() ? "" : hers->second;
    const std::vector<std::size_t> lines = lines_of(text, before);
    for (const Hunk& hunk : diff_lines(before, after)) {
      const auto tell = [&](const std::string& paragraph, std::string change, bool gone,
                            std::size_t line) {
        if (!is_mark(paragraph) && !change.empty())
          out.push_back({path, std::move(change), gone, line});
      };
      for (std::size_t i = hunk.was; i < hunk.was + hunk.gone; ++i)
        tell(before[i], unlike(before[i], after, hunk.now, hunk.come), true, lines[i]);
      const std::size_t behind = hunk.was + hunk.gone;
      for (std::size_t i = hunk.now; i < hunk.now + hunk.come; ++i)
        tell(after[i], unlike(after[i], before, hunk.was, hunk.gone), false,
             behind == 0 ? 0 : lines[behind - 1]);
    }
  };
  for (const Draft& draft : now) compare(draft.path);
  for (const Draft& draft : was)
    if (std::none_of(now.begin(), now.end(), [&](const Draft& d) { return d.path == draft.path; }))
      compare(draft.path);
  return out;
}

std::optional<std::vector<Draft>> make_outline(const Plan& plan, const canvas::FontSet& fonts,
                                               Session& session) {
  const Pattern& pattern = plan.pattern();
  const FencedFiles inside(session.files, pattern.folder);
  const auto style = load_template(pattern.paper, pattern.language, inside, session.diagnostics);
  if (!style) return std::nullopt;
  const Scene scene{plan.checked, plan.piecing, plan.quantities, fonts, style->words};
  return draft_instructions(scene, *style, session.diagnostics);
}

}  // namespace dogear
