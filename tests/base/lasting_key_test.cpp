#include "panslate/base/lasting_key.h"

#include <string>
#include <string_view>

#include <gtest/gtest.h>

namespace panslate {
namespace {

using namespace std::string_view_literals;

// Each part is ended by a zero byte, so the key of one part is the published 64-bit FNV-1a value of that text
// with a trailing NUL (IETF draft-eastlake-fnv, test vectors "with null").
TEST(LastingKey, OnePartIsThePublishedFnvValueOfTheTextWithItsZeroByte) {
  EXPECT_EQ(lasting_key({""}), "af63bd4c8601b7df");
  EXPECT_EQ(lasting_key({"a"}), "089be207b544f1e4");
  EXPECT_EQ(lasting_key({"foobar"}), "34531ca7168b8f38");
}

TEST(LastingKey, NoPartIsTheOffsetBasis) {
  EXPECT_EQ(lasting_key({}), "cbf29ce484222325");  // IETF draft-eastlake-fnv, value of the empty text
}

// Values of an independent FNV-1a written from the draft's definition.
TEST(LastingKey, PartsDoNotRunIntoEachOther) {
  EXPECT_EQ(lasting_key({"a", "b"}), "ab40d7820d408076");
  EXPECT_EQ(lasting_key({"ab", ""}), "fd616183ef1f66fa");
}

TEST(LastingKey, BytesAboveAsciiCountAsBytes) {
  EXPECT_EQ(lasting_key({"\xC3\xA9"}), "5feb231c1dfafbb3");  // é
}

TEST(LastingKey, AZeroByteInsideAPartIsAByteLikeAnyOther) {
  EXPECT_EQ(lasting_key({"a\0b"sv}), lasting_key({"a", "b"}));  // both hash the bytes a NUL b NUL
}

}  // namespace
}  // namespace panslate
