#include "speech/backoff_model.h"

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <map>
#include <vector>

#include <fmt/format.h>

namespace panslate {

namespace {

constexpr std::size_t kOrder = 3;
constexpr double kDiscount = 0.5;  // of each count, for what was not seen there
constexpr std::uint32_t kBegin = 0;
constexpr std::uint32_t kEnd = 1;
constexpr double kNever = -99.0;  // log10, as ARPA files write it

using Gram = std::vector<std::uint32_t>;

struct Count {
  std::uint64_t times = 0;
  // Of what comes after it.
  std::uint64_t followed = 0;
  std::uint64_t followers = 0;
};

class Counted {
 public:
  explicit Counted(std::span<const Sentence> sentences) {
    for (const auto& sentence : sentences) {
      if (sentence.empty()) continue;
      Gram words{kBegin};
      for (const auto& word : sentence) words.push_back(id_of(word));
      words.push_back(kEnd);
      for (std::size_t order = 1; order <= kOrder; ++order)
        for (std::size_t at = 0; at + order <= words.size(); ++at)
          ++counts_[order - 1][Gram(words.begin() + static_cast<std::ptrdiff_t>(at),
                                    words.begin() + static_cast<std::ptrdiff_t>(at + order))]
                .times;
    }
    for (std::size_t order = 1; order < kOrder; ++order)
      for (const auto& [gram, count] : counts_[order]) {
        auto& before = counts_[order - 1][Gram(gram.begin(), gram.end() - 1)];
        before.followed += count.times;
        ++before.followers;
      }
    for (const auto& [gram, count] : counts_[0])
      if (gram[0] != kBegin) all_ += count.times;
  }

  [[nodiscard]] std::string print() const {
    std::string out = "\\data\\\n";
    for (std::size_t order = 1; order <= kOrder; ++order)
      out += fmt::format("ngram {}={}\n", order, counts_[order - 1].size());
    for (std::size_t order = 1; order <= kOrder; ++order) {
      out += fmt::format("\n\\{}-grams:\n", order);
      for (const auto& [gram, count] : counts_[order - 1]) print(gram, count, out);
    }
    out += "\n\\end\\\n";
    return out;
  }

 private:
  std::uint32_t id_of(const std::string& word) {
    const auto [at, is_new] = ids_.try_emplace(word, static_cast<std::uint32_t>(names_.size()));
    if (is_new) names_.push_back(word);
    return at->second;
  }

  [[nodiscard]] const Count& count_of(const Gram& gram) const { return counts_[gram.size() - 1].at(gram); }

  // Interpolated: the share taken from every count goes to the shorter history.
  [[nodiscard]] double probability(const Gram& gram, const Count& count) const {
    if (gram.size() == 1) return static_cast<double>(count.times) / static_cast<double>(all_);
    const auto& before = count_of(Gram(gram.begin(), gram.end() - 1));
    const Gram shorter(gram.begin() + 1, gram.end());
    return (static_cast<double>(count.times) - kDiscount) / static_cast<double>(before.followed) +
           left_over(before) * probability(shorter, count_of(shorter));
  }

  static double left_over(const Count& before) {
    return kDiscount * static_cast<double>(before.followers) / static_cast<double>(before.followed);
  }

  void print(const Gram& gram, const Count& count, std::string& out) const {
    const double logarithm =
        gram.size() == 1 && gram[0] == kBegin ? kNever : std::log10(probability(gram, count));
    out += fmt::format("{:.4f}\t", logarithm);
    for (std::size_t i = 0; i < gram.size(); ++i) out += (i == 0 ? "" : " ") + names_[gram[i]];
    if (gram.size() < kOrder)
      out += fmt::format("\t{:.4f}", count.followers == 0 ? 0.0 : std::log10(left_over(count)));
    out += '\n';
  }

  std::vector<std::string> names_{"<s>", "</s>"};
  std::map<std::string, std::uint32_t> ids_;
  std::array<std::map<Gram, Count>, kOrder> counts_;
  std::uint64_t all_ = 0;
};

}  // namespace

std::string arpa_model(std::span<const Sentence> sentences) {
  bool any = false;
  for (const auto& sentence : sentences) any = any || !sentence.empty();
  return any ? Counted(sentences).print() : std::string{};
}

}  // namespace panslate
