#include "view/text/timetable.hpp"

#include "inkturn/base/time.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace inkturn {
namespace {

using Align = Table::Align;

constexpr std::size_t bar_width = 20;
constexpr std::size_t max_changes = 5;

std::string text_of(const TopicToRelearn& topic) {
    return "relearn " + topic.topic + " (" + std::to_string(topic.piece) + " of " +
           std::to_string(TopicToRelearn::pieces) + ")";
}

std::string text_of(const RecallGroup& group) {
    return "recall " + count_text(group.facts.size(), "fact");
}

/// Rounded up, so that a day that is over its time never reads 100%.
std::string share_text(Seconds planned, Seconds available) {
    if (available == Seconds(0))
        return planned == Seconds(0) ? "" : "no time";
    return std::to_string((100 * planned.count() + available.count() - 1) / available.count()) + "%";
}

/// Of the time available; a day that is over its time has a full bar.
std::string bar(const PlannedDay& day) {
    if (day.available == Seconds(0))
        return day.planned + day.reserved > Seconds(0) ? std::string(bar_width, '#') : "";
    const auto cells = [&](Seconds time) {
        const auto rounded = (static_cast<std::size_t>(time.count()) * bar_width +
                              static_cast<std::size_t>(day.available.count()) / 2) /
                             static_cast<std::size_t>(day.available.count());
        return std::min(rounded, bar_width);
    };
    const std::size_t planned_cells =
        day.planned > Seconds(0) ? std::max<std::size_t>(cells(day.planned), 1) : 0;
    const std::size_t both = std::max(planned_cells, cells(day.planned + day.reserved));
    return std::string(planned_cells, '#') + std::string(both - planned_cells, '+') +
           std::string(bar_width - both, '.');
}

std::string name_of(const SubjectAhead& subject) {
    return subject.subject.empty() ? "Papers without a subject" : visible(subject.subject);
}

std::string names_of(const std::vector<std::string>& papers) {
    std::string names;
    for (const std::string& paper : papers)
        names += (names.empty() ? "" : ", ") + visible(paper);
    return names;
}

std::string minutes_text(Seconds time) {
    return std::to_string(time / std::chrono::minutes{1});
}

struct RemedyText {
    std::string operator()(const MoreTime& more) const {
        return minutes_text(more.a_day) + " more minutes on every day that has time";
    }
    std::string operator()(const LongerDay& longer) const {
        const std::string minutes = minutes_text(longer.in_all);
        return minutes + " minutes on one day a week (inkturn days set " +
               std::string(weekday_name(longer.weekday)) + "=" + minutes + ")";
    }
    std::string operator()(const FewerPapers& fewer) const {
        const std::string papers =
            std::to_string(fewer.fewer) + " fewer " + (fewer.fewer == 1 ? "paper" : "papers");
        if (fewer.subject.empty())
            return papers + " without a subject";
        return papers + " of " + visible(fewer.subject) + " (inkturn plan --papers " +
               std::to_string(fewer.remaining) + " --subject " + shell_word(fewer.subject) + ")";
    }
    std::string operator()(const UseDaysOff& off) const {
        const std::string minutes = minutes_text(off.each);
        std::string days;
        for (const Day day : off.days)
            days += " " + iso(day) + "=" + minutes;
        return "work on " + count_text(off.days.size(), "day") + " off (inkturn days on" + days + ")";
    }
    std::string operator()(const FewerRetries& fewer) const {
        std::string ids;
        for (const RetryId& id : fewer.retries)
            ids += (ids.empty() ? "" : ", ") + to_text(id);
        const bool one = fewer.retries.size() == 1;
        return (one ? "1 retry" : std::to_string(fewer.retries.size()) + " retries") +
               " fewer, worth least: " + ids + ", " + counted_marks(fewer.missed_marks) +
               " missed (inkturn plan --drop-least)";
    }
};

std::string text_of(const Remedy& remedy) {
    return std::visit(RemedyText{}, remedy);
}

} // namespace

std::string short_text(const WorkItem& item) {
    if (const auto* retry = std::get_if<Retry>(&item.work))
        return to_text(retry->id);
    if (const auto* paper = std::get_if<PaperToSit>(&item.work))
        return "sit " + name_of(*paper);
    if (const auto* topic = std::get_if<TopicToRelearn>(&item.work))
        return text_of(*topic);
    return text_of(std::get<RecallGroup>(item.work));
}

