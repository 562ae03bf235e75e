#include "speech/sphinx_scores.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace panslate {

namespace {

constexpr int kShift = 10;                // the library's steps: 1.0001 to the 1024th
constexpr std::int32_t kWorst = 96;       // the worst a density can fit
constexpr std::size_t kBlock = 16;        // densities looked at together
constexpr std::size_t kMostKept = 3'000;  // frames

// The two loops that all listening waits for, on wider registers where the processor has them.
#if defined(__x86_64__) && !defined(__clang__)
#define PANSLATE_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define PANSLATE_WIDE
#endif

// Takes the distances in one value off the fits of all densities of a codebook.
PANSLATE_WIDE void take_distances(float value, const float* __restrict means, const float* __restrict factors,
                                  float* __restrict fits, std::size_t count) {
  for (std::size_t density = 0; density < count; ++density) {
    const float distance = value - means[density];
    fits[density] -= distance * distance * factors[density];
  }
}

using Steps = std::array<std::int16_t, 7>;

// The logarithm of a sum: the lesser less a little, one more for each of `steps` they are not farther apart
// than.
inline std::int16_t sum_of(std::int16_t a, std::int16_t b, const Steps& steps) {
  const auto least = std::min(a, b);
  const auto apart = static_cast<std::int16_t>(std::max(a, b) - least);
  auto sum = least;
  for (std::size_t i = 0; i < 7; ++i) sum = static_cast<std::int16_t>(sum - (apart <= steps[i] ? 1 : 0));
  return sum;
}

// Adds to `sums` what four densities together are in each senone.
PANSLATE_WIDE void add_sums(const std::array<const std::uint8_t*, 4>& shares,
                            const std::array<std::int16_t, 4>& scores, Steps steps,
                            std::int16_t* __restrict sums, std::size_t count) {
  const std::uint8_t* __restrict a = shares[0];
  const std::uint8_t* __restrict b = shares[1];
  const std::uint8_t* __restrict c = shares[2];
  const std::uint8_t* __restrict d = shares[3];
  const auto [of_a, of_b, of_c, of_d] = scores;
  for (std::size_t i = 0; i < count; ++i) {
    auto sum = static_cast<std::int16_t>(a[i] + of_a);
    sum = sum_of(sum, static_cast<std::int16_t>(b[i] + of_b), steps);
    sum = sum_of(sum, static_cast<std::int16_t>(c[i] + of_c), steps);
    sum = sum_of(sum, static_cast<std::int16_t>(d[i] + of_d), steps);
    sums[i] = static_cast<std::int16_t>(sums[i] + sum);
  }
}

// A density far off fits worse than 32 bits can tell.
std::int32_t whole(float fit) {
  constexpr auto kLeast = std::numeric_limits<std::int32_t>::min();
  return fit > static_cast<float>(kLeast) ? static_cast<std::int32_t>(fit) : kLeast;
}

}  // namespace

SphinxScorer::SphinxScorer(MixtureModel model, logmath_t* logarithms)
    : model_(std::move(model)),
      nearest_(model_.streams() * model_.codebooks),
      fits_(model_.densities),
      sums_(model_.senones.size()) {
  // Four different ones, whichever: the same one four times would keep others out.
  for (auto& nearest : nearest_)
    for (std::size_t top = 0; top < kTop; ++top) nearest[top].density = top;
  // The table falls from 7 to 0: it is kept as the distances at which it falls.
  const std::unique_ptr<logmath_t, SphinxFree<logmath_free>> table(
      logmath_init(logmath_get_base(logarithms), kShift, TRUE));
  steps_.fill(-1);
  for (std::int16_t distance = 0; distance < 256; ++distance) {
    const auto more = static_cast<std::size_t>(std::max(0, logmath_add(table.get(), 0, -distance)));
    for (std::size_t step = 0; step < std::min(more, kSteps); ++step) steps_[step] = distance;
  }
}

bool SphinxScorer::takes(feat_t* features) const {
  if (static_cast<std::size_t>(feat_dimension1(features)) != model_.streams()) return false;
  for (std::size_t stream = 0; stream < model_.streams(); ++stream)
    if (static_cast<std::size_t>(feat_dimension2(features, stream)) != model_.widths[stream]) return false;
  return model_.densities % kBlock == 0 && model_.densities >= kTop;
}

