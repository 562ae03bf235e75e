#pragma once

#include <cstdint>
#include <string_view>

/// The verbs of a method: what is done to food, in any of their forms.
namespace panslate {

enum class ActionKind : std::uint8_t {
  None,
  Heat,    ///< bake, simmer, fry: what a temperature or a time belongs to first
  Wait,    ///< rest, chill, prove, soak, leave
  Work,    ///< knead, whisk, chop, add: hands-on
  Attend,  ///< stir, turn, baste: done in the course of something else when said as "stirring"
};

struct Action {
  ActionKind kind = ActionKind::None;
  std::string_view verb;  ///< the plain form, "bake"
  bool is_ing = false;    ///< said as "baking"
  bool is_past = false;   ///< said as "baked"
};

/// The action that a folded word tells; kind None when it is no verb of cooking.
[[nodiscard]] Action action_of(std::string_view folded_word);

}  // namespace panslate
