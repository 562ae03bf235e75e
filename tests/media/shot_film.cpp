#include "media/shot_film.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <memory>
#include <random>

namespace panslate::shot_film {

namespace {

constexpr int kWidth = 320;
constexpr int kHeight = 180;
constexpr int kChromaWidth = kWidth / 2;
constexpr int kChromaHeight = kHeight / 2;

struct Picture {
  std::vector<float> y = std::vector<float>(kWidth * kHeight);
  std::vector<float> u = std::vector<float>(kChromaWidth * kChromaHeight);
  std::vector<float> v = std::vector<float>(kChromaWidth * kChromaHeight);
};

struct ClosePipe {
  void operator()(FILE* pipe) const { pclose(pipe); }
};
using Pipe = std::unique_ptr<FILE, ClosePipe>;

std::string quoted(const std::string& text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

// A plane of soft noise in several sizes, like shapes on a table.
class Texture {
 public:
  static constexpr int kSide = 512;
  explicit Texture(unsigned seed) : values_(kSide * kSide) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<float> spread(-1, 1);
    const float contrast = 25 + 30 * std::abs(spread(random));
    for (int size = 128; size >= 4; size /= 2) {
      const int count = kSide / size;
      std::vector<float> grid(static_cast<std::size_t>(count * count));
      for (auto& value : grid) value = spread(random);
      const float weight = contrast * std::pow(static_cast<float>(size) / 128, 0.6F);
      for (int y = 0; y < kSide; ++y)
        for (int x = 0; x < kSide; ++x) {
          const float gx = static_cast<float>(x) / static_cast<float>(size);
          const float gy = static_cast<float>(y) / static_cast<float>(size);
          const int ix = static_cast<int>(gx);
          const int iy = static_cast<int>(gy);
          // Steep between the knots, so that there are edges.
          const auto steep = [](float t) { return t < 0.35F ? 0.0F : t > 0.65F ? 1.0F : (t - 0.35F) / 0.3F; };
          const float tx = steep(gx - static_cast<float>(ix));
          const float ty = steep(gy - static_cast<float>(iy));
          const auto at = [&](int a, int b) {
            return grid[static_cast<std::size_t>(b % count * count + a % count)];
          };
          values_[static_cast<std::size_t>(y * kSide + x)] +=
              weight * ((at(ix, iy) * (1 - tx) + at(ix + 1, iy) * tx) * (1 - ty) +
                        (at(ix, iy + 1) * (1 - tx) + at(ix + 1, iy + 1) * tx) * ty);
        }
    }
  }
  [[nodiscard]] float at(float x, float y) const {
    const int ix = static_cast<int>(std::floor(x));
    const int iy = static_cast<int>(std::floor(y));
    const float tx = x - static_cast<float>(ix);
    const float ty = y - static_cast<float>(iy);
    const auto value = [&](int a, int b) {
      return values_[static_cast<std::size_t>((b & (kSide - 1)) * kSide + (a & (kSide - 1)))];
    };
    return (value(ix, iy) * (1 - tx) + value(ix + 1, iy) * tx) * (1 - ty) +
           (value(ix, iy + 1) * (1 - tx) + value(ix + 1, iy + 1) * tx) * ty;
  }

 private:
  std::vector<float> values_;
};

class Drawing {
 public:
  explicit Drawing(const Piece& piece)
      : piece_(piece),
        random_(static_cast<unsigned>(piece.seed) * 7919U),
        shapes_(static_cast<unsigned>(piece.seed)),
        hues_(static_cast<unsigned>(piece.seed) + 1000U) {
    std::uniform_real_distribution<float> any(0, 1);
    light_ = 85 + 80 * any(random_);
    u_ = 116 + 24 * any(random_);
    v_ = 116 + 30 * any(random_);
    phase_ = 6.28F * any(random_);
    at_ = 0.25F + 0.4F * any(random_);
  }

