#include "cli/student/phone.hpp"

#include "cli/commands.hpp"
#include "cli/output_file.hpp"
#include "cli/student/sets_on_file.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "inkturn/plan/sittings_ahead.hpp"

#include "view/text/ratings.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct PhoneOptions {
    std::string from;
    OutputOptions output;
};

constexpr Days days_on_phone{7};

void write_page(const Context& context, const PhoneOptions& options) {
    const Store store = context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    PicturesOnFile pictures(store);
    const PhonePage page =
        phone_page(store, pictures, candidate, phone_week(context, options.from), context.date_today());
    const std::string html = to_html(page);
    write_output(context, options.output, html, OwnMark::html);
    if (options.output.file == "-")
        return;
    context.out << "Wrote the week for " << visible(candidate.code) << ", " << day_text(page.span) << ": "
                << counted_work(page.week) << "; " << size_text(html.size()) << ".\n";
    if (page.items.empty() && !page.sets.empty())
        context.out << "Next: open the file on the phone; once it is sat:\n  inkturn log "
                    << page.sets.front().paper->id() << " PART=MARKS... --rest full"
                    << context.same_candidate() << '\n';
    else if (page.items.empty())
        context.out << context.next("plan");
    else
        context.out << "Next: open the file on the phone, and when its line comes back:\n  inkturn retry -"
                    << (candidate.code == "me" ? "" : " --candidate " + shell_word(candidate.code)) << '\n';
}

/// Lines of a terminal as one paragraph.
std::string in_one_line(std::string text) {
    while (!text.empty() && text.back() == '\n')
        text.pop_back();
    std::string line;
    for (const char c : text)
        if (c != ' ' || line.empty() || line.back() != ' ')
            line += c == '\n' ? ' ' : c;
    return line;
}

/// Names the papers that have no day.
std::string papers_without_day_text(const Timetable& made) {
    constexpr std::size_t max_named = 6;
    std::vector<std::string> names;
    for (const WorkItem& item : made.not_placed())
        if (const auto* paper = std::get_if<PaperToSit>(&item.work))
            names.push_back(visible(name_of(*paper)));
    if (names.empty())
        return "";
    if (names.size() > max_named) {
        const std::size_t others = names.size() - max_named + 1;
        names.resize(max_named - 1);
        names.push_back(std::to_string(others) + " others");
    }
    return (names.size() == 1 ? "The paper without a day: " : "The papers without a day: ") +
           joined(names, " and ") + ".";
}

} // namespace

DaySpan phone_week(const Context& context, const std::string& from) {
    const Day first = context.date_of(from);
    return {first, std::min(first + days_on_phone - Days{1}, latest_day)};
}

PhonePage phone_page(const Store& store, PicturesOnFile& pictures, const Candidate& candidate, DaySpan week,
                     Day today) {
    const Timetable made = timetable_on_file(store, candidate, today).made;
    PhonePage page{candidate.code, week, plan(made, candidate, week), candidate.exams, {}};
    page.said = goes_by_sentence(made);
    if (made.fit != PlanFit::fits)
        page.said += (page.said.empty() ? "" : " ") +
                     in_one_line(verdict_text(made) + not_placed_text(made) + papers_without_day_text(made));
    for (const PlannedDay& day : page.week.days)
        for (const Retry& retry : day.retries())
            page.items.push_back(pictures.item_of(candidate, retry));
    page.sets = SetsOnFile(store).within(made, week, extra_time_ahead(candidate), pictures);
    return page;
}

void add_phone(Command& line) {
    auto options = std::make_shared<PhoneOptions>();
    Command phone = line.command("phone", "The week as one page for a phone, without a network: marks come "
                                          "back as a line of text");
    phone.option("--from", options->from, "D", "First of its seven days (today)");
    options->output.add_to(phone);
    phone.closing("Examples:\n  inkturn phone -o week.html\n  inkturn retry - <<< 'inkturn;...;end'\n"
                  "The page holds marks: send it to nobody else.");
    phone.runs(options, write_page);
}

} // namespace inkturn
