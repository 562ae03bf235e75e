#include "check/other_amounts.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <utility>

#include "panslate/kitchen/say_amount.h"

/// Which slips of the tongue are worth listening for is common practice, no source.
namespace panslate {

namespace {

using Node = std::uint32_t;
using Phrase = std::vector<std::string>;

constexpr double kOtherKind = 0.1;

/// Numbers that lead to the same words: the script's own number ends at nodes of its own, where its unit is
/// missing.
struct Ends {
  Node one = 0;   ///< "a cup", "half a cup"
  Node more = 0;  ///< "two cups"
  Node part = 0;  ///< "half", before "a cup" or "of a cup"
  Node own_one = 0;
  Node own_more = 0;
  Node own_part = 0;
};

enum class Range : std::uint8_t { Few, Minutes, Many };
enum class Parts : bool { Whole, AlsoParts };

constexpr std::array<std::int64_t, 36> kFew{1,  2,  3,  4,  5,  6,  7,  8,  9,  10, 11, 12,
                                            13, 14, 15, 16, 17, 18, 19, 20, 24, 25, 30, 35,
                                            40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95};
constexpr std::array<std::pair<std::int64_t, std::int64_t>, 6> kPartsOfOne{
    {{1, 2}, {1, 4}, {3, 4}, {1, 3}, {2, 3}, {1, 8}}};

class Builder {
 public:
  Builder(Sayings& out, std::optional<Ratio> own) : out_(out), own_(own) {}

  [[nodiscard]] Ends new_ends() {
    return {out_.add_node(), out_.add_node(), out_.add_node(),
            out_.add_node(), out_.add_node(), out_.add_node()};
  }

  // Numbers from a node to the ends.
  void numbers(Node from, const Ends& ends, Range range, Parts parts, double weight) {
    for (const auto number : kFew)
      if (range != Range::Minutes || number <= 90) whole(from, ends, number, weight);
    if (range == Range::Minutes)
      for (std::int64_t n = 21; n < 60; ++n)
        if (std::find(kFew.begin(), kFew.end(), n) == kFew.end()) whole(from, ends, n, weight);
    if (range == Range::Many) hundreds(from, ends, weight);
    if (parts == Parts::Whole) return;
    for (const auto& [num, den] : kPartsOfOne) {
      const auto value = *Ratio::make(num, den);
      for (const auto& way : ways_to_say(value))
        if (way.front() != "zero" && way.front() != "point")
          out_.add_phrase(from, is_own(value) ? ends.own_part : ends.part, way, weight);
      for (std::int64_t w = 1; w <= 4; ++w) {
        const auto mixed = value.plus(w);
        if (den > 4 || !mixed) continue;
        for (const auto& way : ways_to_say(*mixed))
          if (std::find(way.begin(), way.end(), "point") == way.end())
            out_.add_phrase(from, is_own(*mixed) ? ends.own_more : ends.more, way, weight);
      }
    }
  }

  // "one point two"
  void decimals(Node from, const Ends& ends, double weight) {
    for (std::int64_t tenths = 1; tenths < 50; ++tenths) {
      const auto value = *Ratio::make(tenths, 10);
      if (value.is_whole()) continue;
      for (const auto& way : ways_to_say(value))
        if (std::find(way.begin(), way.end(), "point") != way.end() && way.front() != "point")
          out_.add_phrase(from, is_own(value) ? ends.own_more : ends.more, way, weight);
    }
  }

  void units(const Ends& ends, Node to, std::initializer_list<Unit> units, std::optional<Unit> own,
             const Phrase& between) {
    for (const bool is_own : {false, true}) {
      const Node one = is_own ? ends.own_one : ends.one;
      const Node more = is_own ? ends.own_more : ends.more;
      const Node part = is_own ? ends.own_part : ends.part;
      const Node part_of = out_.add_node();
      const Node before_unit = out_.add_node();
      out_.add_arc(part, before_unit, {});
      out_.add_arc(part, part_of, "of");
      for (const auto from : {part, part_of})
        for (const auto* const article : {"a", "an"}) out_.add_arc(from, before_unit, article);
      for (const auto unit : units) {
        if (is_own && unit == own) continue;
        for (const auto& word : words_for(unit, Count::One)) {
          unit_word(one, to, between, word);
          out_.add_phrase(before_unit, to, word);
        }
        for (const auto& word : words_for(unit, Count::More)) unit_word(more, to, between, word);
      }
    }
  }

