#include "recipe/html_tree.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <csetjmp>
#include <cstdlib>
#include <ctime>

#include <gumbo.h>

namespace panslate {

namespace {

// The time that the HTML rules take grows with the square of how deep tags are nested, and so it is bounded
// by their number; large recipe pages with all their comments have some ten thousand.
constexpr std::size_t kMostTags = 30'000;

// Misnested emphasis multiplies by the rules; a page that does not fit is no recipe.
constexpr std::size_t kLeastBudget = std::size_t{64} << 20U;
constexpr std::size_t kBudgetPerByte = 64;

// What a tag count does not foresee (ends without a start, thousands of attributes in one tag) is cut off by
// the clock; the largest real pages take some 50 ms. It is this thread's own: a machine that is busy with
// other work must not make a page unreadable.
constexpr std::chrono::seconds kLongest{2};

std::chrono::nanoseconds processor_time() {
  timespec now{};
  if (clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now) != 0) clock_gettime(CLOCK_MONOTONIC, &now);
  return std::chrono::seconds(now.tv_sec) + std::chrono::nanoseconds(now.tv_nsec);
}

// Memory that goes at once: libgumbo frees its tree by recursion, which a deeply nested page would carry
// beyond the stack.
class Arena {
 public:
  explicit Arena(std::size_t budget) : left_(budget), latest_(processor_time() + kLongest) {}
  ~Arena() {
    while (last_ != nullptr) {
      auto* before = last_->before;
      std::free(last_);
      last_ = before;
    }
  }
  Arena(const Arena&) = delete;
  Arena& operator=(const Arena&) = delete;

  // Out of budget or time: leaves libgumbo by a jump. It is C and holds nothing but memory of this arena.
  static void* allocate(void* arena, std::size_t size) {
    auto* self = static_cast<Arena*>(arena);
    constexpr std::size_t kAligned = alignof(std::max_align_t);
    if (++self->asked_ % kBetweenLooks == 0 && processor_time() > self->latest_)
      std::longjmp(self->overflow_, 1);
    const auto rounded = (size + kAligned - 1) / kAligned * kAligned;
    if (rounded > self->left_ || (rounded > self->room_ && !self->grow(rounded)))
      std::longjmp(self->overflow_, 1);
    self->left_ -= rounded;
    auto* place = self->next_;
    self->next_ += rounded;
    self->room_ -= rounded;
    return place;
  }
  static void release(void*, void*) {}

  // A jump over this function and libgumbo skips no destructor.
  GumboOutput* parse(std::string_view html) {
    GumboOptions options = kGumboDefaultOptions;
    options.allocator = allocate;
    options.deallocator = release;
    options.userdata = this;
    options.max_errors = 0;
    if (setjmp(overflow_) != 0) return nullptr;
    return gumbo_parse_with_options(&options, html.data(), html.size());
  }

 private:
  struct alignas(std::max_align_t) Block {
    Block* before;
  };

  bool grow(std::size_t size) {
    constexpr std::size_t kUsual = std::size_t{256} << 10U;
    const auto bytes = std::max(size, kUsual);
    auto* block = static_cast<Block*>(std::malloc(sizeof(Block) + bytes));
    if (block == nullptr) return false;
    block->before = last_;
    last_ = block;
    next_ = reinterpret_cast<char*>(block) + sizeof(Block);
    room_ = bytes;
    return true;
  }

  static constexpr std::size_t kBetweenLooks = 256;  // at the clock

  Block* last_ = nullptr;
  char* next_ = nullptr;
  std::size_t room_ = 0;
  std::size_t left_;
  std::size_t asked_ = 0;
  std::chrono::nanoseconds latest_;
  std::jmp_buf overflow_ = {};
};

constexpr std::array<std::string_view, 12> kKept = {"type",     "itemprop", "itemtype", "itemscope",
                                                    "property", "typeof",   "content",  "datetime",
                                                    "href",     "hidden",   "style",    "id"};

std::size_t count_tags(std::string_view html) {
  std::size_t count = 0;
  for (auto at = html.find('<'); at != std::string_view::npos; at = html.find('<', at + 1)) {
    const char next = at + 1 < html.size() ? html[at + 1] : '\0';
    count += static_cast<std::size_t>((next >= 'a' && next <= 'z') || (next >= 'A' && next <= 'Z'));
  }
  return count;
}

bool is_element(const GumboNode& node) {
  return node.type == GUMBO_NODE_ELEMENT || node.type == GUMBO_NODE_TEMPLATE;
}

std::optional<HtmlNode> as_node(const GumboNode& node) {
  HtmlNode out;
  if (is_element(node)) {
    const auto& element = node.v.element;
    out.tag = gumbo_normalized_tagname(element.tag);
    if (out.tag.empty()) out.tag = "?";
    out.line = static_cast<int>(element.start_pos.line);
    for (unsigned int i = 0; i < element.attributes.length; ++i) {
      const auto* attribute = static_cast<const GumboAttribute*>(element.attributes.data[i]);
      if (std::find(kKept.begin(), kKept.end(), attribute->name) != kKept.end())
        out.attributes.emplace_back(attribute->name, attribute->value);
    }
    return out;
  }
  const bool text =
      node.type == GUMBO_NODE_TEXT || node.type == GUMBO_NODE_WHITESPACE || node.type == GUMBO_NODE_CDATA;
  if (!text) return std::nullopt;
  out.text = node.v.text.text;
  out.line = static_cast<int>(node.v.text.start_pos.line);
  return out;
}

struct Open {
  const GumboNode* node;
  unsigned int next_child;
  std::size_t index;
};

HtmlTree flattened(const GumboNode* root) {
  HtmlTree tree;
  std::vector<Open> open;
  const auto enter = [&](const GumboNode* node) {
    auto made = as_node(*node);
    if (!made) return;
    made->end = tree.size() + 1;
    tree.push_back(*std::move(made));
    if (is_element(*node)) open.push_back({node, 0, tree.size() - 1});
  };
  enter(root);
  while (!open.empty()) {
    auto& top = open.back();
    const auto& children = top.node->v.element.children;
    if (top.next_child < children.length) {
      enter(static_cast<const GumboNode*>(children.data[top.next_child++]));
      continue;
    }
    tree[top.index].end = tree.size();
    open.pop_back();
  }
  return tree;
}

}  // namespace

bool HtmlNode::has(std::string_view attribute) const {
  return std::any_of(attributes.begin(), attributes.end(),
                     [&](const auto& one) { return one.first == attribute; });
}

std::string_view HtmlNode::value(std::string_view attribute) const {
  for (const auto& [name, content] : attributes)
    if (name == attribute) return content;
  return {};
}

std::optional<HtmlTree> parse_html(std::string_view html) {
  if (count_tags(html) > kMostTags) return std::nullopt;
  Arena arena(std::max(kLeastBudget, html.size() * kBudgetPerByte));
  const auto* output = arena.parse(html);
  if (output == nullptr) return std::nullopt;
  return flattened(output->root);
}

}  // namespace panslate
