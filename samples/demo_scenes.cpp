#include "demo_scenes.h"

#include <algorithm>

#include "panslate/base/text.h"
#include "panslate/media/render.h"

namespace panslate::samples {

namespace {

constexpr std::string_view kFont = "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf";

// Draws a scene from the back to the front. Positions are in pixels and may be expressions of the time `t`.
class Drawing {
 public:
  Drawing(FrameRate rate, std::string_view colour)
      : still_("color=c=" + std::string(colour) + ":s=640x360:r=" + std::to_string(rate.num) + '/' +
               std::to_string(rate.den)) {}

  Drawing& box(int x, int y, int width, int height, std::string_view colour) {
    layer(false) += ",drawbox=x=" + std::to_string(x) + ":y=" + std::to_string(y) +
                    ":w=" + std::to_string(width) + ":h=" + std::to_string(height) +
                    ":t=fill:c=" + std::string(colour);
    return *this;
  }

  // A board of planks, a lighter seam between them.
  Drawing& planks(std::string_view seam) {
    for (int y = 60; y < 360; y += 60) box(0, y, 640, 2, seam);
    return *this;
  }

  // A round thing: libavfilter draws no circles, a font does. `size` is about the diameter.
  Drawing& disc(std::string_view x, std::string_view y, int size, std::string_view colour) {
    return glyph("\xE2\x97\x8F", x, y, size * 13 / 10, colour);  // ● is about 10/13 of the font size across
  }

  Drawing& glyph(std::string_view sign, std::string_view x, std::string_view y, int size,
                 std::string_view colour) {
    return text(sign, "(" + std::string(x) + ")-tw/2", "(" + std::string(y) + ")-th/2", size, colour);
  }

  Drawing& label(std::string_view words, int x, int y) {
    return text(words, std::to_string(x) + "-tw/2", std::to_string(y), 20,
                "white:box=1:boxborderw=4:boxcolor=black@0.55");
  }

  // The name and the running clock of the clip, small in a corner: what a person looks for when she seeks a
  // part.
  [[nodiscard]] Scene done(std::string clip, FrameRate rate, int seconds, std::string recorded) {
    layer(true);
    text(clip + "  %{pts:hms}", "8", "8", 14, "white@0.8");
    return {std::move(clip), rate, MediaTime::from_seconds(seconds), std::move(recorded), still_, moving_};
  }

 private:
  Drawing& text(std::string_view words, std::string_view x, std::string_view y, int size,
                std::string_view colour) {
    layer(is_of_time(x) || is_of_time(y)) +=
        ",drawtext=fontfile=" + std::string(kFont) + ":text=" + graph_value(words) + ":x=" + graph_value(x) +
        ":y=" + graph_value(y) + ":fontsize=" + std::to_string(size) + ":fontcolor=" + std::string(colour);
    return *this;
  }

  // The variable `t`, not a letter of "tw" or "mod".
  [[nodiscard]] static bool is_of_time(std::string_view expression) {
    const auto is_letter = [&](std::size_t at) {
      return at < expression.size() && expression[at] >= 'a' && expression[at] <= 'z';
    };
    for (std::size_t at = 0; at < expression.size(); ++at)
      if (expression[at] == 't' && !is_letter(at + 1) && (at == 0 || !is_letter(at - 1))) return true;
    return false;
  }

  // What stands still in front of something that moves is drawn with it.
  std::string& layer(bool moves) {
    has_moved_ = has_moved_ || moves;
    return has_moved_ ? moving_ : still_;
  }

