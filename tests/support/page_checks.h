#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>

#include <unistd.h>

/// What is the same in the tests of all pages.
namespace panslate::testing {

/// Style sheet, script and its digest are long and say nothing about what is on the page.
inline std::string without_style(std::string page) {
  const auto erase = [&](std::string_view from, std::string_view to) {
    const auto begin = page.find(from);
    if (begin == std::string::npos) return;
    page.erase(begin, page.find(to, begin) - begin);
  };
  erase("<style>", "</style>");
  erase("<script>", "</script>");
  erase("sha256-", "'; base-uri");
  return page;
}

/// What HTML Tidy, an outside judge, finds wrong with a page; empty where it finds nothing.
inline std::string tidy_verdict(const std::string& page) {
  const auto file =
      std::filesystem::temp_directory_path() / ("panslate-page-" + std::to_string(::getpid()) + ".html");
  std::ofstream(file, std::ios::binary) << page;
  const auto verdict = file.string() + ".txt";
  const auto command = "tidy -e -q --show-warnings yes '" + file.string() + "' > '" + verdict + "' 2>&1";
  const int status = std::system(command.c_str());  // NOLINT(cert-env33-c,concurrency-mt-unsafe)
  std::ifstream in(verdict);
  std::string text((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
  std::filesystem::remove(file);
  std::filesystem::remove(verdict);
  return status == 0 ? std::string{} : text;
}

inline bool has_tidy() {
  return std::system("tidy -v > /dev/null 2>&1") == 0;
}  // NOLINT(cert-env33-c,concurrency-mt-unsafe)

}  // namespace panslate::testing
