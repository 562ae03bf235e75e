#include "panslate/deliver/check_digest.h"

#include <set>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"

namespace panslate {

namespace {

constexpr MediaTime kRough = MediaTime::from_seconds(2);

Standing standing_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::Match:
      return Standing::Good;
    case Verdict::Differs:
    case Verdict::NoAmount:
    case Verdict::Missing:
      return Standing::Wrong;
    case Verdict::Unsure:
      return Standing::Doubtful;
    case Verdict::NotChecked:
      return Standing::NotLooked;
  }
  return Standing::NotLooked;
}

// What is said need not stand on the picture too; only what stands there otherwise is wrong.
Standing standing_on_picture(Verdict verdict) {
  if (verdict == Verdict::Missing || verdict == Verdict::NoAmount) return Standing::Absent;
  return standing_of(verdict);
}

Standing standing_of(ShownVerdict verdict) {
  switch (verdict) {
    case ShownVerdict::Yes:
      return Standing::Good;
    case ShownVerdict::Unconfirmed:
      return Standing::Doubtful;
    case ShownVerdict::No:
      return Standing::Wrong;
    case ShownVerdict::NotChecked:
      return Standing::NotLooked;
  }
  return Standing::NotLooked;
}

// Only where it differs or is doubtful does the reader need to see what was found instead.
std::string found_instead(const ChannelFinding& channel) {
  if (channel.verdict != Verdict::Differs && channel.verdict != Verdict::Unsure) return {};
  if (channel.mentions.empty()) return {};
  const auto& mention = channel.mentions.front();
  if (!mention.amount) return {};
  std::vector<Amount> all{*mention.amount};
  all.insert(all.end(), mention.alternates.begin(), mention.alternates.end());
  return amounts_in_words(all);
}

const Mention* deciding_mention(const Requirement& requirement) {
  if (!requirement.said.mentions.empty()) return &requirement.said.mentions.front();
  if (!requirement.on_text.mentions.empty()) return &requirement.on_text.mentions.front();
  return nullptr;
}

// One clock needs no name; with several, a bare time would not say where to look.
bool has_several_clocks(const CheckReport& report) {
  std::set<std::string_view> clocks;
  for (const auto& requirement : report.requirements)
    for (const auto* channel : {&requirement.said, &requirement.on_text})
      for (const auto& mention : channel->mentions) clocks.insert(mention.media);
  return clocks.size() > 1;
}

CheckLine line_of(const CheckReport& report, std::size_t index, bool name_clock) {
  const auto& requirement = report.requirements[index];
  CheckLine line;
  line.requirement = index;
  line.written = collapse_spaces(requirement.text);
  line.said = {std::string(said_words(requirement.said.verdict)), found_instead(requirement.said),
               standing_of(requirement.said.verdict)};
  line.shown = {
      std::string(shown_words(requirement.shown.verdict)), {}, standing_of(requirement.shown.verdict)};
  line.on_picture = {std::string(on_picture_words(requirement.on_text.verdict)),
                     found_instead(requirement.on_text), standing_on_picture(requirement.on_text.verdict)};
  if (const auto* mention = deciding_mention(requirement)) {
    line.when = when_in_words(*mention);
    if (name_clock && !mention->media.empty()) line.when += " in " + mention->media;
    line.heard = collapse_spaces(mention->text);
  }
  line.why = collapse_spaces(requirement.why);
  return line;
}

std::string summary_of(const CheckReport& report) {
  const auto attention = report.attention_count();
  const auto total = report.requirements.size();
  std::string out;
  if (attention == 0)
    out = "Nothing needs attention: " + std::to_string(report.covered_count()) + " of " +
          count_in_words(total, "line", "lines") + (report.covered_count() == 1 ? " is" : " are") +
          " as written.";
  else
    out = std::to_string(attention) + " of " + count_in_words(total, "line", "lines") +
          (attention == 1 ? " needs" : " need") + " attention, " + std::to_string(report.covered_count()) +
          (report.covered_count() == 1 ? " is" : " are") + " as written.";
  std::size_t warnings = 0;
  for (const auto& warning : report.warnings) warnings += warning.level == WarningLevel::Warning ? 1U : 0U;
  if (warnings > 0) out += " " + count_in_words(warnings, "warning", "warnings") + " to look at.";
  return out;
}

}  // namespace

std::string_view said_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::Match:
      return "said";
    case Verdict::Differs:
      return "said differently";
    case Verdict::NoAmount:
      return "said without an amount";
    case Verdict::Missing:
      return "not said";
    case Verdict::Unsure:
      return "please check";
    case Verdict::NotChecked:
      return "not looked at";
  }
  return "not looked at";
}

std::string_view on_picture_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::Match:
      return "as written";
    case Verdict::Differs:
      return "written differently";
    case Verdict::NoAmount:
      return "without an amount";
    case Verdict::Missing:
      return "not there";
    case Verdict::Unsure:
      return "please check";
    case Verdict::NotChecked:
      return "not looked at";
  }
  return "not looked at";
}

std::string_view shown_words(ShownVerdict verdict) {
  switch (verdict) {
    case ShownVerdict::Yes:
      return "shown";
    case ShownVerdict::Unconfirmed:
      return "not confirmed";
    case ShownVerdict::No:
      return "not shown";
    case ShownVerdict::NotChecked:
      return "not looked at";
  }
  return "not looked at";
}

std::string amounts_in_words(const std::vector<Amount>& amounts) {
  std::vector<std::string> texts;
  for (const auto& amount : amounts) {
    auto text = to_text(amount);
    if (!text.empty()) texts.push_back(std::move(text));
  }
  if (texts.empty()) return {};
  std::string out = texts.front();
  texts.erase(texts.begin());
  if (!texts.empty()) out += " (" + join(texts, ", ") + ")";
  return out;
}

std::string when_in_words(const Mention& mention) {
  const auto time = format_timestamp(mention.when.begin, TimestampStyle::Spoken, Round::Down);
  return mention.precision > kRough ? "about " + time : time;
}

std::string count_in_words(std::size_t count, std::string_view one, std::string_view many) {
  return std::to_string(count) + ' ' + std::string(count == 1 ? one : many);
}

CheckDigest digest_of(const CheckReport& report) {
  CheckDigest digest;
  const bool name_clock = has_several_clocks(report);
  for (std::size_t i = 0; i < report.requirements.size(); ++i) {
    auto line = line_of(report, i, name_clock);
    if (CheckReport::needs_attention(report.requirements[i]))
      digest.attention.push_back(std::move(line));
    else if (report.requirements[i].covered)
      digest.in_order.push_back(std::move(line));
    else
      digest.not_needed.push_back(std::move(line));
  }
  digest.summary = summary_of(report);
  return digest;
}

}  // namespace panslate
