#include "panslate/base/csv.h"

#include <string>

#include <gtest/gtest.h>

namespace panslate {
namespace {

// RFC 4180 section 2: quoted fields, doubled quotes, line breaks inside quotes, CRLF.
TEST(Csv, ReadsQuotedFields) {
  const auto table =
      CsvTable::read("food,note\r\n\"rice, long\",\"she said \"\"dry\"\"\"\r\nsalt,\"two\nlines\"\r\n");
  ASSERT_EQ(table.row_count(), 2U);
  EXPECT_EQ(table.field(0, "food"), "rice, long");
  EXPECT_EQ(table.field(0, "note"), "she said \"dry\"");
  EXPECT_EQ(table.field(1, "note"), "two\nlines");
  EXPECT_EQ(table.line_of(0), 2);
  EXPECT_EQ(table.line_of(1), 3);
}

TEST(Csv, FindsHeadingsWithoutCase) {
  const auto table = CsvTable::read("Food , Amount per serving\nleek,75 g\n");
  EXPECT_TRUE(table.has_column("amount per serving"));
  EXPECT_FALSE(table.has_column("source"));
  EXPECT_EQ(table.field(0, "FOOD"), "leek");
  EXPECT_EQ(table.field(0, "source"), "");
}

TEST(Csv, TakesShortRowsAndEmptyLines) {
  const auto table = CsvTable::read("a,b,c\n\n1\n  \n,2,\n");
  ASSERT_EQ(table.row_count(), 2U);
  EXPECT_EQ(table.field(0, "a"), "1");
  EXPECT_EQ(table.field(0, "c"), "");
  EXPECT_EQ(table.field(1, 1), "2");
  EXPECT_EQ(table.line_of(1), 5);
}

TEST(Csv, NeverFails) {
  EXPECT_EQ(CsvTable::read("").row_count(), 0U);
  EXPECT_EQ(CsvTable::read("a,b").row_count(), 0U);
  const auto open = CsvTable::read("a\n\"never closed\nstill");
  ASSERT_EQ(open.row_count(), 1U);
  EXPECT_EQ(open.field(0, "a"), "never closed\nstill");
}

}  // namespace
}  // namespace panslate