std::string long_text(const WorkItem& item) {
    std::string text = short_text(item);
    if (const auto* retry = std::get_if<Retry>(&item.work))
        text = "retry " + text + ": " + retry->paper->id() + " " + parts_asked(*retry);
    if (item.kind() == WorkKind::sit)
        text += " and mark it";
    return text + ", " + length_text(item.duration);
}

std::vector<std::string> texts_of(const std::vector<PlannedWork>& planned) {
    std::vector<std::string> texts;
    std::size_t facts = 0;
    Seconds time_for_facts{0};
    for (const PlannedWork& work : planned) {
        const std::string length = ", " + length_text(work.duration);
        switch (work.what) {
        case WorkPurpose::sit:
            texts.push_back("sit " +
                            (work.name.empty() ? "paper " + std::to_string(work.number) : work.name) +
                            " and mark it" + length);
            break;
        case WorkPurpose::relearn:
            texts.push_back("relearn " + work.name + " (" + std::to_string(work.number) + " of " +
                            std::to_string(TopicToRelearn::pieces) + ")" + length);
            break;
        case WorkPurpose::recall:
            ++facts;
            time_for_facts += work.duration;
            break;
        case WorkPurpose::reservation:
            break;
        }
    }
    if (facts > 0)
        texts.push_back("recall " + count_text(facts, "fact") + ", " + length_text(time_for_facts));
    return texts;
}

std::string counted_work(const Plan& plan) {
    std::array<std::size_t, 4> counts{};
    std::set<std::pair<std::string, std::string>> topics;
    for (const PlannedDay& day : plan.days)
        for (const WorkItem& item : day.items) {
            ++counts[item.work.index()];
            if (const auto* topic = std::get_if<TopicToRelearn>(&item.work))
                topics.emplace(topic->subject, topic->topic);
        }
    std::vector<std::string> texts;
    const auto add = [&texts](std::size_t count, const std::string& text) {
        if (count > 0)
            texts.push_back(text);
    };
    add(counts[0], counted_retries(counts[0]));
    add(counts[1], count_text(counts[1], "paper"));
    add(topics.size(), count_text(topics.size(), "topic"));
    add(counts[3], count_text(counts[3], "sheet") + " of facts");
    std::string all;
    for (const std::string& text : texts)
        all += (all.empty() ? "" : ", ") + text;
    return all.empty() ? "Nothing to do" : all;
}

std::vector<std::string> exams_on(const std::vector<Exam>& exams, Day day) {
    std::vector<std::string> texts;
    for (const Exam& exam : exams)
        if (exam.day == day)
            texts.push_back(visible(exam.title + (exam.subject.empty() ? "" : " (" + exam.subject + ")")));
    return texts;
}

Table plan_table(const Plan& plan, const std::vector<Exam>& exams) {
    const bool any_reserved = std::any_of(plan.days.begin(), plan.days.end(),
                                          [](const PlannedDay& day) { return day.reserved > Seconds(0); });
    std::vector<Table::Column> columns{{"day"}, {"planned", Align::right}};
    if (any_reserved)
        columns.push_back({"reserved", Align::right});
    columns.insert(columns.end(),
                   {{"available", Align::right}, {"share", Align::right}, {"work", Align::left_wrapped}});
    Table table(columns);
    for (const PlannedDay& day : plan.days) {
        const std::vector<std::string> exams_of_day = exams_on(exams, day.day);
        if (day.items.empty() && day.reserved == Seconds(0) && exams_of_day.empty())
            continue;
        std::string work;
        for (const std::string& exam : exams_of_day)
            work += (work.empty() ? "exam: " : "; exam: ") + exam;
        for (const WorkItem& item : day.items)
            work += (work.empty() ? "" : item.kind() == WorkKind::retry ? " " : "; ") + short_text(item);
        std::vector<std::string> cells{day_text(day.day),
                                       day.planned == Seconds(0) ? "" : length_text(day.planned)};
        if (any_reserved)
            cells.push_back(day.reserved == Seconds(0) ? "" : length_text(day.reserved));
        cells.insert(cells.end(), {length_text(day.available),
                                   share_text(day.planned + day.reserved, day.available), work});
        table.add_row(cells);
    }
    return table;
}

