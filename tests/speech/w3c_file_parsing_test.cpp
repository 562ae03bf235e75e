// Runs the W3C's own WebVTT file parsing tests (web-platform-tests, webvtt/parsing/file-parsing), as they are
// written, on parse_webvtt. The tests are no part of this repository.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/speech/webvtt.h"

#include "speech/script.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;
using script::Arguments;
using script::Interpreter;
using script::Object;
using script::ScriptError;
using script::Value;

std::string read_file(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw ScriptError("cannot read " + path.string());
  return {std::istreambuf_iterator<char>(in), {}};
}

fs::path tests_folder() {
  return fs::path(PANSLATE_SOURCE_DIR) / "../shared/media/webvtt/parsing/file-parsing";
}

/// The scripts written in a page, one after the other.
std::string scripts_of(std::string_view page) {
  constexpr std::string_view kOpen = "<script>";
  std::string out;
  for (auto at = page.find(kOpen); at != std::string_view::npos; at = page.find(kOpen, at)) {
    at += kOpen.size();
    const auto end = page.find("</script>", at);
    out += page.substr(at, end - at);
    out += '\n';
  }
  return out;
}

const char* name_of(VttVertical value) {
  switch (value) {
    case VttVertical::Horizontal:
      return "";
    case VttVertical::GrowingLeft:
      return "rl";
    case VttVertical::GrowingRight:
      return "lr";
  }
  return "?";
}

const char* name_of(VttAlign value) {
  switch (value) {
    case VttAlign::Start:
      return "start";
    case VttAlign::Center:
      return "center";
    case VttAlign::End:
      return "end";
    case VttAlign::Left:
      return "left";
    case VttAlign::Right:
      return "right";
  }
  return "?";
}

const char* name_of(VttLineAlign value) {
  switch (value) {
    case VttLineAlign::Start:
      return "start";
    case VttLineAlign::Center:
      return "center";
    case VttLineAlign::End:
      return "end";
  }
  return "?";
}

const char* name_of(VttPositionAlign value) {
  switch (value) {
    case VttPositionAlign::Auto:
      return "auto";
    case VttPositionAlign::LineLeft:
      return "line-left";
    case VttPositionAlign::Center:
      return "center";
    case VttPositionAlign::LineRight:
      return "line-right";
  }
  return "?";
}

Value text(std::string value) {
  return value;
}
Value number_or_auto(std::optional<double> value) {
  return value ? Value(*value) : text("auto");
}

/// The little of a browser that the tests touch: elements, text tracks, and the test harness's assertions.
class Browser {
 public:
  explicit Browser(fs::path folder) : folder_(std::move(folder)) {
    add_document();
    add_harness();
  }

  /// Runs a page's scripts, then loads its tracks. Throws ScriptError at the first thing that does not hold.
  void run(std::string_view page) {
    scripts_.run(scripts_of(page));
    for (auto* track : tracks_) load(*track);
    if (unfinished_ != 0) throw ScriptError("a test did not come to its end");
    if (assertions_ == 0) throw ScriptError("nothing was asserted");
  }

 private:
  void add_document() {
    auto* document = scripts_.object();
    document->properties["createElement"] =
        scripts_.function([this](const Value&, const Arguments& given) -> Value {
          return element(script::to_text(given.at(0)));
        });
    document->properties["styleSheets"] = scripts_.array();
    document->properties["body"] = element("body");
    scripts_.set_global("document", document);
    scripts_.set_global("getVideoURI", nothing());
  }

  Object* nothing() {
    return scripts_.function([](const Value&, const Arguments&) -> Value { return {}; });
  }

  Object* element(const std::string& name) {
    auto* made = scripts_.object();
    made->properties["src"] = text("");
    made->properties["textTracks"] = scripts_.array();
    made->properties["appendChild"] = scripts_.function([](const Value& self,
                                                           const Arguments& given) -> Value {
      auto* parent = std::get<Object*>(self);
      auto* child = std::get<Object*>(given.at(0));
      child->properties["parentNode"] = parent;
      if (child->properties.contains("track"))
        std::get<Object*>(parent->properties["textTracks"])->elements.push_back(child->properties["track"]);
      return {};
    });
    if (name == "track") {
      auto* track = scripts_.object();
      track->properties["cues"] = scripts_.array();
      made->properties["track"] = track;
      tracks_.push_back(made);
    }
    return made;
  }

  using Check = bool (*)(const Arguments& given);
  void add_assertion(const std::string& name, Check holds) {
    scripts_.set_global(name,
                        scripts_.function([this, name, holds](const Value&, const Arguments& given) -> Value {
                          ++assertions_;
                          if (holds(given)) return {};
                          std::string message = name + ":";
                          for (const auto& value : given) message += " '" + script::to_text(value) + "'";
                          throw ScriptError(message);
                        }));
  }

  void add_harness() {
    add_assertion("assert_equals",
                  [](const Arguments& given) { return same_value(given.at(0), given.at(1)); });
    add_assertion("assert_not_equals",
                  [](const Arguments& given) { return !same_value(given.at(0), given.at(1)); });
    add_assertion("assert_true", [](const Arguments& given) { return given.at(0) == Value(true); });
    add_assertion("assert_false", [](const Arguments& given) { return given.at(0) == Value(false); });
    add_assertion("assert_unreached", [](const Arguments&) { return false; });
    scripts_.set_global("done", nothing());
    scripts_.set_global("async_test",
                        scripts_.function([this](const Value&, const Arguments& given) -> Value {
                          return async_test(given);
                        }));
  }

