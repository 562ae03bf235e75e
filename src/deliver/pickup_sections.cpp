#include "panslate/base/text.h"
#include "panslate/deliver/pickup_sheet.h"

#include "deliver/page_marks.h"
#include "deliver/report_context.h"

namespace panslate {

namespace {

std::string written_of(const ReportContext& context, const std::vector<std::size_t>& requirements) {
  std::vector<std::string> texts;
  for (const auto r : requirements) {
    const auto text = page_text(context.report.requirements[r].text, 120);
    if (texts.empty() || texts.back() != text) texts.push_back(text);
  }
  return page_text(join(texts, "; "));
}

PageData moments_data(const ReportContext& context, const std::vector<MomentToMend>& moments) {
  PageData list(PageData::type::list);
  for (const auto& moment : moments) {
    PageData data;
    data.set("what", page_text(moment.text.empty() ? moment.what : moment.text));
    set_if(data, "place", page_text(moment.place, 120));
    data.set("written", written_of(context, {moment.requirement}));
    data.set("card", card_id(moment.requirement));
    set_flag(data, "play", false);
    if (moment.at) context.film.set_play(data, *moment.at, moment.media);
    list.push_back(data);
  }
  return list;
}

}  // namespace

void set_pickup_sections(PageData& page, const ReportContext& context) {
  const auto sheet = pickup_sheet(*context.input.pickups, context.report, context.recipe);
  set_flag(page, "has_pickups", !sheet.empty());
  set_list(page, "listen", moments_data(context, sheet.listen));
  set_list(page, "texts", moments_data(context, sheet.texts));
  PageData lines(PageData::type::list);
  MediaTime total;
  for (const auto& line : sheet.lines) {
    PageData data;
    data.set("words", page_text(line.words));
    set_if(data, "instead_of", page_text(line.instead_of));
    set_if(data, "place", page_text(line.place, 120));
    set_if(data, "fit", fit_in_words(line.room, line.takes));
    data.set("written", written_of(context, line.requirements));
    data.set("card", card_id(line.requirements.front()));
    set_flag(data, "play", false);
    if (line.at) context.film.set_play(data, *line.at, line.media);
    lines.push_back(data);
    total += line.takes.value_or(MediaTime());
  }
  set_list(page, "lines_to_say", lines);
  page.set("lines_count", count_in_words(sheet.lines.size(), "line", "lines"));
  page.set("lines_time", std::to_string(total.to_ms(Round::Up) / 1000 + 1));
  PageData setups(PageData::type::list);
  for (std::size_t i = 0; i < sheet.shots.size();) {
    PageData shots(PageData::type::list);
    auto end = i;
    for (; end < sheet.shots.size() && sheet.shots[end].setup == sheet.shots[i].setup; ++end) {
      const auto& shot = sheet.shots[end];
      PageData data;
      data.set("subject", page_text(shot.subject));
      set_if(data, "shows", page_text(join(shot.shows, "; ")));
      set_if(data, "place", page_text(shot.place, 120));
      data.set("written", written_of(context, shot.requirements));
      data.set("card", card_id(shot.requirements.front()));
      shots.push_back(data);
    }
    PageData setup;
    set_if(setup, "letter", sheet.shots[i].setup);
    setup.set("framing", sheet.shots[i].framing);
    setup.set("shots", shots);
    setups.push_back(setup);
    i = end;
  }
  set_list(page, "setups", setups);
}

}  // namespace panslate
