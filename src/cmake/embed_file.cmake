# Turns the file IN into a C++ source with its bytes. Octal escapes keep every byte as it is; the literal is cut into
# lines because compilers limit the length of one.
file(READ "${IN}" hex HEX)
string(LENGTH "${hex}" hex_length)
string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${hex}")
string(REGEX REPLACE "((0x[0-9a-f][0-9a-f],)(0x[0-9a-f][0-9a-f],)?(0x[0-9a-f][0-9a-f],)?(0x[0-9a-f][0-9a-f],)?(0x[0-9a-f][0-9a-f],)?(0x[0-9a-f][0-9a-f],)?(0x[0-9a-f][0-9a-f],)?(0x[0-9a-f][0-9a-f],)?)" "\\1\n" bytes "${bytes}")
math(EXPR byte_count "${hex_length} / 2")
file(WRITE "${HEADER}" "#pragma once
#include <string_view>
namespace panslate::embedded {
extern const std::string_view ${VARIABLE};
}
")
file(WRITE "${SOURCE}" "#include \"embedded/${VARIABLE}.h\"
namespace panslate::embedded {
namespace {
constexpr unsigned char kBytes[] = {
${bytes}0};
}
const std::string_view ${VARIABLE}{reinterpret_cast<const char*>(kBytes), ${byte_count}};
}
")