  // "a cup and a half"
  void and_a_half(Node from, Node to, std::initializer_list<Unit> units, std::optional<Unit> own,
                  double weight) {
    for (const auto unit : units)
      for (const auto& [part, num] : {std::pair{"half", 2}, std::pair{"quarter", 1}}) {
        if (unit == own && own_ && *own_ == *Ratio::make(4 + num, 4)) continue;
        for (auto word : words_for(unit, Count::One)) {
          word.insert(word.begin(),
                      unit == Unit::Hour || unit == Unit::Ounce || unit == Unit::Inch ? "an" : "a");
          word.insert(word.end(), {"and", "a", part});
          out_.add_phrase(from, to, word, weight);
        }
      }
  }

  [[nodiscard]] bool is_own(const Ratio& value) const { return own_ && *own_ == value; }
  void set_own(std::optional<Ratio> own) { own_ = own; }

 private:
  void unit_word(Node from, Node to, const Phrase& between, const Phrase& word) {
    Phrase phrase = between;
    phrase.insert(phrase.end(), word.begin(), word.end());
    out_.add_phrase(from, to, phrase);
  }

  void whole(Node from, const Ends& ends, std::int64_t number, double weight) {
    const Ratio value(number);
    const bool own = is_own(value);
    const Node to = number == 1 ? (own ? ends.own_one : ends.one) : (own ? ends.own_more : ends.more);
    for (const auto& way : ways_to_say(value)) out_.add_phrase(from, to, way, weight);
    if (number == 1)
      for (const auto* const article : {"a", "an"}) out_.add_arc(from, to, article, weight);
    if (number == 2) out_.add_phrase(from, to, Phrase{"a", "couple", "of"}, weight);
  }

  // A hundred to nine hundred and ninety-five. All hundreds share what follows, but for the script's own.
  void hundreds(Node from, const Ends& ends, double weight) {
    const std::int64_t own =
        own_ && own_->is_whole() && own_->num() >= 100 && own_->num() < 1000 ? own_->num() : 0;
    for (const bool is_own : {false, true}) {
      const Node counted = out_.add_node();
      const Node hundred = out_.add_node();
      const Node rest = out_.add_node();
      for (std::int64_t h = 1; h <= 9; ++h) {
        if ((h == own / 100) != is_own) continue;
        out_.add_arc(from, counted, ways_to_say(Ratio(h)).front().front(), weight);
        if (h == 1) out_.add_phrase(from, hundred, Phrase{"a", "hundred"}, weight);
      }
      out_.add_arc(counted, hundred, "hundred");
      out_.add_arc(hundred, is_own && own % 100 == 0 ? ends.own_more : ends.more, {});
      out_.add_arc(hundred, rest, "and");
      for (const auto number : kFew) {
        const auto to = is_own && number == own % 100 ? ends.own_more : ends.more;
        const auto way = ways_to_say(Ratio(number)).front();
        out_.add_phrase(rest, to, way);
        if (number >= 10) out_.add_phrase(counted, to, way);  // "two fifty"
      }
    }
  }

