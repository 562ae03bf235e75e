#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// Comma-separated tables with a heading row (RFC 4180: quoted fields, doubled quotes; LF or CRLF).
namespace panslate {

class CsvTable {
 public:
  /// Reads a whole table. Never fails: an open quote runs to the end of the text, empty lines are skipped,
  /// missing fields are empty.
  [[nodiscard]] static CsvTable read(std::string_view text);

  [[nodiscard]] std::size_t row_count() const { return rows_.size(); }
  [[nodiscard]] bool has_column(std::string_view heading) const;
  /// The field under a heading (compared without case and outer spaces); empty for an unknown heading or a
  /// short row.
  [[nodiscard]] const std::string& field(std::size_t row, std::string_view heading) const;
  /// The field by position, from 0.
  [[nodiscard]] const std::string& field(std::size_t row, std::size_t column) const;
  /// Line of the text that the row starts on, from 1.
  [[nodiscard]] int line_of(std::size_t row) const { return lines_.at(row); }

 private:
  std::vector<std::string> headings_;
  std::vector<std::vector<std::string>> rows_;
  std::vector<int> lines_;
};

}  // namespace panslate
