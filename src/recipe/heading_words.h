#pragma once

#include <cstdint>
#include <string>
#include <string_view>

/// What the headings of a written recipe mean.
namespace panslate {

enum class SectionKind : std::uint8_t { None, Ingredients, Method, Notes, Equipment };

/// How sure the shape of a line makes it a heading: a marked heading may be worded freely ("Making the sauce:
/// ingredients"), a bare line must be the word itself.
enum class HeadingShape : std::uint8_t { Marked, Bare };

/// The section that a heading opens; None for any other ("For the sauce", "Sauce").
[[nodiscard]] SectionKind section_of(std::string_view heading, HeadingShape shape);

/// Length in bytes of a section word that opens a line and goes on ("Method: Heat the oil …", "Ingredients:
/// flour, salt"), with its colon; 0 when there is none. `kind` gets the section.
[[nodiscard]] std::size_t inline_section(std::string_view line, SectionKind& kind);

/// The part of the dish named by a section heading: "For the sauce" of "Ingredients for the sauce", "Sauce"
/// of "Sauce ingredients"; empty for a plain "Ingredients (serves 4)".
[[nodiscard]] std::string part_in_section_heading(std::string_view heading);

/// A heading as a group's name: without colon and surrounding marks.
[[nodiscard]] std::string group_name(std::string_view heading);

/// A heading as the name of a part of the method: "filling" of "For the filling:".
[[nodiscard]] std::string part_name(std::string_view heading);

/// "Note: …", "Tip – …": said aside, no step.
[[nodiscard]] bool is_aside(std::string_view line);

}  // namespace panslate