  Sayings& out_;
  std::optional<Ratio> own_;
};

enum class Kind : std::uint8_t { Fine, Spoons, Bulk, Time, Heat, Gas, People, Length, Piece, Thing };

Kind kind_of(Unit unit) {
  switch (unit) {
    case Unit::Gram:
    case Unit::Milliliter:
    case Unit::Milligram:
      return Kind::Fine;
    case Unit::Teaspoon:
    case Unit::Tablespoon:
    case Unit::Cup:
    case Unit::FluidOunce:
      return Kind::Spoons;
    case Unit::Kilogram:
    case Unit::Ounce:
    case Unit::Pound:
    case Unit::Liter:
    case Unit::Pint:
    case Unit::Quart:
    case Unit::Gallon:
      return Kind::Bulk;
    case Unit::Celsius:
    case Unit::Fahrenheit:
      return Kind::Heat;
    case Unit::GasMark:
      return Kind::Gas;
    case Unit::Serving:
      return Kind::People;
    case Unit::Piece:
    case Unit::Other:
      return Kind::Piece;
    default:
      break;
  }
  const auto dimension = dimension_of(unit);
  if (dimension == Dimension::Time) return Kind::Time;
  return dimension == Dimension::Length ? Kind::Length : Kind::Thing;
}

/// One amount's alternatives: the kinds of unit it may be said in, each with the numbers said with them.
class OtherAmounts {
 public:
  OtherAmounts(const Amount& amount, const AmountWording& wording)
      : amount_(amount), wording_(wording), builder_(out_, amount.value) {}

  Sayings build() && {
    if (!amount_.value) return std::move(out_);
    if (amount_.each) {
      packages();
    } else if (amount_.to) {
      ranges();
    } else {
      single(Sayings::kStart, 1.0, true);
    }
    return std::move(out_);
  }

 private:
  // All single amounts from a node to the end; without `own`'s unit where the number is the script's.
  void single(Node from, double weight, bool without_own) {
    const auto own = without_own ? std::optional(amount_.unit) : std::nullopt;
    const auto kind = kind_of(amount_.unit);
    switch (kind) {
      case Kind::Fine:
      case Kind::Bulk:
        measures(from, weight * (kind == Kind::Fine ? 1 : kOtherKind), Range::Many, Parts::Whole,
                 {Unit::Gram, Unit::Milliliter}, own);
        measures(from, weight * (kind == Kind::Bulk ? 1 : kOtherKind), Range::Few, Parts::AlsoParts,
                 {Unit::Kilogram, Unit::Liter, Unit::Ounce, Unit::Pound, Unit::Pint, Unit::Quart}, own);
        measures(from, weight * kOtherKind, Range::Few, Parts::AlsoParts,
                 {Unit::Teaspoon, Unit::Tablespoon, Unit::Cup}, own);
        break;
      case Kind::Spoons:
        measures(from, weight, Range::Few, Parts::AlsoParts,
                 {Unit::Teaspoon, Unit::Tablespoon, Unit::Cup, Unit::FluidOunce, Unit::Ounce}, own);
        measures(from, weight * kOtherKind, Range::Many, Parts::Whole, {Unit::Gram, Unit::Milliliter}, own);
        measures(from, weight * kOtherKind, Range::Few, Parts::AlsoParts,
                 {Unit::Liter, Unit::Pinch, Unit::Handful}, own);
        break;
      case Kind::Time:
        times(from, weight, without_own);
        break;
      case Kind::Heat:
        heat(from, weight, own);
        break;
      case Kind::Gas:
        gas(from, weight);
        break;
      case Kind::People:
        measures(from, weight, Range::Few, Parts::Whole, {Unit::Serving}, own);
        break;
      case Kind::Length:
        measures(from, weight, Range::Few, Parts::AlsoParts, {Unit::Centimeter, Unit::Inch}, own);
        break;
      case Kind::Piece:
        pieces(from, weight);
        break;
      case Kind::Thing:
        things(from, weight, own);
        measures(from, weight * kOtherKind, Range::Few, Parts::AlsoParts,
                 {Unit::Teaspoon, Unit::Tablespoon, Unit::Cup, Unit::Liter}, own);
        measures(from, weight * kOtherKind, Range::Few, Parts::Whole,
                 {Unit::Pinch, Unit::Dash, Unit::Handful, Unit::Splash, Unit::Drop, Unit::Clove, Unit::Slice,
                  Unit::Sprig, Unit::Bunch, Unit::Head, Unit::Can, Unit::Packet, Unit::Leaf, Unit::Stalk,
                  Unit::Stick},
                 own);
        break;
    }
  }

