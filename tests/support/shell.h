#pragma once

#include <array>
#include <cstddef>
#include <cstdio>
#include <string>

#include <sys/wait.h>

namespace panslate::testing {

struct Ran {
  int status = -1;  ///< 128 and the signal where one ended it
  std::string out;
};

/// Runs a shell command and takes its standard output.
inline Ran shell(const std::string& command) {
  Ran ran;
  FILE* pipe = ::popen(command.c_str(), "r");  // NOLINT(cert-env33-c)
  if (pipe == nullptr) return ran;
  std::array<char, 4096> block{};
  for (std::size_t n = 0; (n = std::fread(block.data(), 1, block.size(), pipe)) > 0;)
    ran.out.append(block.data(), n);
  const int status = ::pclose(pipe);
  ran.status = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  return ran;
}

}  // namespace panslate::testing
