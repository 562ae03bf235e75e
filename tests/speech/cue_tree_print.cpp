#include "speech/cue_tree_print.h"

#include <string_view>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"

namespace panslate {

namespace {

/// The element that a node becomes ("WebVTT cue text DOM construction rules", section 6.5).
std::string_view element_of(VttNode::Kind kind) {
  switch (kind) {
    case VttNode::Kind::Class:
    case VttNode::Kind::Voice:
    case VttNode::Kind::Language:
      return "span";
    case VttNode::Kind::Italic:
      return "i";
    case VttNode::Kind::Bold:
      return "b";
    case VttNode::Kind::Underline:
      return "u";
    case VttNode::Kind::Ruby:
      return "ruby";
    case VttNode::Kind::RubyText:
      return "rt";
    case VttNode::Kind::Text:
    case VttNode::Kind::Timestamp:
      break;
  }
  return "";
}

}  // namespace

std::string printed_tree(const std::vector<VttNode>& nodes) {
  std::string out;
  std::vector<std::size_t> depths(nodes.size(), 0);
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const auto& node = nodes[i];
    depths[i] = node.parent ? depths[*node.parent] + 1 : 0;
    const std::string start = "| " + std::string(2 * depths[i], ' ');
    if (node.kind == VttNode::Kind::Text) {
      out += start + '"' + node.value + "\"\n";
      continue;
    }
    if (node.kind == VttNode::Kind::Timestamp) {
      out += start + "<?timestamp " + format_timestamp(node.time, TimestampStyle::Clock) + ">\n";
      continue;
    }
    out += start + '<' + std::string(element_of(node.kind)) + ">\n";
    if (!node.classes.empty()) out += start + "  class=\"" + join(node.classes, " ") + "\"\n";
    if (node.kind == VttNode::Kind::Language) out += start + "  lang=\"" + node.value + "\"\n";
    if (node.kind == VttNode::Kind::Voice) out += start + "  title=\"" + node.value + "\"\n";
  }
  return out;
}

}  // namespace panslate
