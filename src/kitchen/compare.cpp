#include "panslate/kitchen/compare.h"

#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "panslate/base/text.h"
#include "panslate/kitchen/density.h"
#include "panslate/kitchen/gas_mark.h"

namespace panslate {

namespace {

// The contract's tolerances.
constexpr double kOtherUnit = 0.05;
constexpr double kThroughDensity = 0.15;
constexpr double kOtherScaleCelsius = 5;
// Rounding of binary fractions at the very edge of a tolerance.
constexpr double kSlack = 1e-9;
// Pulses drain to about 240 g of a 400 g tin: common practice, no source.
constexpr double kLeastDrained = 0.5, kMostDrained = 0.7;

constexpr std::array kAllMeasures = {Measures::Us, Measures::Metric, Measures::Au, Measures::Uk};

struct Span {
  double low = 0, high = 0;
};

// Distance of what was said from what is written, as a part of the written; zero inside a written range.
double distance(const Span& said, const Span& written) {
  const auto off = [&](double value) {
    if (value < written.low) return (written.low - value) / written.low;
    if (written.high < value) return (value - written.high) / written.high;
    return 0.0;
  };
  return std::max(off(said.low), off(said.high));
}

std::optional<Span> span_of(const Amount& amount) {
  if (!amount.value) return std::nullopt;
  return Span{amount.value->value(), amount.to.value_or(*amount.value).value()};
}

Span scaled(const Span& span, double factor) {
  return {span.low * factor, span.high * factor};
}

bool is_little(const Amount& amount) {
  return dimension_of(amount.unit) == Dimension::Little;
}

bool is_measured(Dimension dimension) {
  return dimension == Dimension::Mass || dimension == Dimension::Volume;
}

// Exact: the same value, a value of the written range, or both its ends.
bool within_exactly(const Amount& said, const Amount& written) {
  const auto said_to = said.to.value_or(*said.value);
  const auto written_to = written.to.value_or(*written.value);
  return *written.value <= *said.value && said_to <= written_to;
}

// Whole from 20 up, one decimal below: what a cook can use of a conversion.
std::string about_figure(double value) {
  if (value >= 20) return std::to_string(std::llround(value));
  const auto tenths = std::llround(value * 10);
  auto text = std::to_string(tenths / 10);
  if (tenths % 10 != 0) text += '.' + std::to_string(tenths % 10);
  return text;
}

// --- temperatures ---------------------------------------------------------------------------------------

double celsius_of(double value, Unit unit) {
  return unit == Unit::Fahrenheit ? (value - 32) * 5 / 9 : value;
}

std::optional<Span> gas_window(const Amount& amount) {
  const auto low = gas_mark(*amount.value);
  const auto high = gas_mark(amount.to.value_or(*amount.value));
  if (!low || !high) return std::nullopt;
  return Span{low->celsius_least.value(), high->celsius_most.value()};
}

Comparison compare_temperatures(const Amount& said, const Amount& written) {
  if (said.unit == written.unit)
    return {within_exactly(said, written) ? Sameness::Same : Sameness::Different, {}};
  const auto celsius = [](const Amount& amount) {
    const auto span = *span_of(amount);
    return Span{celsius_of(span.low, amount.unit), celsius_of(span.high, amount.unit)};
  };
  if (said.unit == Unit::GasMark || written.unit == Unit::GasMark) {
    const auto& gas = said.unit == Unit::GasMark ? said : written;
    const auto& other = said.unit == Unit::GasMark ? written : said;
    const auto window = gas_window(gas);
    if (!window) return {Sameness::CannotTell, {}};
    const auto value = celsius(other);
    const bool inside = window->low - kSlack <= value.low && value.high <= window->high + kSlack;
    return {inside ? Sameness::Same : Sameness::Different,
            to_text(gas) + " is " + about_figure(window->low) + " to " + about_figure(window->high) + " °C"};
  }
  const auto a = celsius(said);
  const auto b = celsius(written);
  const bool near =
      b.low - kOtherScaleCelsius - kSlack <= a.low && a.high <= b.high + kOtherScaleCelsius + kSlack;
  const auto& fahrenheit = said.unit == Unit::Fahrenheit ? said : written;
  return {near ? Sameness::Same : Sameness::Different,
          to_text(fahrenheit) + " is about " + about_figure(celsius(fahrenheit).low) + " °C"};
}

// --- masses and volumes ---------------------------------------------------------------------------------

bool is_butter(std::string_view food) {
  const auto folded = fold_accents(food);
  return folded == "butter" ||
         (folded.size() > 7 && folded.substr(folded.size() - 7) == " butter" &&
          folded.find("peanut") == std::string::npos && folded.find("nut ") == std::string::npos);
}

// What the amount measures in all: the tins' contents, the butter of a stick.
Amount contents_of(const Amount& amount, std::string_view food) {
  auto contents = amount;
  if (amount.each && amount.value) {
    contents.value = amount.value->times(amount.each->value);
    if (amount.to) contents.to = amount.to->times(amount.each->value);
    contents.unit = amount.each->unit;
    contents.each.reset();
  } else if (amount.unit == Unit::Stick && amount.value && is_butter(food)) {
    // In ounces, so that grams are compared as another unit: 113 g is a stick.
    const auto ounces = butter_stick().size.over(size_of(Unit::Ounce, Measures::Us)->size).value_or(Ratio(0));
    contents.value = amount.value->times(ounces);
    if (amount.to) contents.to = amount.to->times(ounces);
    contents.unit = Unit::Ounce;
  }
  return contents;
}

struct Grams {
  Span span;
  std::optional<Density> density;
};

// Grams of a mass or a volume of a food; empty when the density is not known.
std::optional<Grams> grams_of(const Amount& amount, Measures measures, std::string_view food) {
  const auto size = size_of(amount.unit, measures);
  const auto span = span_of(amount);
  if (!size || !span) return std::nullopt;
  if (dimension_of(amount.unit) == Dimension::Mass)
    return Grams{scaled(*span, size->size.value()), std::nullopt};
  const auto density = density_of(food);
  if (!density) return std::nullopt;
  double per_ml = density->grams_per_ml.value();
  const auto by_spoon = [&](const std::optional<Ratio>& grams, Unit spoon) {
    if (amount.unit == spoon && grams) per_ml = grams->value() / size_of(spoon, Measures::Us)->size.value();
  };
  by_spoon(density->grams_per_us_tbsp, Unit::Tablespoon);
  by_spoon(density->grams_per_us_tsp, Unit::Teaspoon);
  return Grams{scaled(*span, size->size.value() * per_ml), density};
}

std::string_view country(Measures measures) {
  switch (measures) {
    case Measures::Us:
      return "US";
    case Measures::Metric:
      return "metric";
    case Measures::Au:
      return "Australian";
    case Measures::Uk:
      return "British";
  }
  return "";
}

std::string measures_note(const Amount& amount, Measures other) {
  auto one = Amount{};
  one.value = Ratio(1);
  one.unit = amount.unit;
  const auto size = size_of(amount.unit, other);
  if (!size) return {};
  return to_text(one) + " is " + about_figure(size->size.value()) + " ml only in " +
         std::string(country(other)) + " measures";
}

// One kind, perhaps two units of it: within 5 % in these measures.
bool same_size(const Amount& said, const Amount& written, Measures measures) {
  const auto said_size = size_of(said.unit, measures);
  const auto written_size = size_of(written.unit, measures);
  if (!said_size || !written_size) return false;
  return distance(scaled(*span_of(said), said_size->size.value()),
                  scaled(*span_of(written), written_size->size.value())) <= kOtherUnit + kSlack;
}

std::string conversion_note(const Amount& amount, Unit into, Measures measures) {
  const auto from = size_of(amount.unit, measures);
  const auto to = size_of(into, measures);
  if (!from || !to) return {};
  const double value = amount.value->value() * from->size.value() / to->size.value();
  return to_text(amount) + " is about " + about_figure(value) + ' ' + std::string(label_of(into, value > 1));
}

Comparison compare_one_kind(const Amount& said, const Amount& written, Measures measures) {
  if (said.unit == written.unit)
    return {within_exactly(said, written) ? Sameness::Same : Sameness::Different, {}};
  if (same_size(said, written, measures))
    return {Sameness::Same, conversion_note(written, said.unit, measures)};
  if (varies_by_measures(said.unit) || varies_by_measures(written.unit))
    for (const auto other : kAllMeasures)
      if (same_size(said, written, other))
        return {Sameness::SameInOtherMeasures,
                measures_note(varies_by_measures(written.unit) ? written : said, other)};
  return {Sameness::Different, conversion_note(written, said.unit, measures)};
}

std::string density_note(const Amount& volume, const Grams& grams, std::string_view food) {
  auto plain = volume;
  plain.about = false;
  return to_text(plain) + " of " + std::string(food) + " is about " + about_figure(grams.span.low) + " g (" +
         std::string(grams.density->source) + ')';
}

Comparison compare_by_density(const Amount& said, const Amount& written, Measures measures,
                              std::string_view food) {
  const bool both_ounces = (said.unit == Unit::Ounce && written.unit == Unit::FluidOunce) ||
                           (said.unit == Unit::FluidOunce && written.unit == Unit::Ounce);
  if (both_ounces && within_exactly(said, written))
    return {Sameness::Same, "ounces of a liquid are fluid ounces"};
  const auto off = [&](Measures by) -> std::optional<double> {
    const auto a = grams_of(said, by, food);
    const auto b = grams_of(written, by, food);
    if (!a || !b) return std::nullopt;
    return distance(a->span, b->span);
  };
  const auto here = off(measures);
  if (!here) return {Sameness::CannotTell, {}};
  const bool said_is_volume = dimension_of(said.unit) == Dimension::Volume;
  const auto& volume = said_is_volume ? said : written;
  const auto grams = *grams_of(volume, measures, food);
  const auto note = density_note(volume, grams, food);
  if (*here <= kThroughDensity + kSlack) {
    const double own = grams.density->tolerance_percent / 100.0;
    return {*here <= own + kSlack ? Sameness::Same : Sameness::SameLoosely, note};
  }
  if (varies_by_measures(volume.unit))
    for (const auto other : kAllMeasures)
      if (const auto there = off(other); there && *there <= kThroughDensity + kSlack)
        return {Sameness::SameInOtherMeasures, measures_note(volume, other)};
  return {Sameness::Different, note};
}

// --- counts and packages --------------------------------------------------------------------------------

// Pairs of names for one count: a stick of celery is a stalk, a rasher of bacon a slice; a bare number counts
// whatever is counted.
bool counts_alike(Unit a, Unit b) {
  const auto pair = [&](Unit one, Unit other) {
    return (a == one && b == other) || (a == other && b == one);
  };
  return a == b || a == Unit::Piece || b == Unit::Piece || pair(Unit::Stick, Unit::Stalk) ||
         pair(Unit::Rasher, Unit::Slice);
}

bool is_container(Unit unit) {
  return unit == Unit::Can || unit == Unit::Jar || unit == Unit::Packet;
}

Comparison compare_counts(const Amount& said, const Amount& written, Measures measures) {
  const bool same_number = within_exactly(said, written);
  if (!counts_alike(said.unit, written.unit)) {
    const bool packages = is_container(said.unit) && is_container(written.unit);
    return {same_number && packages ? Sameness::CannotTell : Sameness::Different, {}};
  }
  if (said.each && written.each) {
    Amount a;
    Amount b;
    a.value = said.each->value;
    a.unit = said.each->unit;
    b.value = written.each->value;
    b.unit = written.each->unit;
    auto size = dimension_of(a.unit) == dimension_of(b.unit) ? compare_one_kind(a, b, measures)
                                                             : Comparison{Sameness::CannotTell, {}};
    if (same_number) return size;
    return {Sameness::Different, {}};
  }
  return {same_number ? Sameness::Same : Sameness::Different, {}};
}

bool could_be_drained(const Amount& said, const Amount& written, Measures measures, std::string_view food) {
  const auto a = grams_of(said, measures, food);
  const auto b = grams_of(written, measures, food);
  if (!a || !b || b->span.low <= 0 || a->span.low <= 0) return false;
  const double part = std::min(a->span.low / b->span.low, b->span.low / a->span.low);
  return kLeastDrained <= part && part <= kMostDrained;
}

Comparison compare_measured(const Amount& said, const Amount& written, Measures measures,
                            std::string_view food) {
  if (dimension_of(said.unit) == dimension_of(written.unit)) return compare_one_kind(said, written, measures);
  return compare_by_density(said, written, measures, food);
}

std::string singular(std::string_view noun) {
  auto folded = fold_accents(trim(noun));
  if (folded.size() > 3 && folded.back() == 's') folded.pop_back();
  return folded;
}

}  // namespace

Comparison compare(const Amount& said, const Amount& written, Measures measures, std::string_view food) {
  if (!written.value || is_little(written)) {
    const bool said_little = !said.value || is_little(said);
    if (said_little) return {Sameness::Same, {}};
    return {written.value ? Sameness::Different : Sameness::CannotTell, {}};
  }
  if (!said.value || is_little(said)) return {Sameness::Different, {}};
  const auto said_kind = dimension_of(said.unit);
  const auto written_kind = dimension_of(written.unit);
  if (said_kind == Dimension::Temperature || written_kind == Dimension::Temperature)
    return said_kind == written_kind ? compare_temperatures(said, written) : Comparison{};
  if (said_kind == Dimension::Time || written_kind == Dimension::Time) {
    if (said_kind != written_kind) return {};
    const auto seconds = [](const Amount& amount) {
      auto base = amount;
      const auto size = size_of(amount.unit, Measures::Metric)->size;
      base.value = amount.value->times(size);
      if (amount.to) base.to = amount.to->times(size);
      return base;
    };
    const auto a = seconds(said);
    const auto b = seconds(written);
    if (!a.value || !b.value) return {};
    return {within_exactly(a, b) ? Sameness::Same : Sameness::Different, {}};
  }
  if (said_kind == Dimension::Length || written_kind == Dimension::Length)
    return said_kind == written_kind ? compare_one_kind(said, written, measures) : Comparison{};
  if (said_kind == Dimension::Yield || written_kind == Dimension::Yield) {
    const bool nouns_differ = said.unit == Unit::Other && written.unit == Unit::Other &&
                              singular(said.noun) != singular(written.noun);
    const bool countable =
        said_kind == Dimension::Count || written_kind == Dimension::Count || said_kind == written_kind;
    if (!countable) return {};
    if (!within_exactly(said, written)) return {};
    return {nouns_differ ? Sameness::CannotTell : Sameness::Same, {}};
  }
  if (said_kind == Dimension::Count && written_kind == Dimension::Count)
    return compare_counts(said, written, measures);
  if (is_measured(said_kind) && is_measured(written_kind))
    return compare_measured(said, written, measures, food);
  // A count against a measure: only what a package or a stick holds can be compared.
  const auto a = contents_of(said, food);
  const auto b = contents_of(written, food);
  if (!is_measured(dimension_of(a.unit)) || !is_measured(dimension_of(b.unit)))
    return {Sameness::CannotTell, {}};
  if (!a.value || !b.value) return {Sameness::CannotTell, {}};
  auto contents = compare_measured(a, b, measures, food);
  const bool tinned = is_container(said.unit) || is_container(written.unit);
  if (contents.sameness == Sameness::Different && tinned && could_be_drained(a, b, measures, food))
    return {Sameness::CannotTell, "one may be the drained weight of the other"};
  return contents;
}

std::optional<AmountDistance> distance_between(const Amount& first, const Amount& second, Measures measures,
                                               std::string_view food) {
  const auto a = contents_of(first, food);
  const auto b = contents_of(second, food);
  const auto a_size = size_of(a.unit, measures);
  const auto b_size = size_of(b.unit, measures);
  const auto a_span = span_of(a);
  const auto b_span = span_of(b);
  if (!a_size || !b_size || !a_span || !b_span || b_span->low <= 0 || b_span->high <= 0) return std::nullopt;
  const auto a_kind = dimension_of(a.unit);
  const auto b_kind = dimension_of(b.unit);
  if (!is_measured(a_kind) || !is_measured(b_kind)) return std::nullopt;
  AmountDistance found;
  if (a_kind == b_kind) {
    found.off = distance(scaled(*a_span, a_size->size.value()), scaled(*b_span, b_size->size.value()));
    found.would_be = a_span->low * a_size->size.value() / b_size->size.value();
    return found;
  }
  const auto a_grams = grams_of(a, measures, food);
  const auto b_grams = grams_of(b, measures, food);
  if (!a_grams || !b_grams || b_grams->span.low <= 0) return std::nullopt;
  found.off = distance(a_grams->span, b_grams->span);
  found.would_be = a_grams->span.low / b_grams->span.low * b_span->low;
  const auto& density = a_grams->density ? a_grams->density : b_grams->density;
  found.density_source = std::string(density->source);
  found.grams_per_ml = density->grams_per_ml.value();
  found.tolerance_percent = density->tolerance_percent;
  return found;
}

}  // namespace panslate