  void measures(Node from, double weight, Range range, Parts parts, std::initializer_list<Unit> units,
                std::optional<Unit> own) {
    const auto ends = builder_.new_ends();
    builder_.numbers(from, ends, range, parts, weight);
    if (kind_of(*units.begin()) == Kind::Bulk) builder_.decimals(from, ends, weight);
    builder_.units(ends, Sayings::kEnd, units, own, wording_.between);
    if (parts == Parts::AlsoParts) builder_.and_a_half(from, Sayings::kEnd, units, own, weight);
    if (wording_.another) out_.add_arc(from, builder_.is_own(1) ? ends.own_one : ends.one, {}, weight);
  }

  // Half an hour is no other time than thirty minutes: each unit leaves out what equals the script's own.
  void times(Node from, double weight, bool without_own) {
    const auto own_size = size_of(amount_.unit, Measures::Metric);
    for (const auto unit : {Unit::Minute, Unit::Second, Unit::Hour, Unit::Day, Unit::Week, Unit::Month}) {
      const auto size = size_of(unit, Measures::Metric);
      auto equal = unit == amount_.unit ? amount_.value : std::nullopt;
      if (!equal && own_size && size)
        if (const auto seconds = amount_.value->times(own_size->size)) equal = seconds->over(size->size);
      builder_.set_own(without_own ? equal : std::nullopt);
      const bool small = unit == Unit::Minute || unit == Unit::Second;
      measures(from, weight, small ? Range::Minutes : Range::Few, Parts::AlsoParts, {unit}, unit);
    }
    builder_.set_own(amount_.value);
  }

  void things(Node from, double weight, std::optional<Unit> own) {
    const auto ends = builder_.new_ends();
    builder_.numbers(from, ends, Range::Few, Parts::AlsoParts, weight);
    builder_.units(ends, Sayings::kEnd, {amount_.unit}, own, wording_.between);
  }

  void pieces(Node from, double weight) {
    const auto ends = builder_.new_ends();
    builder_.numbers(from, ends, Range::Few, Parts::AlsoParts, weight);
    for (const auto end : {ends.one, ends.more, ends.part}) {
      if (wording_.between.empty())
        out_.add_arc(end, Sayings::kEnd, {});
      else
        out_.add_phrase(end, Sayings::kEnd, wording_.between);
    }
    for (const auto& part : {Phrase{"a"}, Phrase{"of", "a"}}) out_.add_phrase(ends.part, Sayings::kEnd, part);
  }

  void heat(Node from, double weight, std::optional<Unit> own) {
    const auto ends = builder_.new_ends();
    builder_.numbers(from, ends, Range::Many, Parts::Whole, weight);
    const bool own_is_celsius = amount_.unit == Unit::Celsius;
    for (const auto end : {ends.more, ends.own_more})
      for (const bool celsius : {true, false}) {
        if (end == ends.own_more && own && celsius == own_is_celsius) continue;
        const bool same = celsius == own_is_celsius;
        Phrase scale{celsius ? "celsius" : "fahrenheit"};
        std::vector<Phrase> ways{{"degrees", scale.front()}, scale};
        if (same) ways.insert(ways.end(), {{"degrees"}, {}});
        for (auto way : ways) {
          if (!amount_.fan || way.empty()) out_.add_phrase(end, Sayings::kEnd, way, same ? 1.0 : kOtherKind);
          if (!amount_.fan) continue;
          way.emplace_back("fan");
          out_.add_phrase(end, Sayings::kEnd, way, same ? 1.0 : kOtherKind);
        }
      }
  }

  void gas(Node from, double weight) {
    for (std::int64_t mark = 1; mark <= 10; ++mark)
      for (const auto& part : {Ratio(0), *Ratio::make(1, 2)})
        if (const auto value = part.plus(mark); value && !builder_.is_own(*value))
          for (const auto& way : ways_to_say(*value)) {
            for (const auto& prefix : {Phrase{"gas", "mark"}, Phrase{"gas"}}) {
              auto phrase = prefix;
              phrase.insert(phrase.end(), way.begin(), way.end());
              out_.add_phrase(from, Sayings::kEnd, phrase, weight);
            }
          }
  }

