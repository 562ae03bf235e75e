// Reads the scripts of tests/data/speech.
#include <fstream>
#include <stdexcept>

#include "panslate/base/text.h"

#include "speech/narration.h"

namespace panslate::testing {

namespace {

struct Bracketed {
  std::vector<std::string> pieces;  // outside
  std::vector<std::string> amounts;
};

Bracketed bracketed(std::string_view line, const std::string& place) {
  Bracketed out;
  out.pieces.emplace_back();
  bool inside = false;
  for (const char c : line) {
    if (c == '[' && !inside) {
      out.amounts.emplace_back();
    } else if (c == ']' && inside) {
      out.pieces.emplace_back();
    } else if (c == '[' || c == ']') {
      throw std::runtime_error(place + "a bracket too many");
    } else {
      (inside ? out.amounts.back() : out.pieces.back()) += c;
    }
    if (c == '[') inside = true;
    if (c == ']') inside = false;
  }
  if (inside) throw std::runtime_error(place + "a bracket is left open");
  return out;
}

}  // namespace

std::string ScriptLine::spoken(std::optional<Slip> slip) const {
  std::string text = pieces.front();
  for (std::size_t a = 0; a < amounts.size(); ++a) {
    text += slip && slip->amount == a ? amounts[a].instead.at(slip->instead) : amounts[a].spoken;
    text += pieces[a + 1];
  }
  return text;
}

std::vector<ScriptLine> read_spoken_script(const std::filesystem::path& file) {
  std::ifstream in(file);
  if (!in) throw std::runtime_error("cannot read " + file.string());
  std::vector<ScriptLine> lines;
  bool awaits_spoken = false;
  int number = 0;
  for (std::string text; std::getline(in, text);) {
    const auto place = file.string() + ":" + std::to_string(++number) + ": ";
    if (trim(text).empty() || text.front() == '#') continue;
    if (text.rfind("= ", 0) != 0) {
      if (awaits_spoken) throw std::runtime_error(place + "how the line before is spoken is missing");
      ScriptLine line;
      line.number = number;
      const auto parts = bracketed(text, place);
      line.written = parts.pieces.front();
      for (std::size_t a = 0; a < parts.amounts.size(); ++a) {
        line.amounts.push_back({parts.amounts[a], {}, {}});
        line.written += parts.amounts[a] + parts.pieces[a + 1];
      }
      lines.push_back(std::move(line));
      awaits_spoken = true;
      continue;
    }
    if (!awaits_spoken) throw std::runtime_error(place + "spoken words without a written line");
    awaits_spoken = false;
    auto& line = lines.back();
    auto parts = bracketed(std::string_view(text).substr(2), place);
    if (parts.amounts.size() != line.amounts.size())
      throw std::runtime_error(place + "not as many amounts as in the written line");
    line.pieces = std::move(parts.pieces);
    for (std::size_t a = 0; a < parts.amounts.size(); ++a) {
      auto ways = split(parts.amounts[a], '~');
      for (auto& way : ways) way = std::string(trim(way));
      line.amounts[a].spoken = ways.front();
      line.amounts[a].instead.assign(ways.begin() + 1, ways.end());
    }
  }
  if (awaits_spoken) throw std::runtime_error(file.string() + ": how the last line is spoken is missing");
  return lines;
}

}  // namespace panslate::testing
