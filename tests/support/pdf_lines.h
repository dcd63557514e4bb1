#pragma once
// The lines that the pages of a PDF paint, read back from the file through qpdf.

#include <array>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>
#include <vector>

namespace dogear::test {

struct PaintedLine {
  std::vector<std::array<double, 2>> points;  // pt, y up from the page's lower left corner
  bool closed = false;
  bool dashed = false;
  double width = 0;  // pt
};

class PdfLines {
 public:
  // What `qpdf --json=2 --json-stream-data=inline --decode-level=all` prints.
  explicit PdfLines(const std::string& json) : file_(nlohmann::json::parse(json)) {}

  std::size_t pages() const { return file_.at("pages").size(); }

  // Every stroked path of a page, each part by itself.
  std::vector<PaintedLine> page(std::size_t n) const {
    const nlohmann::json& page = file_.at("pages").at(n);
    std::string content;
    for (const auto& part : page.at("contents")) content += stream(part) + "\n";
    nlohmann::json at = value(page.at("object"));
    while (!at.contains("/Resources")) at = value(at.at("/Parent"));
    std::vector<PaintedLine> out;
    run(content, value(at.at("/Resources")), {1, 0, 0, 1, 0, 0}, out);
    return out;
  }

 private:
  using Matrix = std::array<double, 6>;

  static Matrix product(const Matrix& a, const Matrix& b) {  // first a, then b
    return {a[0] * b[0] + a[1] * b[2],        a[0] * b[1] + a[1] * b[3],
            a[2] * b[0] + a[3] * b[2],        a[2] * b[1] + a[3] * b[3],
            a[4] * b[0] + a[5] * b[2] + b[4], a[4] * b[1] + a[5] * b[3] + b[5]};
  }

  const nlohmann::json& object(const std::string& reference) const {
    return file_.at("qpdf").at(1).at("obj:" + reference);
  }
  nlohmann::json value(const nlohmann::json& v) const {
    if (!v.is_string() || !v.get<std::string>().ends_with(" R")) return v;
    const nlohmann::json& o = object(v.get<std::string>());
    return o.contains("value") ? o.at("value") : o.at("stream").at("dict");
  }
  std::string stream(const nlohmann::json& reference) const {
    const std::string text = object(reference.get<std::string>()).at("stream").at("data");
    static const std::string digits =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string out;
    unsigned bits = 0, held = 0;
    for (const char c : text) {
      const std::size_t at = digits.find(c);
      if (at == std::string::npos) break;
      held = (held << 6 | static_cast<unsigned>(at)) & 0xffff;
      if ((bits += 6) < 8) continue;
      bits -= 8;
      out += static_cast<char>(held >> bits & 0xff);
    }
    return out;
  }

  // Words of a content stream; strings, arrays and dictionaries each as one.
  static std::vector<std::string> words(const std::string& content) {
    std::vector<std::string> out;
    const std::string blank(" \n\r\t\f\0", 6);
    for (std::size_t i = 0; i < content.size();) {
      if (blank.find(content[i]) != std::string::npos) {
        ++i;
        continue;
      }
      const std::size_t from = i;
      if (content[i] == '(' || content[i] == '[' || content[i] == '<') {
        int depth = 0;
        do {
          if (content[i] == '\\') {
            i += 2;
            continue;
          }
          depth += content[i] == '(' || content[i] == '[' || content[i] == '<' ? 1 : 0;
          depth -= content[i] == ')' || content[i] == ']' || content[i] == '>' ? 1 : 0;
          ++i;
        } while (depth > 0 && i < content.size());
      } else {
        ++i;
        while (i < content.size() && (blank + "()[]<>/").find(content[i]) == std::string::npos) ++i;
      }
      out.push_back(content.substr(from, i - from));
    }
    return out;
  }

  void run(const std::string& content, const nlohmann::json& resources, Matrix now,
           std::vector<PaintedLine>& out) const {
    struct State {
      Matrix at;
      double width = 1;
      bool dashed = false;
    };
    std::vector<State> kept;
    State state{now, 1, false};
    std::vector<std::string> before;
    std::vector<PaintedLine> path;
    const auto number = [&](std::size_t from_end) {
      return std::stod(before.at(before.size() - from_end));
    };
    const auto point = [&](double x, double y) {
      const Matrix& m = state.at;
      path.back().points.push_back({m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]});
    };
    for (const std::string& word : words(content)) {
      const char c = word[0];
      if ((c >= '0' && c <= '9') || std::string("+-./([<").find(c) != std::string::npos) {
        before.push_back(word);
        continue;
      }
      if (word == "q") kept.push_back(state);
      if (word == "Q" && !kept.empty()) state = kept.back(), kept.pop_back();
      if (word == "cm") {
        Matrix m{};
        for (std::size_t i = 0; i < 6; ++i) m[i] = number(6 - i);
        state.at = product(m, state.at);
      }
      if (word == "w") state.width = number(1);
      if (word == "d")
        state.dashed = before.at(before.size() - 2).find_first_of("123456789") != std::string::npos;
      if (word == "m") path.emplace_back(), point(number(2), number(1));
      if (word == "l" || word == "c" || word == "v" || word == "y") point(number(2), number(1));
      if (word == "re") {
        path.emplace_back();
        const double x = number(4), y = number(3), w = number(2), h = number(1);
        point(x, y), point(x + w, y), point(x + w, y + h), point(x, y + h);
        path.back().closed = true;
      }
      if ((word == "h" || word == "s" || word == "b" || word == "b*") && !path.empty())
        path.back().closed = true;
      if (word == "S" || word == "s" || word == "B" || word == "B*" || word == "b" ||
          word == "b*") {
        for (PaintedLine& line : path) {
          line.width = state.width;
          line.dashed = state.dashed;
          out.push_back(std::move(line));
        }
      }
      if (std::string(" S s B B* b b* f F f* n ").find(' ' + word + ' ') != std::string::npos)
        path.clear();
      if (word == "Do") {
        const nlohmann::json form = value(resources.at("/XObject")).at(before.back());
        const nlohmann::json dict = value(form);
        if (dict.at("/Subtype") == "/Form") {
          Matrix m{1, 0, 0, 1, 0, 0};
          if (dict.contains("/Matrix"))
            for (std::size_t i = 0; i < 6; ++i) m[i] = dict.at("/Matrix").at(i);
          run(stream(form), dict.contains("/Resources") ? value(dict.at("/Resources")) : resources,
              product(m, state.at), out);
        }
      }
      before.clear();
    }
  }

  nlohmann::json file_;
};

}  // namespace dogear::test
