#include "speech/sphinx_model.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <fstream>
#include <numbers>
#include <numeric>
#include <string>
#include <string_view>

namespace panslate {

namespace {

constexpr std::uintmax_t kLargestFile = 256U << 20U;
constexpr std::int32_t kMostCodebooks = 256;
constexpr std::int32_t kMostDensities = 4096;
constexpr std::int32_t kMostStreams = 4;
constexpr std::int32_t kWidest = 64;
constexpr std::int32_t kMostSenones = 32'000;  // they are counted in 16 bits
constexpr std::int32_t kMostPhones = 4'000'000;

// The bytes of a file; all numbers in it are those of this machine (little-endian) or it is not read.
class ModelFile {
 public:
  explicit ModelFile(const std::filesystem::path& path) {
    std::error_code error;
    const auto size = std::filesystem::file_size(path, error);
    if (error || size > kLargestFile) return;
    bytes_.resize(static_cast<std::size_t>(size));
    std::ifstream in(path, std::ios::binary);
    in.read(bytes_.data(), static_cast<std::streamsize>(bytes_.size()));
    left_ = std::string_view(bytes_).substr(0, static_cast<std::size_t>(in.gcount()));
  }

  [[nodiscard]] std::string_view left() const { return left_; }
  bool skip(std::size_t count) {
    if (count > left_.size()) return false;
    left_.remove_prefix(count);
    return true;
  }
  template <class T>
  bool read(T& value) {
    return read(&value, 1);
  }
  template <class T>
  bool read(T* values, std::size_t count) {
    if (count > left_.size() / sizeof(T)) return false;
    std::memcpy(values, left_.data(), count * sizeof(T));
    left_.remove_prefix(count * sizeof(T));
    return true;
  }
  /// `count` numbers; no more memory is taken than the file fills.
  template <class T>
  bool read(std::vector<T>& values, std::size_t count) {
    if (count > left_.size() / sizeof(T)) return false;
    values.resize(count);
    return read(values.data(), count);
  }
  /// A number from 1 to `most`.
  bool read_count(std::int32_t& value, std::int32_t most) {
    return read(value) && value >= 1 && value <= most;
  }

