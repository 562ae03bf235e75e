#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <vector>

#include <sphinxbase/logmath.h>

/// What PocketSphinx's model of sounds consists of, read from its files as far as scoring needs it: mixtures
/// of normal densities, one codebook for each phone and stream of features ("phonetically tied"), and for
/// each senone (a third of a phone between certain others) how much of each density it takes.
namespace panslate {

struct MixtureModel {
  std::size_t codebooks = 0;
  std::size_t densities = 0;        ///< of a codebook in a stream
  std::vector<std::size_t> widths;  ///< values of each stream
  /// Of each stream and codebook, value by value all densities beside one another: widths × densities
  /// numbers.
  std::vector<std::vector<float>> means;
  std::vector<std::vector<float>> factors;  ///< of the squared distance from the mean
  std::vector<std::vector<float>> heights;  ///< of the density at its mean, one for each
  /// Senones in the order of their codebooks; `senones` names them, `first` is the first of each codebook.
  std::vector<std::uint16_t> senones;
  std::vector<std::size_t> first;  ///< codebooks + 1
  /// Of each stream and density, its share in each senone (negative logarithms), in the order of `senones`.
  std::vector<std::vector<std::uint8_t>> shares;

  [[nodiscard]] std::size_t streams() const { return widths.size(); }
  [[nodiscard]] std::size_t at(std::size_t stream, std::size_t codebook) const {
    return stream * codebooks + codebook;
  }
};

/// None where the files are not there, damaged, or of another kind of model. `floor`: the least variance.
[[nodiscard]] std::optional<MixtureModel> read_mixtures(const std::filesystem::path& folder,
                                                        logmath_t* logarithms, double floor);

}  // namespace panslate