  // "twelve to fifteen minutes": another start with any end, the same start with another end, or one number
  // only.
  void ranges() {
    const auto kind = kind_of(amount_.unit);
    const auto range = kind == Kind::Time                         ? Range::Minutes
                       : kind == Kind::Fine || kind == Kind::Heat ? Range::Many
                                                                  : Range::Few;
    const auto starts = builder_.new_ends();
    builder_.numbers(Sayings::kStart, starts, range, Parts::Whole, 1.0);
    const Node other_start = out_.add_node();
    const Node own_start = out_.add_node();
    for (const auto* const word : {"to", "or"}) {
      for (const auto end : {starts.one, starts.more}) out_.add_arc(end, other_start, word);
      for (const auto end : {starts.own_one, starts.own_more}) out_.add_arc(end, own_start, word);
    }
    single(other_start, 1.0, false);
    Amount end = amount_;
    end.value = amount_.to;
    end.to.reset();
    OtherAmounts tail(end, wording_);
    append(std::move(tail).build(), own_start);
    single(Sayings::kStart, kOtherKind, false);
  }

  // "two four hundred gram tins"; without a tin: "a two litre dish".
  void packages() {
    const auto count = *amount_.value;
    const auto containers = words_for(amount_.unit, Count::One);
    const Node own_count = out_.add_node();
    const Node other_count = out_.add_node();
    for (std::int64_t n = 1; n <= 10; ++n) {
      auto ways = ways_to_say(Ratio(n));
      if (n == 1) ways.push_back({"a"});
      for (const auto& way : ways)
        out_.add_phrase(Sayings::kStart, count == Ratio(n) ? own_count : other_count, way);
    }
    Builder sizes(out_, amount_.each->value);
    for (const bool own_number : {true, false}) {
      if (!own_number && containers.empty()) continue;  // the count is an article
      const auto from = own_number ? own_count : other_count;
      const Node sized = out_.add_node();
      for (const auto& [range, parts, units] :
           {std::tuple{Range::Many, Parts::Whole, std::array{Unit::Gram, Unit::Milliliter}},
            std::tuple{Range::Few, Parts::AlsoParts, std::array{Unit::Liter, Unit::Kilogram}},
            std::tuple{Range::Few, Parts::AlsoParts, std::array{Unit::Ounce, Unit::Pound}},
            std::tuple{Range::Few, Parts::AlsoParts, std::array{Unit::Centimeter, Unit::Inch}}}) {
        const auto ends = sizes.new_ends();
        sizes.numbers(from, ends, range, parts, 1.0);
        for (const auto unit : units)
          for (const auto& word : words_for(unit, Count::One)) {
            for (const auto end : {ends.one, ends.more, ends.part}) out_.add_phrase(end, sized, word);
            for (const auto end : {ends.own_one, ends.own_more, ends.own_part})
              if (!own_number || unit != amount_.each->unit) out_.add_phrase(end, sized, word);
          }
      }
      if (containers.empty()) out_.add_arc(sized, Sayings::kEnd, {});
      for (const auto& word : words_for(amount_.unit, Count::One))
        out_.add_phrase(sized, Sayings::kEnd, word);
      for (const auto& word : words_for(amount_.unit, Count::More))
        out_.add_phrase(sized, Sayings::kEnd, word);
      // Without a size, or with it after the tin.
      for (const auto many : {Count::One, Count::More})
        for (const auto& word : words_for(amount_.unit, many))
          out_.add_phrase(from, Sayings::kEnd, word, kOtherKind);
    }
  }

  // Puts another graph between a node and the end.
  void append(const Sayings& other, Node from) {
    std::vector<Node> nodes(other.nodes());
    for (std::size_t n = 0; n < nodes.size(); ++n)
      nodes[n] = n == Sayings::kStart ? from : n == Sayings::kEnd ? Sayings::kEnd : out_.add_node();
    for (const auto& arc : other.arcs()) out_.add_arc(nodes[arc.from], nodes[arc.to], arc.word, arc.weight);
  }

  Amount amount_;
  AmountWording wording_;
  Sayings out_;
  Builder builder_;
};

}  // namespace

Sayings other_amounts(const Amount& amount, const AmountWording& wording) {
  return OtherAmounts(amount, wording).build();
}

}  // namespace panslate
