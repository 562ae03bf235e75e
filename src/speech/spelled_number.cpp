#include "speech/spelled_number.h"

#include <algorithm>
#include <array>

namespace panslate {

namespace {

using Words = std::vector<std::string>;

constexpr std::array<const char*, 20> kBelowTwenty{"zero",    "one",     "two",       "three",    "four",
                                                   "five",    "six",     "seven",     "eight",    "nine",
                                                   "ten",     "eleven",  "twelve",    "thirteen", "fourteen",
                                                   "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"};
constexpr std::array<const char*, 10> kTens{"",      "",      "twenty",  "thirty", "forty",
                                            "fifty", "sixty", "seventy", "eighty", "ninety"};

enum class And : bool { Without, With };

void append_number(int number, And joined, Words& out) {
  if (number >= 1000) {
    append_number(number / 1000, joined, out);
    out.emplace_back("thousand");
    number %= 1000;
    if (number == 0) return;
    if (number < 100 && joined == And::With) out.emplace_back("and");
  }
  if (number >= 100) {
    out.emplace_back(kBelowTwenty[static_cast<std::size_t>(number / 100)]);
    out.emplace_back("hundred");
    number %= 100;
    if (number == 0) return;
    if (joined == And::With) out.emplace_back("and");
  }
  if (number >= 20) {
    out.emplace_back(kTens[static_cast<std::size_t>(number / 10)]);
    number %= 10;
    if (number == 0) return;
  }
  out.emplace_back(kBelowTwenty[static_cast<std::size_t>(number)]);
}

void append_digits(std::string_view digits, Words& out) {
  for (const char digit : digits) out.emplace_back(kBelowTwenty[static_cast<std::size_t>(digit - '0')]);
}

}  // namespace

std::vector<Words> spelled_number(std::string_view digits) {
  std::string whole(digits.substr(0, digits.find('.')));
  std::erase(whole, ',');
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  if (whole.empty() || !std::all_of(whole.begin(), whole.end(), is_digit)) return {};

  std::vector<Words> ways(1);
  if (whole.size() > 6 || (whole.size() > 1 && whole.front() == '0')) {
    append_digits(whole, ways.front());
  } else {
    int number = 0;
    for (const char digit : whole) number = number * 10 + (digit - '0');
    append_number(number, And::Without, ways.front());
    Words joined;
    append_number(number, And::With, joined);
    if (joined != ways.front()) ways.push_back(std::move(joined));
    if (number >= 1100 && number < 10'000 && number % 1000 >= 100 && number % 100 == 0) {
      Words hundreds;
      append_number(number / 100, And::Without, hundreds);
      hundreds.emplace_back("hundred");
      ways.push_back(std::move(hundreds));
    }
  }
  if (const auto point = digits.find('.'); point != std::string_view::npos)
    for (auto& way : ways) {
      way.emplace_back("point");
      for (const char digit : digits.substr(point + 1))
        if (is_digit(digit)) append_digits(std::string_view(&digit, 1), way);
    }
  return ways;
}

}  // namespace panslate
