#include "compile/outline.h"

#include <algorithm>

#include "base/text.h"
#include "compile/line_diff.h"

namespace dogear {

namespace {

constexpr std::string_view opens = "<!-- ", closes = " -->";

// The line on which a paragraph begins in her words, as it is or by the figure it shows.
std::size_t line_of(const std::string& words, const std::string& paragraph) {
  const auto line_at = [&](std::size_t at) {
    return 1 + static_cast<std::size_t>(std::count(
                   words.begin(), words.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
  };
  if (const auto at = words.find(paragraph); at != std::string::npos) return line_at(at);
  const auto figure = paragraph.find("](figure:");
  if (figure == std::string::npos) return 0;
  const auto at = words.find(paragraph.substr(figure));
  return at == std::string::npos ? 0 : line_at(at);
}

}  // namespace

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
    for (const Hunk& hunk : diff_lines(before, after)) {
      for (std::size_t i = 0; i < hunk.gone; ++i) {
        const std::string& paragraph = before[hunk.was + i];
        out.push_back({path, paragraph, true, line_of(text, paragraph)});
      }
      for (std::size_t i = 0; i < hunk.come; ++i) {
        const std::size_t at = hunk.now + i;
        out.push_back({path, after[at], false, at == 0 ? 0 : line_of(text, after[at - 1])});
      }
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