  Picture frame(int number) {
    const auto t = static_cast<float>(number);
    const float part = t / static_cast<float>(piece_.frames);
    std::normal_distribution<float> jitter(0, 1);
    float across = 0;
    float down = 0;
    float blur = 0;
    float gain = 1;
    float steam = 0;
    switch (piece_.happens) {
      case Happens::Pan:
        across = 2.2F * t;
        break;
      case Happens::Shake:
        held_x_ = 0.7F * held_x_ + 2.5F * jitter(random_);
        held_y_ = 0.7F * held_y_ + 1.8F * jitter(random_);
        across = held_x_;
        down = held_y_;
        break;
      case Happens::Busy:
        across = 5 * t;
        down = 12 * std::sin(t / 4);
        break;
      case Happens::WhipPan: {
        const float middle = at_ * static_cast<float>(piece_.frames);
        const float step = (t - middle) / 3;
        across = 200 / (1 + std::exp(-step));
        blur = 200 / 3.0F * std::exp(-step) / ((1 + std::exp(-step)) * (1 + std::exp(-step)));
        break;
      }
      case Happens::Exposure:
        gain = 1 + 0.45F * std::sin(t / 5 + phase_);
        break;
      case Happens::Flash: {
        const int first = static_cast<int>(at_ * static_cast<float>(piece_.frames));
        if (number >= first && number < first + 1 + piece_.seed % 3)
          gain = 1.9F + 0.3F * static_cast<float>(piece_.seed % 4);
        break;
      }
      case Happens::Steam:
        steam = 0.7F * std::max(0.0F, std::sin(3.14F * part));
        break;
      default:
        break;
    }
    Picture out;
    for (int y = 0; y < kHeight; ++y)
      for (int x = 0; x < kWidth; ++x) {
        const float px = static_cast<float>(x) + across;
        const float py = static_cast<float>(y) + down;
        float value = shapes_.at(px, py);
        if (blur > 2)
          for (int k = 1; k < 5; ++k) value += shapes_.at(px + blur * static_cast<float>(k) / 5, py);
        if (blur > 2) value /= 5;
        value = (light_ + value) * gain;
        if (piece_.happens == Happens::Hands) value = hand(x, y, part, value);
        if (piece_.happens == Happens::Lid) value = lid(x, y, part, value);
        if (steam > 0) {
          const float cloud =
              steam * std::clamp(0.6F + shapes_.at(px * 0.3F + 3 * t, py * 0.3F + 100 + t) / 60, 0.0F, 1.0F);
          value += (225 - value) * cloud;
        }
        out.y[static_cast<std::size_t>(y * kWidth + x)] = value + 1.5F * noise();
      }
    for (int y = 0; y < kChromaHeight; ++y)
      for (int x = 0; x < kChromaWidth; ++x) {
        const float hue =
            hues_.at((2 * static_cast<float>(x) + across) * 0.7F, (2 * static_cast<float>(y) + down) * 0.7F) *
            0.35F * (1 - steam);
        out.u[static_cast<std::size_t>(y * kChromaWidth + x)] = u_ + hue;
        out.v[static_cast<std::size_t>(y * kChromaWidth + x)] = v_ - hue;
      }
    return out;
  }

 private:
  float noise() {
    // Cheap, and white enough for a sensor.
    state_ = state_ * 1664525U + 1013904223U;
    return static_cast<float>(state_ >> 8U) / 8388608.0F - 1;
  }
  [[nodiscard]] float hand(int x, int y, float part, float below) const {
    float value = below;
    for (int side = 0; side < 2; ++side) {
      const float swing = std::sin(part * 18 + static_cast<float>(side) * 2 + phase_);
      const float cx = kWidth * (0.3F + 0.4F * static_cast<float>(side)) + 60 * swing;
      const float cy = kHeight * (0.75F + 0.35F * std::cos(part * 14 + static_cast<float>(side)));
      const float dx = (static_cast<float>(x) - cx) / 38;
      const float dy = (static_cast<float>(y) - cy) / (static_cast<float>(y) > cy ? 400.0F : 45.0F);
      if (dx * dx + dy * dy < 1) value = 165 - 18 * dx;
    }
    return value;
  }
  [[nodiscard]] float lid(int x, int y, float part, float below) const {
    // Comes down from above within a third of a second, stays, and goes.
    const float begin = at_;
    const float there = std::clamp((part - begin) * static_cast<float>(piece_.frames) / 8, 0.0F, 1.0F) -
                        std::clamp((part - begin - 0.3F) * static_cast<float>(piece_.frames) / 8, 0.0F, 1.0F);
    if (there <= 0) return below;
    const float dx = (static_cast<float>(x) - kWidth / 2.0F) / 230;
    const float dy = (static_cast<float>(y) - (kHeight / 2.0F - 330 * (1 - there))) / 190;
    const float far = dx * dx + dy * dy;
    return far < 1 ? 150 + 40 * std::sin(9 * far) - 30 * dx : below;
  }

