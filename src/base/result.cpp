#include "panslate/base/result.h"

#include <utility>

#include "panslate/base/text.h"

namespace panslate {

tl::unexpected<Error> fail(ErrorCode code, std::string message, std::optional<Place> place,
                           std::string hint) {
  return tl::unexpected(Error{code, std::move(message), std::move(place), std::move(hint)});
}

namespace {

std::string headline(const Error& error) {
  std::string out;
  if (error.place && !error.place->file.empty()) {
    out += error.place->file.string();
    if (error.place->line > 0) {
      out += ':' + std::to_string(error.place->line);
      if (error.place->column > 0) out += ':' + std::to_string(error.place->column);
    }
    out += ": ";
  }
  out += "error: " + error.message;
  return out;
}

// A tab stays a tab, so that the caret stands under its character wherever the terminal's tab stops are.
std::string caret_line(std::string_view line, int column) {
  std::string out;
  std::size_t offset = 0;
  for (int at = 1; at < column && offset < line.size(); ++at) {
    out += line[offset] == '\t' ? '\t' : ' ';
    offset = code_point_at(line, offset).next;
  }
  return out + '^';
}

std::string hint_line(const Error& error) {
  return error.hint.empty() ? std::string{} : "\n  hint: " + error.hint;
}

}  // namespace

std::string render(const Error& error) {
  return headline(error) + hint_line(error);
}

std::string render(const Error& error, std::string_view source) {
  std::string out = headline(error);
  if (error.place && error.place->line > 0) {
    const auto lines = split_lines(source);
    const auto index = static_cast<std::size_t>(error.place->line) - 1;
    if (index < lines.size() && lines[index].text.size() < 400) {
      out += "\n  " + std::string(lines[index].text);
      if (error.place->column > 0) out += "\n  " + caret_line(lines[index].text, error.place->column);
    }
  }
  return out + hint_line(error);
}

}  // namespace panslate
