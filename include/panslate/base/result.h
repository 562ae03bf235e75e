#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

namespace panslate {

/// What kind of thing went wrong; each kind has exactly one exit status (see exit_status in app).
enum class ErrorCode {
  Usage,        ///< the command line does not make sense
  NotFound,     ///< a file or folder is not there
  Unreadable,   ///< it is there, but cannot be read (rights, a folder instead of a file)
  Malformed,    ///< read, but not what it should be: a broken recipe, captions or project file
  NotMedia,     ///< the FFmpeg libraries cannot make pictures or sound of it
  WriteFailed,  ///< saving did not work; what was there before is still there
  Exists,       ///< writing would replace something the user made
  Cancelled,    ///< the user stopped it
  Internal,     ///< a defect of panslate
};

/// Where in the user's files: lines and columns count from 1, columns in characters; 0 means unknown.
struct Place {
  std::filesystem::path file;
  int line = 0;
  int column = 0;

  friend bool operator==(const Place&, const Place&) = default;
};

/// An expected failure, told to the user: what is wrong, where, and what to do about it.
struct Error {
  ErrorCode code = ErrorCode::Internal;
  std::string message;
  std::optional<Place> place = std::nullopt;
  std::string hint = {};
};

template <class T>
using Result = tl::expected<T, Error>;

/// Success without a value.
using Status = tl::expected<void, Error>;

/// For readers that report every problem of a file in one run. Never empty when it is an error.
template <class T>
using Checked = tl::expected<T, std::vector<Error>>;

/// Short form for `return tl::unexpected(Error{…})`.
[[nodiscard]] tl::unexpected<Error> fail(ErrorCode code, std::string message,
                                         std::optional<Place> place = std::nullopt, std::string hint = {});

/// `soup.md:12:5: error: unknown unit 'cupp'` and, on a second line, `  hint: …`. Unknown parts of the place
/// are left out.
[[nodiscard]] std::string render(const Error& error);

/// As render, with the source line and a caret below the column when `source` (the file's text) is given.
[[nodiscard]] std::string render(const Error& error, std::string_view source);

}  // namespace panslate

#define PANSLATE_CONCAT_IMPL(a, b) a##b
#define PANSLATE_CONCAT(a, b) PANSLATE_CONCAT_IMPL(a, b)

// A declaration takes no parentheses.
// NOLINTBEGIN(bugprone-macro-parentheses)
/// `PANSLATE_TRY(auto bytes, read_file(path));` declares `bytes`, or returns the error from the enclosing
/// function.
#define PANSLATE_TRY(declaration, expression)                                  \
  auto PANSLATE_CONCAT(try_, __LINE__) = (expression);                         \
  if (!PANSLATE_CONCAT(try_, __LINE__))                                        \
    return tl::unexpected(std::move(PANSLATE_CONCAT(try_, __LINE__)).error()); \
  declaration = *std::move(PANSLATE_CONCAT(try_, __LINE__))
// NOLINTEND(bugprone-macro-parentheses)

/// For a Status: returns the error from the enclosing function.
#define PANSLATE_CHECK(expression)                                                             \
  do {                                                                                         \
    if (auto status = (expression); !status) return tl::unexpected(std::move(status).error()); \
  } while (false)
