#include "panslate/base/csv.h"

#include <algorithm>
#include <utility>

#include "panslate/base/text.h"

namespace panslate {

namespace {

const std::string kEmpty;

struct Cursor {
  std::string_view text;
  std::size_t at = 0;
  int line = 1;
};

std::string read_quoted(Cursor& in) {
  std::string field;
  ++in.at;
  while (in.at < in.text.size()) {
    const char c = in.text[in.at++];
    if (c == '\n') ++in.line;
    if (c != '"') {
      field += c;
    } else if (in.at < in.text.size() && in.text[in.at] == '"') {
      field += '"';
      ++in.at;
    } else {
      break;
    }
  }
  return field;
}

// One record; stands after its line end afterwards.
std::vector<std::string> read_record(Cursor& in) {
  std::vector<std::string> fields(1);
  while (in.at < in.text.size()) {
    const char c = in.text[in.at];
    if (c == '"' && fields.back().empty()) {
      fields.back() = read_quoted(in);
      continue;
    }
    ++in.at;
    if (c == ',') {
      fields.emplace_back();
    } else if (c == '\n') {
      ++in.line;
      break;
    } else if (c != '\r') {
      fields.back() += c;
    }
  }
  return fields;
}

}  // namespace

CsvTable CsvTable::read(std::string_view text) {
  CsvTable table;
  Cursor in{text};
  bool heading = true;
  while (in.at < text.size()) {
    const int line = in.line;
    auto fields = read_record(in);
    if (fields.size() == 1 && trim(fields.front()).empty()) continue;
    if (heading) {
      for (const auto& field : fields) table.headings_.push_back(fold_case(trim(field)));
      heading = false;
    } else {
      table.rows_.push_back(std::move(fields));
      table.lines_.push_back(line);
    }
  }
  return table;
}

bool CsvTable::has_column(std::string_view heading) const {
  return std::find(headings_.begin(), headings_.end(), fold_case(trim(heading))) != headings_.end();
}

const std::string& CsvTable::field(std::size_t row, std::string_view heading) const {
  const auto found = std::find(headings_.begin(), headings_.end(), fold_case(trim(heading)));
  return found == headings_.end() ? kEmpty : field(row, static_cast<std::size_t>(found - headings_.begin()));
}

const std::string& CsvTable::field(std::size_t row, std::size_t column) const {
  const auto& fields = rows_.at(row);
  return column < fields.size() ? fields[column] : kEmpty;
}

}  // namespace panslate