Table week_table(const Plan& plan) {
    Table table({{"day"},
                 {"share of the day"},
                 {"", Align::right},
                 {"planned", Align::right},
                 {"reserved", Align::right},
                 {"available", Align::right}});
    for (const PlannedDay& day : plan.days)
        table.add_row({day_text(day.day), bar(day), share_text(day.planned + day.reserved, day.available),
                       day.planned == Seconds(0) ? "" : length_text(day.planned),
                       day.reserved == Seconds(0) ? "" : length_text(day.reserved),
                       day.available == Seconds(0) ? "free" : length_text(day.available)});
    return table;
}

std::string subject_text(const SubjectAhead& subject, Day today) {
    std::string text = name_of(subject) + ": ";
    if (subject.examined)
        return wrapped(text + "its exams are over, so none of its papers are planned.", Table::full_width) +
               '\n';
    if (!subject.exam) {
        text += count_text(subject.papers, "paper") + " to sit, one a week, as no exam is on file.";
    } else {
        text += "exam on " + day_text(*subject.exam) + ", " +
                (subject.papers == 0 ? "no paper" : count_text(subject.papers, "paper")) +
                " to sit. The last useful sitting " + (*subject.last_useful < today ? "was on " : "is on ") +
                day_text(*subject.last_useful) +
                ": a question missed after that has no full window before the exam.";
        if (subject.too_late > 0)
            text += " Too late for that: " + std::to_string(subject.too_late) + " of " +
                    count_text(subject.papers, "paper") + " (" +
                    std::to_string(std::lround(100.0 * static_cast<double>(subject.too_late) /
                                               static_cast<double>(subject.papers))) +
                    "%).";
    }
    if (!subject.without_day.empty())
        text += " No day has room for: " + names_of(subject.without_day) + ".";
    return wrapped(text, Table::full_width) + '\n';
}

std::string expected_text(const Timetable& timetable) {
    if (timetable.expected == Seconds(0))
        return {};
    const std::string share = std::to_string(std::lround(100 * timetable.share.share)) + "%";
    const std::string whose = timetable.share.of == ShareOf::candidate ? " comes back, as in your sittings"
                              : timetable.share.of == ShareOf::members
                                  ? " comes back, as in the class's sittings"
                                  : " comes back, a guess until a sitting is on file";
    return wrapped("Reserved for the retries that these papers will bring: " +
                       length_text(timetable.expected) + " (" + share + " of a paper" + whose + ").",
                   Table::full_width) +
           '\n';
}

namespace {

std::string not_placed_text(const Timetable& timetable) {
    std::string names;
    for (const WorkItem& item : timetable.not_placed())
        if (item.kind() != WorkKind::sit) // told beside its subject
            names += (names.empty() ? "" : "; ") + long_text(item);
    return names.empty() ? names
                         : wrapped("Not placed: " + visible(names) + ".", Table::full_width, 2) + '\n';
}

} // namespace

std::string short_text(const Timetable& timetable, const std::vector<Remedy>& remedies) {
    if (timetable.fit == PlanFit::fits)
        return {};
    std::string text = not_placed_text(timetable) +
                       (timetable.fit == PlanFit::too_little_time
                            ? "It doesn't all fit: short by " + length_text(timetable.short_by) + ".\n"
                            : "No plan was found that fits.\n");
    if (remedies.empty())
        return text + "No single change was found that makes it fit: drop some of it, or give it more time\n"
                      "(inkturn days set). Rest days and sleep come first.\n";
    text += "Any one of these would make it fit; rest days and sleep come first:\n";
    for (const Remedy& remedy : remedies)
        text += "  " + wrapped(text_of(remedy), Table::full_width - 2, 2) + '\n';
    return text;
}

std::string changes_text(const std::vector<PlanChange>& changes) {
    std::string text;
    for (std::size_t i = 0; i < std::min(changes.size(), max_changes); ++i)
        text += wrapped("Changed: " + std::string(name(changes[i].kind)) + " " + visible(changes[i].what) +
                            " from " + day_text(changes[i].from) +
                            (changes[i].to ? " to " + day_text(*changes[i].to) : " to no day"),
                        Table::full_width) +
                "\n";
    if (changes.size() > max_changes)
        text += "Changed: " + std::to_string(changes.size() - max_changes) + " more\n";
    return text;
}

} // namespace inkturn