  Value async_test(const Arguments& given) {
    ++unfinished_;
    auto* test = scripts_.object();
    const auto finish = [this, test](const Value&, const Arguments&) -> Value {
      if (!std::exchange(test->properties["is_done"], Value(true)).index()) --unfinished_;
      return {};
    };
    test->properties["done"] = scripts_.function(finish);
    test->properties["step"] = scripts_.function([test](const Value&, const Arguments& step) -> Value {
      return Interpreter::call(step.at(0), test, {});
    });
    test->properties["step_func"] =
        scripts_.function([this, test](const Value&, const Arguments& step) -> Value {
          return scripts_.function(
              [test, callee = step.at(0)](const Value&, const Arguments& arguments) -> Value {
                return Interpreter::call(callee, test, arguments);
              });
        });
    test->properties["step_func_done"] =
        scripts_.function([this, test, finish](const Value&, const Arguments& step) -> Value {
          return scripts_.function(
              [test, finish, callee = step.at(0)](const Value&, const Arguments& arguments) -> Value {
                auto result = Interpreter::call(callee, test, arguments);
                finish({}, {});
                return result;
              });
        });
    if (std::holds_alternative<Object*>(given.at(0))) Interpreter::call(given[0], test, {test});
    return test;
  }

  void load(Object& element) {
    const auto file =
        parse_webvtt(read_file(folder_ / script::to_text(element.properties["src"])), "track.vtt");
    auto* event = scripts_.object();
    event->properties["target"] = &element;
    if (file) {
      auto* track = std::get<Object*>(element.properties["track"]);
      std::get<Object*>(track->properties["cues"])->elements = cues_of(*file);
    }
    Interpreter::call(element.properties[file ? "onload" : "onerror"], {}, {event});
  }

  std::vector<Value> cues_of(const VttFile& file) {
    std::vector<Value> regions;
    for (const auto& region : file.regions) {
      auto* made = scripts_.object();
      made->properties = {{"id", region.id},
                          {"width", region.width},
                          {"lines", region.lines},
                          {"regionAnchorX", region.region_anchor.x},
                          {"regionAnchorY", region.region_anchor.y},
                          {"viewportAnchorX", region.viewport_anchor.x},
                          {"viewportAnchorY", region.viewport_anchor.y},
                          {"scroll", text(region.scroll == VttScroll::Up ? "up" : "")}};
      regions.emplace_back(made);
    }
    std::vector<Value> cues;
    for (const auto& cue : file.cues) {
      auto* made = scripts_.object();
      made->properties = {{"id", cue.id},
                          {"startTime", cue.start.seconds()},
                          {"endTime", cue.end.seconds()},
                          {"vertical", text(name_of(cue.vertical))},
                          {"snapToLines", cue.snap_to_lines},
                          {"line", number_or_auto(cue.line)},
                          {"lineAlign", text(name_of(cue.line_align))},
                          {"position", number_or_auto(cue.position)},
                          {"positionAlign", text(name_of(cue.position_align))},
                          {"size", cue.size},
                          {"align", text(name_of(cue.align))},
                          {"region", cue.region ? regions[*cue.region] : Value(script::Null{})},
                          {"text", cue.text}};
      cues.emplace_back(made);
    }
    return cues;
  }

  fs::path folder_;
  Interpreter scripts_;
  std::vector<Object*> tracks_;
  int unfinished_ = 0;
  int assertions_ = 0;
};

std::vector<fs::path> pages() {
  std::vector<fs::path> found;
  for (const auto& folder : {tests_folder(), tests_folder() / "tests"}) {
    std::error_code error;
    for (const auto& entry : fs::directory_iterator(folder, error))
      if (entry.path().extension() == ".html") found.push_back(entry.path());
  }
  std::sort(found.begin(), found.end());
  return found;
}

TEST(W3cFileParsing, EveryPageHolds) {
  const auto found = pages();
  if (found.empty()) GTEST_SKIP() << "the W3C's tests are not at " << tests_folder();
  EXPECT_GE(found.size(), 41U);  // 40 of tests/ and signature-invalid.html, counted by hand
  for (const auto& page : found) {
    try {
      Browser(page.parent_path()).run(read_file(page));
    } catch (const ScriptError& error) {
      ADD_FAILURE() << page.filename().string() << ": " << error.what();
    }
  }
}

// A harness that cannot fail proves nothing.
TEST(W3cFileParsing, TheHarnessNoticesWhatDoesNotHold) {
  const auto message_of = [](const std::string& source) -> std::string {
    try {
      Browser("/").run("<script>" + source + "</script>");
    } catch (const ScriptError& error) {
      return error.what();
    }
    return "";
  };
  EXPECT_EQ(message_of("assert_equals(1 + 1, 2);"), "");
  EXPECT_EQ(message_of("assert_equals(0, -0);"), "assert_equals: '0' '-0'");
  EXPECT_EQ(message_of("[1, 2].forEach(function(v, i) { assert_equals(v, i + 1, 'no ' + i); });"), "");
  EXPECT_EQ(message_of("[1, 3].forEach(function(v, i) { assert_equals(v, i + 1, 'no ' + i); });"),
            "assert_equals: '3' '2' 'no 1'");
  EXPECT_EQ(message_of("var t = async_test('a'); t.step(function() { assert_true(true); });"),
            "a test did not come to its end");
  EXPECT_EQ(message_of("var a = 1;"), "nothing was asserted");
  EXPECT_EQ(message_of("class A {}"), "nothing is called class");
}

}  // namespace
}  // namespace panslate
