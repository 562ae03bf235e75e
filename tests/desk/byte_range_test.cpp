#include "desk/byte_range.h"

#include <string>

#include <gtest/gtest.h>

namespace panslate {
namespace {

using Kind = ByteRange::Kind;

struct RangeCase {
  const char* header;
  std::uint64_t size;
  Kind kind;
  std::uint64_t begin, length;
  const char* source;
};

const RangeCase kCases[] = {
    {"", 10000, Kind::Whole, 0, 10000, "RFC 9110, 14.2: no Range"},
    {"bytes=0-499", 10000, Kind::Part, 0, 500, "RFC 9110, 14.1.2: the first 500 bytes"},
    {"bytes=500-999", 10000, Kind::Part, 500, 500, "RFC 9110, 14.1.2: the second 500 bytes"},
    {"bytes=-500", 10000, Kind::Part, 9500, 500, "RFC 9110, 14.1.2: the final 500 bytes"},
    {"bytes=9500-", 10000, Kind::Part, 9500, 500, "RFC 9110, 14.1.2: the final 500 bytes"},
    {"bytes=0-0,-1", 10000, Kind::Whole, 0, 10000,
     "RFC 9110, 14.2: a server may ignore Range; here where it has several"},
    {"bytes= 0-999, 4500-5499, -1000", 10000, Kind::Whole, 0, 10000, "RFC 9110, 14.1.2"},
    {"BYTES=1-1", 10000, Kind::Part, 1, 1, "RFC 9110, 14.1: range units are case-insensitive"},
    {"bytes=9999-20000", 10000, Kind::Part, 9999, 1,
     "RFC 9110, 14.1.2: a last position past the end means the end"},
    {"bytes=-20000", 10000, Kind::Part, 0, 10000,
     "RFC 9110, 14.1.2: a suffix longer than the file is all of it"},
    {"bytes=10000-", 10000, Kind::OutOfFile, 0, 0,
     "RFC 9110, 14.1.1: first position at the length is unsatisfiable"},
    {"bytes=10000-10001", 10000, Kind::OutOfFile, 0, 0, "RFC 9110, 14.1.1"},
    {"bytes=-0", 10000, Kind::OutOfFile, 0, 0, "RFC 9110, 14.1.1: a suffix of nothing is unsatisfiable"},
    {"bytes=0-", 0, Kind::OutOfFile, 0, 0, "RFC 9110, 14.1.1: nothing of an empty file"},
    {"bytes=99999999999999999999999-", 10000, Kind::OutOfFile, 0, 0, "beyond 64 bits"},
    {"bytes=0-99999999999999999999999", 10000, Kind::Part, 0, 10000, "beyond 64 bits"},
    {"bytes=500-100", 10000, Kind::Whole, 0, 10000,
     "RFC 9110, 14.1.1: last before first is invalid, so ignored"},
    {"bytes=--1", 10000, Kind::Whole, 0, 10000, "RFC 9110, 14.2: invalid is ignored"},
    {"bytes=-", 10000, Kind::Whole, 0, 10000, "RFC 9110, 14.2: invalid is ignored"},
    {"bytes=a-b", 10000, Kind::Whole, 0, 10000, "RFC 9110, 14.2: invalid is ignored"},
    {"bytes", 10000, Kind::Whole, 0, 10000, "RFC 9110, 14.2: invalid is ignored"},
    {"items=0-5", 10000, Kind::Whole, 0, 10000,
     "RFC 9110, 14.2: a unit that is not understood must be ignored"},
};

TEST(ByteRange, IsReadAsTheStandardHasIt) {
  for (const auto& one : kCases) {
    const auto range = byte_range(one.header, one.size);
    EXPECT_EQ(range.kind, one.kind) << one.header << ": " << one.source;
    EXPECT_EQ(range.begin, one.begin) << one.header << ": " << one.source;
    EXPECT_EQ(range.length, one.length) << one.header << ": " << one.source;
  }
}

}  // namespace
}  // namespace panslate
