#include <algorithm>
#include <array>
#include <cmath>

#include "panslate/speech/pronunciation.h"

/// Costs of changing one sound into another. The features are those of any phonetics primer; the weights are
/// ours, set so that tests/data/misheard_foods.txt is understood and tests/data/kitchen_talk.txt is left
/// alone.
namespace panslate {

namespace {

constexpr std::size_t kVowels = static_cast<std::size_t>(Phone::Uw) + 1;
constexpr std::size_t kMost = 64;

/// Where the tongue is: height 0 close, 1 open; back 0 front, 1 back. Diphthongs begin and end somewhere.
struct Vowel {
  double height, back, end_height, end_back;
};

constexpr std::array<Vowel, kVowels> kVowel{{
    {1.00, 0.75, 1.00, 0.75},  // aa
    {0.85, 0.15, 0.85, 0.15},  // ae
    {0.70, 0.60, 0.70, 0.60},  // ah
    {0.75, 0.95, 0.75, 0.95},  // ao
    {0.95, 0.45, 0.20, 0.85},  // aw
    {0.50, 0.50, 0.50, 0.50},  // ax
    {0.95, 0.50, 0.15, 0.10},  // ay
    {0.55, 0.10, 0.55, 0.10},  // eh
    {0.45, 0.05, 0.15, 0.05},  // ey
    {0.20, 0.15, 0.20, 0.15},  // ih
    {0.00, 0.00, 0.00, 0.00},  // iy
    {0.50, 0.85, 0.20, 0.90},  // ow
    {0.65, 0.95, 0.15, 0.10},  // oy
    {0.20, 0.80, 0.20, 0.80},  // uh
    {0.00, 0.95, 0.00, 0.95},  // uw
}};

struct Consonant {
  double place;   ///< 0 lips … 5 throat
  double manner;  ///< 0 stop, 0.5 affricate, 1 fricative, 2 nasal, 3 liquid, 4 glide
  bool voiced;
};

constexpr std::array<Consonant, kPhones - kVowels> kConsonant{{
    {0.0, 0.0, true},   // b
    {2.2, 0.5, false},  // ch
    {1.5, 0.0, true},   // d
    {1.0, 1.0, true},   // dh
    {0.5, 1.0, false},  // f
    {4.0, 0.0, true},   // g
    {5.0, 1.0, false},  // hh
    {2.2, 0.5, true},   // jh
    {4.0, 0.0, false},  // k
    {1.5, 3.0, true},   // l
    {0.0, 2.0, true},   // m
    {1.5, 2.0, true},   // n
    {4.0, 2.0, true},   // ng
    {0.0, 0.0, false},  // p
    {2.0, 3.0, true},   // r
    {1.5, 1.0, false},  // s
    {2.2, 1.0, false},  // sh
    {1.5, 0.0, false},  // t
    {1.0, 1.0, false},  // th
    {0.5, 1.0, true},   // v
    {0.0, 4.0, true},   // w
    {3.0, 4.0, true},   // y
    {1.5, 1.0, true},   // z
    {2.2, 1.0, true},   // zh
}};

constexpr double kVoice = 0.2;
constexpr double kVowelForConsonant = 1.2;

struct Exception {
  Phone a, b;
  double cost;
};

// Pairs that the features alone put too far apart: heard for one another in running speech.
constexpr std::array<Exception, 16> kExceptions{{
    {Phone::N, Phone::Ng, 0.15},
    {Phone::L, Phone::R, 0.35},
    {Phone::L, Phone::W, 0.40},
    {Phone::R, Phone::W, 0.35},
    {Phone::V, Phone::W, 0.30},
    {Phone::Dh, Phone::D, 0.25},
    {Phone::Th, Phone::T, 0.30},
    {Phone::B, Phone::V, 0.30},
    {Phone::Jh, Phone::Y, 0.40},
    {Phone::Y, Phone::Iy, 0.15},
    {Phone::Y, Phone::Ih, 0.20},
    {Phone::W, Phone::Uw, 0.15},
    {Phone::W, Phone::Uh, 0.20},
    {Phone::W, Phone::Ow, 0.25},
    {Phone::R, Phone::Ax, 0.20},
    {Phone::L, Phone::Ow, 0.50},
}};

double vowel_distance(Phone a, Phone b) {
  const auto& from = kVowel[static_cast<std::size_t>(a)];
  const auto& to = kVowel[static_cast<std::size_t>(b)];
  const double start = std::hypot(from.height - to.height, 0.8 * (from.back - to.back));
  const double end = std::hypot(from.end_height - to.end_height, 0.8 * (from.end_back - to.end_back));
  return std::min(0.6, 0.7 * (0.6 * start + 0.4 * end));
}

double consonant_distance(Phone a, Phone b) {
  const auto& from = kConsonant[static_cast<std::size_t>(a) - kVowels];
  const auto& to = kConsonant[static_cast<std::size_t>(b) - kVowels];
  const double place = std::min(0.5, 0.18 * std::abs(from.place - to.place));
  const double manner = 0.35 * std::min(2.0, std::abs(from.manner - to.manner));
  return std::min(1.0, (from.voiced != to.voiced ? kVoice : 0.0) + place + manner);
}

using Costs = std::array<std::array<double, kPhones>, kPhones>;

Costs substitution_costs() {
  Costs costs{};
  for (std::size_t a = 0; a < kPhones; ++a)
    for (std::size_t b = 0; b < kPhones; ++b) {
      const auto x = static_cast<Phone>(a);
      const auto y = static_cast<Phone>(b);
      if (a == b) continue;
      costs[a][b] = is_vowel(x) != is_vowel(y) ? kVowelForConsonant
                    : is_vowel(x)              ? vowel_distance(x, y)
                                               : consonant_distance(x, y);
    }
  for (const auto& [x, y, cost] : kExceptions) {
    costs[static_cast<std::size_t>(x)][static_cast<std::size_t>(y)] = cost;
    costs[static_cast<std::size_t>(y)][static_cast<std::size_t>(x)] = cost;
  }
  return costs;
}

double substitution(Sound a, Sound b) {
  static const Costs kCosts = substitution_costs();
  const double cost = kCosts[static_cast<std::size_t>(a.phone)][static_cast<std::size_t>(b.phone)];
  // A vowel without stress is reduced: which one it is says little.
  const bool reduced = is_vowel(a.phone) && is_vowel(b.phone) && !(a.stressed && b.stressed);
  return reduced ? 0.6 * cost : cost;
}

// Of a sound that one of the two has and the other has not.
double gap(std::span<const Sound> sounds, std::size_t at) {
  const auto phone = sounds[at].phone;
  if (at > 0 && sounds[at - 1].phone == phone) return 0.1;  // "star root": one long r
  switch (phone) {
    case Phone::Ax:
      return 0.25;
    case Phone::R:
      return at + 1 < sounds.size() && is_vowel(sounds[at + 1].phone) ? 0.6 : 0.15;
    case Phone::Hh:
    case Phone::Y:
      return 0.3;
    case Phone::T:
    case Phone::D:
    case Phone::W:
      return 0.45;
    case Phone::L:
    case Phone::N:
    case Phone::M:
    case Phone::Ng:
      return 0.55;
    default:
      break;
  }
  if (at == 0 && !is_vowel(phone)) return 0.9;  // how a word begins is heard best
  if (is_vowel(phone)) return sounds[at].stressed ? 0.65 : 0.35;
  return 0.7;
}

}  // namespace

double sound_distance(std::span<const Sound> heard, std::span<const Sound> meant, double limit) {
  if (heard.empty() || meant.empty() || heard.size() > kMost || meant.size() > kMost) return 1.0;
  const double length = static_cast<double>(heard.size() + meant.size()) / 2;
  const double most = limit * length;
  std::array<double, kMost + 1> row{};
  for (std::size_t j = 0; j < meant.size(); ++j) row[j + 1] = row[j] + gap(meant, j);
  for (std::size_t i = 0; i < heard.size(); ++i) {
    double diagonal = row[0];
    const double skip_heard = gap(heard, i);
    row[0] += skip_heard;
    double least = row[0];
    for (std::size_t j = 0; j < meant.size(); ++j) {
      const double replaced = diagonal + substitution(heard[i], meant[j]);
      diagonal = row[j + 1];
      row[j + 1] = std::min({replaced, row[j + 1] + skip_heard, row[j] + gap(meant, j)});
      least = std::min(least, row[j + 1]);
    }
    if (least > most) return 1.0;
  }
  const double cost = row[meant.size()];
  return cost > most ? 1.0 : std::min(1.0, cost / length);
}

}  // namespace panslate