void SphinxScorer::find_nearest(std::size_t stream, std::size_t codebook, const mfcc_t* values,
                                Nearest& nearest) {
  const auto table = model_.at(stream, codebook);
  const auto count = model_.densities;
  float* const fits = fits_.data();
  std::copy(model_.heights[table].begin(), model_.heights[table].end(), fits);
  for (std::size_t i = 0; i < model_.widths[stream]; ++i)
    take_distances(values[i], model_.means[table].data() + i * count,
                   model_.factors[table].data() + i * count, fits, count);
  // What was nearest a frame ago mostly still is: the others seldom get past it.
  // Of equal ones the order matters too (sums of logarithms depend on it), and is the library's.
  for (std::size_t top = 0; top < kTop; ++top) {
    const Near near{nearest[top].density, whole(fits[nearest[top].density])};
    auto place = top;
    for (; place > 0 && near.score > nearest[place - 1].score; --place) nearest[place] = nearest[place - 1];
    nearest[place] = near;
  }
  for (std::size_t block = 0; block < count; block += kBlock) {
    float best = fits[block];
    for (std::size_t i = 1; i < kBlock; ++i) best = std::max(best, fits[block + i]);
    if (best < static_cast<float>(nearest.back().score)) continue;
    for (auto density = block; density < block + kBlock; ++density) {
      if (fits[density] < static_cast<float>(nearest.back().score)) continue;
      if (std::any_of(nearest.begin(), nearest.end(),
                      [&](const Near& near) { return near.density == density; }))
        continue;
      const auto score = whole(fits[density]);
      auto place = kTop - 1;
      for (; place > 0 && score >= nearest[place - 1].score; --place) nearest[place] = nearest[place - 1];
      nearest[place] = {density, score};
    }
  }
}

// Sums of products, in logarithms: over the nearest densities of a stream a sum, over the streams a product.
void SphinxScorer::add_up(std::size_t codebook) {
  const auto first = model_.first[codebook];
  const auto count = model_.first[codebook + 1] - first;
  std::int16_t* const sums = sums_.data() + first;
  std::fill_n(sums, count, std::int16_t{0});
  for (std::size_t stream = 0; stream < model_.streams(); ++stream) {
    const auto& nearest = nearest_[model_.at(stream, codebook)];
    std::array<const std::uint8_t*, kTop> shares{};
    std::array<std::int16_t, kTop> scores{};
    for (std::size_t top = 0; top < kTop; ++top) {
      shares[top] = model_.shares[stream * model_.densities + nearest[top].density].data() + first;
      scores[top] = static_cast<std::int16_t>(nearest[top].score);
    }
    add_sums(shares, scores, steps_, sums, count);
  }
}

void SphinxScorer::score(const mfcc_t* const* streams, std::span<std::int16_t> scores) {
  for (std::size_t stream = 0; stream < model_.streams(); ++stream) {
    auto best = std::numeric_limits<std::int32_t>::min();
    const std::span nearest(nearest_.data() + model_.at(stream, 0), model_.codebooks);
    for (std::size_t codebook = 0; codebook < model_.codebooks; ++codebook) {
      find_nearest(stream, codebook, streams[stream], nearest[codebook]);
      best = std::max(best, nearest[codebook].front().score >> kShift);
    }
    for (auto& ones : nearest)
      for (auto& near : ones) near.score = std::min(best - (near.score >> kShift), kWorst);
  }
  for (std::size_t codebook = 0; codebook < model_.codebooks; ++codebook) add_up(codebook);
  const auto best = *std::min_element(sums_.begin(), sums_.end());
  for (std::size_t i = 0; i < sums_.size(); ++i)
    scores[model_.senones[i]] = static_cast<std::int16_t>(sums_[i] - best);
}

std::unique_ptr<SoundScores> SoundScores::of(std::span<const std::int16_t> samples, fe_t* front_end,
                                             feat_t* features) {
  const std::int16_t* at = samples.data();
  std::size_t left = samples.size();
  std::int32_t count = 0;
  // As the decoder does it with a whole utterance.
  if (fe_process_frames(front_end, nullptr, &left, nullptr, &count, nullptr) < 0 || count <= 0) return {};
  std::vector<mfcc_t> values((static_cast<std::size_t>(count) + 1) *
                             static_cast<std::size_t>(fe_get_output_size(front_end)));
  std::vector<mfcc_t*> frames;
  for (std::int32_t i = 0; i <= count; ++i)
    frames.push_back(values.data() + i * static_cast<std::ptrdiff_t>(fe_get_output_size(front_end)));
  std::int32_t tail = 0;
  fe_start_stream(front_end);
  fe_start_utt(front_end);
  left = samples.size();
  if (fe_process_frames(front_end, &at, &left, frames.data(), &count, nullptr) < 0) return {};
  fe_end_utt(front_end, frames[static_cast<std::size_t>(count)], &tail);
  count += tail;
  if (count <= 0) return {};
  std::unique_ptr<SoundScores> made(new SoundScores);
  made->features_.reset(feat_array_alloc(features, count));
  if (made->features_ == nullptr) return {};
  const auto found = feat_s2mfc2feat_live(features, frames.data(), &count, TRUE, TRUE, made->features_.get());
  if (found <= 0) return {};
  made->frames_ = static_cast<std::size_t>(found);
  made->samples_.assign(samples.begin(), samples.end());
  return made;
}

bool SoundScores::is_of(std::span<const std::int16_t> samples) const {
  return std::equal(samples.begin(), samples.end(), samples_.begin(), samples_.end());
}

std::span<const std::int16_t> SoundScores::at(std::size_t frame, SphinxScorer& scorer) {
  const auto size = scorer.senones();
  const bool kept = frames_ <= kMostKept;
  scores_.resize(kept ? frames_ * size : size);
  const auto scores = std::span(scores_).subspan(kept ? frame * size : 0, size);
  if (!kept || frame >= scored_) {
    scorer.score(features_.get()[frame], scores);
    scored_ = frame + 1;
  }
  return scores;
}

}  // namespace panslate