  Piece piece_;
  std::mt19937 random_;
  Texture shapes_;
  Texture hues_;
  float light_ = 0;
  float u_ = 0;
  float v_ = 0;
  float phase_ = 0;
  float at_ = 0;
  float held_x_ = 0;
  float held_y_ = 0;
  std::uint32_t state_ = 1;
};

std::vector<Picture> taken_from(const Piece& piece, const std::string& rate) {
  const bool is_file = piece.source.front() == '/';
  const std::string command =
      "ffmpeg -v quiet " + std::string(is_file ? "-i " : "-f lavfi -i ") + quoted(piece.source) +
      " -vf scale=" + std::to_string(kWidth) + ":" + std::to_string(kHeight) +
      // A clip that is too short stands still at its end: begun once more, it would be another shot.
      ":flags=bicubic+accurate_rnd+bitexact,fps=" + rate +
      ",tpad=stop=-1:stop_mode=clone,format=yuv420p -frames:v " + std::to_string(piece.frames) +
      " -f rawvideo - </dev/null";
  const Pipe pipe(popen(command.c_str(), "r"));
  std::vector<Picture> out;
  std::vector<std::uint8_t> bytes(kWidth * kHeight * 3 / 2);
  while (pipe && fread(bytes.data(), 1, bytes.size(), pipe.get()) == bytes.size()) {
    Picture picture;
    std::copy_n(bytes.begin(), picture.y.size(), picture.y.begin());
    std::copy_n(bytes.begin() + kWidth * kHeight, picture.u.size(), picture.u.begin());
    std::copy_n(bytes.begin() + kWidth * kHeight * 5 / 4, picture.v.size(), picture.v.begin());
    out.push_back(std::move(picture));
  }
  return out;
}

std::vector<Picture> drawn(const Piece& piece, const std::string& rate) {
  if (!piece.source.empty()) return taken_from(piece, rate);
  Drawing drawing(piece);
  std::vector<Picture> out;
  for (int i = 0; i < piece.frames; ++i) out.push_back(drawing.frame(i));
  return out;
}

void mix(std::vector<float>& into, const std::vector<float>& other, float share) {
  for (std::size_t i = 0; i < into.size(); ++i) into[i] += (other[i] - into[i]) * share;
}

Picture mixed(Picture a, const Picture& b, float share) {
  mix(a.y, b.y, share);
  mix(a.u, b.u, share);
  mix(a.v, b.v, share);
  return a;
}

Picture black() {
  Picture out;
  std::fill(out.y.begin(), out.y.end(), 16.0F);
  std::fill(out.u.begin(), out.u.end(), 128.0F);
  std::fill(out.v.begin(), out.v.end(), 128.0F);
  return out;
}

void write(FILE* to, const std::vector<float>& plane) {
  std::vector<std::uint8_t> bytes(plane.size());
  std::transform(plane.begin(), plane.end(), bytes.begin(),
                 [](float value) { return static_cast<std::uint8_t>(std::clamp(value, 16.0F, 235.0F)); });
  fwrite(bytes.data(), 1, bytes.size(), to);
}

}  // namespace

std::vector<Truth> make(const Film& film, const std::filesystem::path& out) {
  std::vector<Picture> all = drawn(film.pieces.front(), film.rate);
  std::vector<Truth> truth;
  for (std::size_t i = 1; i < film.pieces.size(); ++i) {
    const auto next = drawn(film.pieces[i], film.rate);
    const auto& join = film.joins[i - 1];
    if (next.empty()) return {};
    const auto count = static_cast<std::size_t>(join.frames);
    if (join.how == ShotStart::Cut) {
      truth.push_back({join.how, static_cast<int>(all.size()), static_cast<int>(all.size()) + 1});
      all.insert(all.end(), next.begin(), next.end());
    } else if (join.how == ShotStart::Dissolve) {
      const auto begin = all.size() - count;
      truth.push_back({join.how, static_cast<int>(begin), static_cast<int>(all.size())});
      for (std::size_t k = 0; k < count; ++k)
        all[begin + k] = mixed(std::move(all[begin + k]), next[k],
                               (static_cast<float>(k) + 1) / (static_cast<float>(count) + 1));
      all.insert(all.end(), next.begin() + join.frames, next.end());
    } else {
      const auto begin = all.size() - count;
      truth.push_back({join.how, static_cast<int>(begin), static_cast<int>(all.size() + count)});
      for (std::size_t k = 0; k < count; ++k)
        all[begin + k] = mixed(std::move(all[begin + k]), black(),
                               (static_cast<float>(k) + 1) / static_cast<float>(count));
      for (std::size_t k = 0; k < next.size(); ++k)
        all.push_back(
            k < count ? mixed(next[k], black(), 1 - (static_cast<float>(k) + 1) / static_cast<float>(count))
                      : next[k]);
    }
  }
  // Encoders cut their work by the processors there are, and their bytes with it: the same number everywhere.
  const std::string command = "ffmpeg -v error -y -f rawvideo -pix_fmt yuv420p -s " + std::to_string(kWidth) +
                              "x" + std::to_string(kHeight) + " -r " + film.rate + " -i - " + film.coding +
                              " -threads 2 " + quoted(out.string());
  const Pipe pipe(popen(command.c_str(), "w"));
  if (!pipe) return {};
  for (const auto& picture : all) {
    write(pipe.get(), picture.y);
    write(pipe.get(), picture.u);
    write(pipe.get(), picture.v);
  }
  return truth;
}

namespace {

struct Coding {
  std::string rate, arguments, ending;
};

const std::array<Coding, 8> kCodings{{
    {"25", "-c:v libx264 -preset veryfast -crf 24", ".mp4"},
    {"30000/1001", "-c:v libx264 -preset veryfast -crf 28 -bf 3", ".mov"},
    {"24", "-c:v mpeg4 -q:v 5", ".avi"},
    {"25", "-c:v mpeg2video -b:v 2M -flags +ilme+ildct", ".ts"},
    {"30", "-c:v libx265 -preset ultrafast -crf 27 -x265-params log-level=none:pools=2:frame-threads=1",
     ".mp4"},
    // Pictures come when they come, as from a phone.
    {"30",
     "-vf settb=1/1000,setpts='(N+0.4*mod(N\\,3))/30/TB' -vsync passthrough -enc_time_base 1/1000 -c:v "
     "libx264 -preset veryfast -crf 25",
     ".mkv"},
    {"50", "-c:v libx264 -preset veryfast -crf 24", ".mp4"},
    {"60", "-c:v libx264 -preset veryfast -crf 30", ".mp4"},
}};

constexpr std::array kAll{Happens::Nothing, Happens::Hands, Happens::Steam, Happens::Exposure, Happens::Flash,
                          Happens::WhipPan, Happens::Lid,   Happens::Pan,   Happens::Shake,    Happens::Busy};

constexpr std::array kRealClips{"sample_12_5fps_720p_1s.mp4",     "count-video.mp4",
                                "sample_android_slow_motion.mp4", "sample.avi",
                                "xdcam-ex-1080p25.mov",           "sample_portrait.mp4"};

std::vector<Film> films(const std::filesystem::path& clips, int first_seed) {
  std::mt19937 random(static_cast<unsigned>(first_seed));
  const auto any = [&](int count) { return static_cast<int>(random() % static_cast<unsigned>(count)); };
  std::vector<Film> out;
  const std::array<std::string, 4> lavfi{
      "testsrc2=s=320x180:r=25", "mandelbrot=s=320x180:r=25",
      "life=s=320x180:r=25:mold=10:ratio=0.2:death_color=#402010:life_color=#d0c080:seed=" +
          std::to_string(first_seed),
      "gradients=s=320x180:r=25:speed=0.02:seed=" + std::to_string(first_seed)};
  int seed = first_seed;
  for (int number = 0; number < 20; ++number) {
    Film film;
    const auto& coding = kCodings[static_cast<std::size_t>(number) % kCodings.size()];
    film.name = "film-" + std::to_string(first_seed) + "-" + std::to_string(number);
    film.rate = coding.rate;
    film.coding = coding.arguments;
    film.ending = coding.ending;
    const int count = 6;
    for (int i = 0; i < count; ++i) {
      Piece piece{50 + any(30), seed++, kAll[static_cast<std::size_t>(any(kAll.size()))], {}};
      if (number % 4 == 3 && i == 2) piece.source = lavfi[static_cast<std::size_t>(any(lavfi.size()))];
      if (number % 4 == 1 && i == 3) {
        // Chosen even where it is missing: all else stays the same then.
        const auto clip = clips / kRealClips[static_cast<std::size_t>(any(kRealClips.size()))];
        std::error_code error;
        if (std::filesystem::exists(clip, error)) piece.source = clip.string();
      }
      Join join;
      const int kind = any(10);
      if (kind >= 5 && kind < 8) join = {ShotStart::Dissolve, 12 + any(19)};
      if (kind >= 8) join = {ShotStart::Fade, 8 + any(12)};
      // A run of cuts after eight frames.
      if (number % 5 == 0 && (i == 2 || i == 3)) {
        piece.frames = 8;
        piece.happens = Happens::Nothing;
        join = {};
      }
      if (number % 5 == 0 && i == 4) join = {};
      film.pieces.push_back(piece);
      if (i > 0) film.joins.push_back(join);
    }
    out.push_back(std::move(film));
  }
  return out;
}

}  // namespace

std::vector<Film> development_set(const std::filesystem::path& clips) {
  return films(clips, 100);
}

std::vector<Film> held_out_set(const std::filesystem::path& clips) {
  return films(clips, 5000);
}

std::vector<Film> hard_material() {
  std::vector<Film> out;
  int seed = 900;
  for (const auto happens : kAll)
    for (int i = 0; i < 3; ++i)
      out.push_back({"hard-" + std::to_string(seed),
                     {{250, seed++, happens, {}}},
                     {},
                     "25",
                     kCodings[static_cast<std::size_t>(seed) % 2].arguments,
                     ".mp4"});
  return out;
}

void Score::add(const Score& other) {
  right += other.right;
  missed += other.missed;
  wrong += other.wrong;
}
double Score::precision() const {
  return right + wrong == 0 ? 1 : static_cast<double>(right) / (right + wrong);
}
double Score::recall() const {
  return right + missed == 0 ? 1 : static_cast<double>(right) / (right + missed);
}
double Score::f1() const {
  const double sum = precision() + recall();
  return sum == 0 ? 0 : 2 * precision() * recall() / sum;
}

Score compare(const std::vector<Truth>& truth, const std::vector<int>& found,
              const std::vector<ShotStart>& which) {
  const auto counts = [&](ShotStart how) {
    return std::find(which.begin(), which.end(), how) != which.end();
  };
  std::vector<bool> used(found.size());
  Score score;
  for (const auto& one : truth) {
    const int slack = one.how == ShotStart::Cut ? 1 : 0;
    bool seen = false;
    for (std::size_t i = 0; i < found.size() && !seen; ++i) {
      if (used[i] || found[i] < one.begin - slack || found[i] >= one.end + slack) continue;
      used[i] = true;
      seen = true;
    }
    if (!counts(one.how)) continue;
    ++(seen ? score.right : score.missed);
  }
  score.wrong = static_cast<int>(std::count(used.begin(), used.end(), false));
  return score;
}

}  // namespace panslate::shot_film