  std::string still_;
  std::string moving_;
  bool has_moved_ = false;
};

constexpr FrameRate kPal{25, 1};
constexpr FrameRate kNtsc{30000, 1001};

Drawing table(FrameRate rate = kPal) {
  Drawing drawing(rate, "0x7a5a3c");
  drawing.planks("0x6a4c31");
  return drawing;
}

Drawing hob(FrameRate rate = kPal) {
  Drawing drawing(rate, "0x30343a");
  drawing.disc("320", "200", 330, "0x22262b").disc("320", "200", 300, "0x3d434b");
  return drawing;
}

Drawing oven_front() {
  Drawing drawing(kPal, "0x555b66");
  drawing.box(90, 110, 460, 230, "0x1d1f24")
      .box(110, 130, 420, 190, "0x3a2412")
      .box(90, 88, 460, 12, "0xb8bcc4");
  return drawing;
}

// The dish with eight halved plums that get darker where they are hot.
Drawing& plum_dish(Drawing& drawing, std::string_view skin, std::string_view flesh) {
  drawing.box(170, 120, 300, 170, "0xe7e0d2").box(180, 130, 280, 150, "0xcdbfa8");
  for (int i = 0; i < 8; ++i) {
    const auto x = std::to_string(215 + i % 4 * 70);
    const auto y = std::to_string(170 + i / 4 * 70);
    drawing.disc(x, y, 56, skin).disc(x, y, 44, flesh);
  }
  return drawing;
}

Drawing& bowls(Drawing& drawing) {
  for (int i = 0; i < 4; ++i) {
    const auto x = std::to_string(110 + i * 140);
    drawing.disc(x, "200", 120, "0x2f5d73").disc(x, "200", 100, "0xf1e3b4");
  }
  return drawing;
}

std::vector<Scene> draw_all() {
  std::vector<Scene> scenes;

  auto intro = table();
  bowls(intro);
  for (int i = 0; i < 4; ++i) {
    const auto x = 110 + i * 140;
    intro.disc(std::to_string(x - 18), "190", 34, "0x7a2348")
        .disc(std::to_string(x + 16), "186", 34, "0x7a2348");
    intro.disc(std::to_string(x), "222", 26, "0x8a5a2b");
    intro.glyph("~", std::to_string(x) + "+6*sin(2*t+" + std::to_string(i) + ")", "120-6*mod(t,3)", 40,
                "white@0.5");
  }
  scenes.push_back(intro.done("intro", kPal, 28, "2026-03-14T15:42:10Z"));

  Drawing oven(kPal, "0x555b66");
  oven.box(60, 60, 520, 240, "0x2a2d33")
      .disc("320", "180", 180, "0xb8bcc4")
      .disc("320", "180", 150, "0x17191d");
  oven.disc("320+58*cos(min(t/4,3.4)+2.4)", "180+58*sin(min(t/4,3.4)+2.4)", 18, "0xff7a2a");
  oven.glyph("\xE2\x99\xA8", "500", "110", 60, "0xff7a2a@0.8");
  scenes.push_back(oven.done("oven", kPal, 20, "2026-03-14T10:03:25Z"));

  auto plums = table();
  plum_dish(plums, "0x5a1f4a", "0xd98a3a");
  plums.box(180, 230, 280, 50, "0xd9a441@0.35").label("plums", 320, 300);
  plums.disc("530", "130+4*sin(3*t)", 70, "0xd9a441").label("apple juice", 545, 190);
  plums.glyph("\xE2\x9C\xB9", "80+57*min(max(t-14,0),3)", "205", 50, "0x6b3a12");
  plums.glyph("\xE2\x9C\xB9", "80+104*min(max(t-15,0),3)", "205", 50, "0x6b3a12")
      .label("star anise", 90, 250);
  scenes.push_back(plums.done("plums", kPal, 26, "2026-03-14T10:11:48Z"));

  auto roast = oven_front();
  plum_dish(roast, "0x4a1838", "0xb5602a");
  roast.box(110, 130, 420, 190, "0xff7a2a@0.15");
  for (int i = 0; i < 3; ++i)
    roast.glyph("~", std::to_string(230 + i * 90), "150-20*mod(t+" + std::to_string(i) + ",4)", 44,
                "white@0.4");
  roast.label("plums", 320, 300);
  scenes.push_back(roast.done("roast", kPal, 21, "2026-03-14T10:31:02Z"));

  auto millet = hob(kNtsc);
  millet.disc("320+8*sin(6*t)", "200", 240, "0x8d939c").disc("320+8*sin(6*t)", "200", 210, "0xe3c15a");
  for (int i = 0; i < 12; ++i)
    millet.disc("320+" + std::to_string((i * 53) % 160 - 80) + "+14*sin(6*t+" + std::to_string(i) + ")",
                "200+" + std::to_string((i * 37) % 140 - 70), 10, "0xb8902f");
  millet.label("millet", 320, 325);
  scenes.push_back(millet.done("millet", kNtsc, 24, "2026-03-14T10:38:51Z"));

  auto simmer = hob();
  simmer.disc("320", "200", 240, "0x8d939c").disc("320", "200", 210, "0xefe6d2");
  for (int i = 0; i < 9; ++i)
    simmer.disc("320+" + std::to_string((i * 61) % 150 - 75),
                "200+" + std::to_string((i * 43) % 130 - 65) + "-6*mod(3*t+" + std::to_string(i) + ",4)", 12,
                "0xfffaf0");
  simmer.box(540, 60, 50, 120, "0xf7f3ea").label("almond drink", 550, 190);
  simmer.disc("70", "130", 60, "0x9a8148").label("cardamom", 72, 180);
  scenes.push_back(simmer.done("simmer", kPal, 29, "2026-03-14T10:45:17Z"));

  auto syrup = hob();
  syrup.disc("320", "200", 240, "0x8d939c").disc("320", "200", 210, "0xf1e3b4");
  syrup.disc("320+60*cos(2*t)", "200+60*sin(2*t)", 40, "0xa5621a@0.7");
  syrup.box(545, 50, 40, 130, "0xa5621a").label("maple syrup", 550, 190);
  scenes.push_back(syrup.done("syrup", kPal, 20, "2026-03-14T11:14:36Z"));

  auto crumb = table();
  crumb.disc("320", "190", 260, "0xd5dde0").disc("320", "190", 230, "0xb88a52");
  for (int i = 0; i < 14; ++i)
    crumb.disc("320+" + std::to_string((i * 59) % 170 - 85) + "+5*sin(4*t+" + std::to_string(i) + ")",
               "190+" + std::to_string((i * 47) % 150 - 75) + "+5*cos(4*t+" + std::to_string(i) + ")", 20,
               i % 2 == 0 ? "0x7a4a1e" : "0xd9c08a");
  crumb.label("hazelnuts", 80, 90).label("buckwheat flour", 90, 260);
  crumb.label("demerara sugar", 545, 90).label("coconut oil", 550, 260);
  scenes.push_back(crumb.done("crumb", kPal, 26, "2026-03-14T11:02:09Z"));

  auto bake = oven_front();
  bake.box(150, 200, 340, 60, "0xb8bcc4").box(158, 206, 324, 48, "0xa8692c");
  for (int i = 0; i < 16; ++i)
    bake.disc(std::to_string(175 + i * 20), std::to_string(222 + i * 7 % 20), 16, "0x8a5220");
  bake.box(110, 130, 420, 190, "0xff7a2a@0.12")
      .glyph("~", "320+20*sin(t)", "160-10*mod(t,3)", 44, "white@0.4");
  scenes.push_back(bake.done("bake", kPal, 25, "2026-03-14T11:19:44Z"));

  auto finish = table();
  bowls(finish);
  for (int i = 0; i < 4; ++i) {
    const auto x = 110 + i * 140;
    const auto drop = [&](int left, int top, int size, std::string_view colour, int from) {
      finish.disc(std::to_string(x + left),
                  std::to_string(top) + "-300*max(" + std::to_string(from + i) + "-t,0)", size, colour);
    };
    drop(-16, 186, 36, "0x7a2348", 4);
    drop(18, 190, 36, "0x7a2348", 5);
    drop(0, 218, 28, "0x8a5a2b", 10);
  }
  finish.label("millet", 110, 285).label("plums", 530, 285);
  scenes.push_back(finish.done("bowls", kPal, 35, "2026-03-14T15:27:30Z"));
  return scenes;
}

}  // namespace

const std::vector<Scene>& demo_scenes() {
  static const std::vector<Scene> scenes = draw_all();
  return scenes;
}

const Scene* find_scene(std::string_view clip) {
  const auto& scenes = demo_scenes();
  const auto found =
      std::find_if(scenes.begin(), scenes.end(), [&](const Scene& scene) { return scene.clip == clip; });
  return found == scenes.end() ? nullptr : &*found;
}

std::string scene_chain(const Scene& scene) {
  return scene.still + ",trim=end_frame=1,loop=loop=-1:size=1,setpts=N" + scene.moving;
}

std::string scene_chain(const Scene& scene, TimeRange stretch) {
  return scene.still +
         ",trim=end_frame=1,loop=loop=-1:size=1,setpts=N,trim=start=" + filter_seconds(stretch.begin) +
         ":end=" + filter_seconds(stretch.end) + scene.moving;
}

std::string filter_seconds(MediaTime time) {
  const auto us = time.to_frames({1'000'000, 1}, Round::Nearest);
  return std::to_string(us / 1'000'000) + '.' + std::to_string(1'000'000 + us % 1'000'000).substr(1);
}

std::string title_filter(std::string_view words, TimeRange when) {
  std::string filters;
  const auto lines = split_lines(words);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const auto y = 310 - 36 * static_cast<int>(lines.size() - 1 - i);
    filters += ",drawtext=fontfile=" + std::string(kFont) + ":text=" + graph_value(lines[i].text) +
               ":x=40:y=" + std::to_string(y) +
               ":fontsize=26:fontcolor=white:box=1:boxborderw=6:boxcolor=0x203040@0.8:enable=" +
               graph_value("between(t," + filter_seconds(when.begin) + "," + filter_seconds(when.end) + ")");
  }
  return filters.empty() ? filters : filters.substr(1);
}

}  // namespace panslate::samples