 private:
  std::string bytes_;
  std::string_view left_;
};

// Means or variances: codebooks × streams × densities × widths.
struct Gaussians {
  std::int32_t codebooks = 0;
  std::int32_t densities = 0;
  std::vector<std::int32_t> widths;
  std::vector<float> values;
};

std::optional<Gaussians> read_gaussians(const std::filesystem::path& path) {
  constexpr std::string_view kEnd = "endhdr\n";
  constexpr std::uint32_t kByteOrder = 0x11223344;
  ModelFile file(path);
  const auto end = file.left().substr(0, 4096).find(kEnd);
  std::uint32_t order = 0;
  if (end == std::string_view::npos || !file.skip(end + kEnd.size()) || !file.read(order) ||
      order != kByteOrder)
    return std::nullopt;
  Gaussians read;
  std::int32_t streams = 0;
  std::int32_t count = 0;
  if (!file.read_count(read.codebooks, kMostCodebooks) || !file.read_count(streams, kMostStreams) ||
      !file.read_count(read.densities, kMostDensities))
    return std::nullopt;
  read.widths.resize(static_cast<std::size_t>(streams));
  std::int64_t width = 0;
  for (auto& one : read.widths) {
    if (!file.read_count(one, kWidest)) return std::nullopt;
    width += one;
  }
  if (!file.read(count) || count != width * read.codebooks * read.densities) return std::nullopt;
  if (!file.read(read.values, static_cast<std::size_t>(count))) return std::nullopt;
  return read;
}

// Which phone each senone belongs to.
std::optional<std::vector<std::size_t>> read_phones(const std::filesystem::path& path) {
  constexpr std::size_t kWordAlignment = 4;
  constexpr std::size_t kTreeNode = 8;
  struct Phone {
    std::int32_t sequence;
    std::int32_t transitions;
    std::uint8_t about[4];  // of a phone between others: place in the word, then the phone itself
  };
  ModelFile file(path);
  if (!file.left().starts_with("BMDF") || !file.skip(4)) return std::nullopt;
  std::int32_t version = 0;
  std::int32_t description = 0;
  if (!file.read(version) || version != 1 || !file.read_count(description, 1 << 16) ||
      !file.skip(static_cast<std::size_t>(description)))
    return std::nullopt;
  std::int32_t base = 0;
  std::int32_t phones = 0;
  std::int32_t states = 0;
  std::int32_t of_base = 0;
  std::int32_t senones = 0;
  std::int32_t unused = 0;
  std::int32_t sequences = 0;
  std::int32_t nodes = 0;
  if (!file.read_count(base, kMostCodebooks) || !file.read_count(phones, kMostPhones) || base > phones ||
      !file.read_count(states, 16) || !file.read(of_base) || !file.read_count(senones, kMostSenones) ||
      !file.read(unused) || !file.read_count(sequences, 1 << 20) || !file.read(unused) || !file.read(nodes) ||
      nodes < 0 || !file.read(unused))
    return std::nullopt;
  const auto names = file.left().size();
  for (std::int32_t i = 0; i < base; ++i) {
    const auto end = file.left().find('\0');
    if (end == std::string_view::npos || !file.skip(end + 1)) return std::nullopt;
  }
  const auto past = (names - file.left().size()) % kWordAlignment;
  if (!file.skip(past == 0 ? 0 : kWordAlignment - past) ||
      !file.skip(kTreeNode * static_cast<std::size_t>(nodes)))
    return std::nullopt;
  std::vector<Phone> known;
  std::int32_t size = 0;
  std::vector<std::uint16_t> sequence;
  if (!file.read(known, static_cast<std::size_t>(phones)) || !file.read(size) ||
      !file.read(sequence, static_cast<std::size_t>(sequences) * static_cast<std::size_t>(states)))
    return std::nullopt;

  constexpr auto kNone = static_cast<std::size_t>(-1);
  std::vector<std::size_t> phone_of(static_cast<std::size_t>(senones), kNone);
  for (std::size_t p = 0; p < known.size(); ++p) {
    const std::size_t phone = p < static_cast<std::size_t>(base) ? p : known[p].about[1];
    if (phone >= static_cast<std::size_t>(base) || known[p].sequence < 0 || known[p].sequence >= sequences)
      return std::nullopt;
    const auto first = static_cast<std::size_t>(known[p].sequence) * static_cast<std::size_t>(states);
    for (std::size_t s = first; s < first + static_cast<std::size_t>(states); ++s) {
      if (sequence[s] >= phone_of.size()) return std::nullopt;
      if (phone_of[sequence[s]] == kNone) phone_of[sequence[s]] = phone;
    }
  }
  if (std::find(phone_of.begin(), phone_of.end(), kNone) != phone_of.end()) return std::nullopt;
  return phone_of;
}

// The shares are written with 4 bits each in some models, and in others not at all: those are not read.
bool read_shares(const std::filesystem::path& path, MixtureModel& model) {
  ModelFile file(path);
  std::int32_t length = 0;
  for (;;) {
    if (!file.read(length) || length < 0 || length > 4096) return false;
    if (length == 0) break;
    const auto line = file.left().substr(0, static_cast<std::size_t>(length));
    if ((line.starts_with("cluster_count ") &&
         !line.starts_with(std::string_view("cluster_count 0\0", 16))) ||
        line.starts_with("cluster_bits "))
      return false;
    if (!file.skip(static_cast<std::size_t>(length))) return false;
  }
  std::int32_t rows = 0;
  std::int32_t columns = 0;
  if (!file.read_count(rows, kMostDensities) || static_cast<std::size_t>(rows) != model.densities ||
      !file.read_count(columns, kMostSenones) || static_cast<std::size_t>(columns) != model.senones.size())
    return false;
  std::vector<std::uint8_t> row(model.senones.size());
  for (std::size_t i = 0; i < model.streams() * model.densities; ++i) {
    if (!file.read(row.data(), row.size())) return false;
    auto& shares = model.shares.emplace_back(row.size());
    std::transform(model.senones.begin(), model.senones.end(), shares.begin(),
                   [&](std::uint16_t senone) { return row[senone]; });
  }
  return true;
}

void put_in_order(const std::vector<std::size_t>& phone_of, MixtureModel& model) {
  model.senones.resize(phone_of.size());
  std::iota(model.senones.begin(), model.senones.end(), std::uint16_t{0});
  std::stable_sort(model.senones.begin(), model.senones.end(),
                   [&](std::uint16_t a, std::uint16_t b) { return phone_of[a] < phone_of[b]; });
  model.first.assign(model.codebooks + 1, 0);
  for (const auto phone : phone_of) ++model.first[phone + 1];
  std::partial_sum(model.first.begin(), model.first.end(), model.first.begin());
}

}  // namespace

std::optional<MixtureModel> read_mixtures(const std::filesystem::path& folder, logmath_t* logarithms,
                                          double floor) {
  const auto means = read_gaussians(folder / "means");
  const auto variances = read_gaussians(folder / "variances");
  const auto phones = read_phones(folder / "mdef");
  if (!means || !variances || !phones || means->codebooks != variances->codebooks ||
      means->densities != variances->densities || means->widths != variances->widths)
    return std::nullopt;
  MixtureModel model;
  model.codebooks = static_cast<std::size_t>(means->codebooks);
  model.densities = static_cast<std::size_t>(means->densities);
  model.widths.assign(means->widths.begin(), means->widths.end());
  if (*std::max_element(phones->begin(), phones->end()) >= model.codebooks) return std::nullopt;
  put_in_order(*phones, model);
  if (!read_shares(folder / "sendump", model)) return std::nullopt;

  const auto tables = model.streams() * model.codebooks;
  model.means.resize(tables);
  model.factors.resize(tables);
  model.heights.resize(tables);
  std::size_t from = 0;
  const auto least = static_cast<float>(floor);
  for (std::size_t codebook = 0; codebook < model.codebooks; ++codebook)
    for (std::size_t stream = 0; stream < model.streams(); ++stream) {
      const auto table = model.at(stream, codebook);
      const auto width = model.widths[stream];
      model.means[table].resize(width * model.densities);
      model.factors[table].resize(width * model.densities);
      model.heights[table].resize(model.densities);
      for (std::size_t density = 0; density < model.densities; ++density)
        for (std::size_t i = 0; i < width; ++i, ++from) {
          const float variance = std::max(variances->values[from], least);
          if (!(variance > 0) || !std::isfinite(means->values[from])) return std::nullopt;
          model.means[table][i * model.densities + density] = means->values[from];
          // Logarithms in whole steps, as the library takes them.
          model.factors[table][i * model.densities + density] =
              static_cast<float>(logmath_ln_to_log(logarithms, 1.0 / (double{variance} * 2.0)));
          model.heights[table][density] += static_cast<float>(
              logmath_log(logarithms, 1.0 / std::sqrt(double{variance} * 2.0 * std::numbers::pi)));
        }
    }
  return model;
}

}  // namespace panslate
