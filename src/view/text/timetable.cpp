#include "view/text/timetable.hpp"

#include "inkturn/base/time.hpp"
#include "view/text/lesson.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace inkturn {
namespace {

using Align = Table::Align;

constexpr std::size_t bar_width = 16;
constexpr std::size_t max_changes = 5;
constexpr int whole_topic = 0; ///< in place of the piece: both halves

std::string text_of(const TopicToRelearn& topic) {
    return "relearn " + topic.topic + (topic.piece == whole_topic ? "" : " (half)");
}

bool same_topic(const WorkItem& a, const WorkItem& b) {
    const auto* one = std::get_if<TopicToRelearn>(&a.work);
    const auto* other = std::get_if<TopicToRelearn>(&b.work);
    return one && other && one->subject == other->subject && one->topic == other->topic;
}

bool same_topic(const PlannedWork& a, const PlannedWork& b) {
    return a.what == WorkPurpose::relearn && b.what == a.what && a.subject == b.subject && a.name == b.name;
}

std::string unseen_questions(bool after_lesson) {
    static_assert(TopicToCheck::duration == std::chrono::minutes{15} &&
                  TopicToCheck::questions_after_lesson == 3);
    return std::string(after_lesson ? ": three unseen questions, 15 min" : ": 15 min of unseen questions") +
           " (inkturn paper draw)";
}

std::string text_of(const TopicToCheck& check) {
    return "check " + check.topic;
}

std::string text_of(const RecallGroup& group) {
    return "recall " + count_text(group.facts.size(), "fact");
}

/// `1 of its 5 questions met before in another paper`; of a drawn paper those met since count.
std::string met_before(const PaperToSit& paper) {
    return std::to_string(paper.met) + " of its " + count_text(paper.paper->questions().size(), "question") +
           (paper.is_drawn ? " met since it was drawn" : " met before in another paper");
}

std::string length_if_any(Seconds length) {
    return length == Seconds(0) ? "" : length_text(length);
}

/// Rounded up, so that only a day without work reads 0%.
std::string share_text(Seconds planned, Seconds available) {
    if (available == Seconds(0))
        return planned == Seconds(0) ? "" : "no time";
    return std::to_string((100 * planned.count() + available.count() - 1) / available.count()) + "%";
}

std::string share_text(double share) {
    constexpr double below_rounding = 1e-9;
    return std::to_string(std::lround(std::ceil(100 * share - below_rounding))) + "%";
}

/// Of the time available; a day that is over its time has a full bar.
std::string bar(const PlannedDay& day) {
    if (day.available == Seconds(0))
        return day.load() > Seconds(0) ? std::string(bar_width, '#') : "";
    const auto cells = [&](Seconds time) {
        const auto rounded = (static_cast<std::size_t>(time.count()) * bar_width +
                              static_cast<std::size_t>(day.available.count()) / 2) /
                             static_cast<std::size_t>(day.available.count());
        return std::min(rounded, bar_width);
    };
    const std::size_t done = cells(day.done);
    const std::size_t planned =
        day.planned > Seconds(0) ? std::max(done + 1, cells(day.done + day.planned)) : done;
    const std::size_t all = std::max(planned, cells(day.load()));
    return (std::string(done, '=') + std::string(planned - done, '#') + std::string(all - planned, '+') +
            std::string(bar_width, '.'))
        .substr(0, bar_width);
}

/// The day on which the window of late work closed.
std::optional<Day> late_since(const WorkItem& item) {
    if (const auto* retry = std::get_if<Retry>(&item.work); retry && retry->late)
        return retry->window->closes;
    if (const auto* check = std::get_if<TopicToCheck>(&item.work); check && check->late)
        return check->by.window->closes;
    if (const auto* group = std::get_if<RecallGroup>(&item.work); group && group->late)
        return group->window->closes;
    return std::nullopt;
}

std::string name_of(const SubjectAhead& subject) {
    return subject.subject.empty() ? "Papers without a subject" : visible(subject.subject);
}

/// The first ones, and how many more there are.
std::string names_of(const std::vector<std::string>& papers) {
    constexpr std::size_t most = 8;
    std::string names;
    for (std::size_t i = 0; i < std::min(papers.size(), most); ++i)
        names += (names.empty() ? "" : ", ") + visible(papers[i]);
    return names + (papers.size() > most ? " and " + std::to_string(papers.size() - most) + " more" : "");
}

std::string minutes_text(Seconds time) {
    return std::to_string(time / std::chrono::minutes{1});
}

struct RemedyText {
    std::string same_candidate;

    std::string operator()(const MoreTime& more) const {
        return minutes_text(more.a_day) + " more minutes on every day that has time";
    }
    std::string operator()(const LongerDay& longer) const {
        const std::string minutes = minutes_text(longer.in_all);
        return minutes + " minutes on one day a week (inkturn days set " +
               std::string(weekday_name(longer.weekday)) + "=" + minutes + same_candidate + ")";
    }
    std::string operator()(const FewerPapers& fewer) const {
        const std::string papers =
            std::to_string(fewer.fewer) + " fewer " + (fewer.fewer == 1 ? "paper" : "papers");
        if (fewer.subject.empty())
            return papers + " without a subject";
        return papers + " of " + visible(fewer.subject) + " (inkturn plan --papers " +
               std::to_string(fewer.remaining) + " --subject " + shell_word(fewer.subject) + same_candidate +
               ")";
    }
    std::string operator()(const UseDaysOff& off) const {
        const std::string minutes = minutes_text(off.each);
        std::string days;
        for (const Day day : off.days)
            days += " " + iso(day) + "=" + minutes;
        return "work on " + count_text(off.days.size(), "day") + " off (inkturn days on" + days +
               same_candidate + ")";
    }
    std::string operator()(const FewerRetries& fewer) const {
        std::string ids;
        for (const RetryId& id : fewer.retries)
            ids += (ids.empty() ? "" : ", ") + to_text(id);
        const bool one = fewer.retries.size() == 1;
        return (one ? "1 retry" : std::to_string(fewer.retries.size()) + " retries") +
               " fewer, worth least: " + ids + ", " + counted_marks(fewer.missed_marks) +
               " missed (inkturn plan --drop-least" + same_candidate + ")";
    }
};

} // namespace

std::string short_text(const WorkItem& item) {
    if (const auto* retry = std::get_if<Retry>(&item.work))
        return to_text(retry->id);
    if (const auto* paper = std::get_if<PaperToSit>(&item.work))
        return "sit " + name_of(*paper);
    if (const auto* topic = std::get_if<TopicToRelearn>(&item.work))
        return text_of(*topic);
    if (const auto* check = std::get_if<TopicToCheck>(&item.work))
        return text_of(*check);
    return text_of(std::get<RecallGroup>(item.work));
}

std::string long_text(const WorkItem& item) {
    std::string text = short_text(item);
    if (const auto* retry = std::get_if<Retry>(&item.work))
        text = "retry " + text + ": " + retry->paper->id() + " " + parts_asked(*retry);
    if (const auto* check = std::get_if<TopicToCheck>(&item.work))
        return text + unseen_questions(!check->lesson.empty());
    if (item.kind() == WorkKind::sit)
        text += " and mark it";
    text += ", " + length_text(item.duration);
    if (const auto* paper = std::get_if<PaperToSit>(&item.work); paper && paper->met > 0)
        text += ", " + met_before(*paper);
    if (const auto closed = late_since(item))
        text += ", late: its window closed on " + day_text(*closed);
    return text;
}

std::vector<WorkItem> with_halves_joined(const std::vector<WorkItem>& items) {
    std::vector<WorkItem> joined;
    for (const WorkItem& item : items)
        if (!joined.empty() && same_topic(joined.back(), item)) {
            std::get<TopicToRelearn>(joined.back().work).piece = whole_topic;
            joined.back().duration += item.duration;
        } else {
            joined.push_back(item);
        }
    return joined;
}

std::string met_before_text(const std::vector<WorkItem>& items, DaySpan days) {
    std::string text;
    for (const WorkItem& item : items)
        if (const auto* paper = std::get_if<PaperToSit>(&item.work);
            paper && paper->met > 0 && item.day && *item.day >= days.first && *item.day <= days.last)
            text += text_line(visible(name_of(*paper)) + ": " + met_before(*paper) + ".");
    return text;
}

std::vector<std::string> texts_of(const std::vector<PlannedWork>& on_file, const Candidate& candidate) {
    std::vector<PlannedWork> planned;
    for (const PlannedWork& work : on_file)
        if (!planned.empty() && same_topic(planned.back(), work)) {
            planned.back().number = whole_topic;
            planned.back().duration += work.duration;
        } else {
            planned.push_back(work);
        }
    std::vector<std::string> texts;
    std::size_t facts = 0;
    Seconds time_for_facts{0};
    for (const PlannedWork& work : planned) {
        const std::string length = ", " + length_text(work.duration);
        switch (work.what) {
        case WorkPurpose::sit:
            texts.push_back("sit " +
                            (!work.name.empty() ? work.name
                             : work.subject.empty()
                                 ? "paper " + std::to_string(work.number)
                                 : work.subject + " paper " + std::to_string(work.number)) +
                            " and mark it" + length);
            break;
        case WorkPurpose::relearn:
            texts.push_back("relearn " + work.name + (work.number == whole_topic ? "" : " (half)") + length);
            break;
        case WorkPurpose::check:
            texts.push_back("check " + work.name +
                            unseen_questions(find_lesson_attended(candidate, work.subject, work.name)));
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
    std::array<std::size_t, std::variant_size_v<WorkItem::Work>> counts{};
    const auto count_of = [&counts](WorkKind kind) { return counts[static_cast<std::size_t>(kind)]; };
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
    add(count_of(WorkKind::retry), counted_retries(count_of(WorkKind::retry)));
    add(count_of(WorkKind::sit), count_text(count_of(WorkKind::sit), "paper"));
    add(topics.size(), count_text(topics.size(), "topic"));
    add(count_of(WorkKind::check), count_text(count_of(WorkKind::check), "check"));
    add(count_of(WorkKind::recall), count_text(count_of(WorkKind::recall), "sheet") + " of facts");
    std::string all;
    for (const std::string& text : texts)
        all += (all.empty() ? "" : ", ") + text;
    return all.empty() ? "Nothing to do" : all;
}

std::string exam_text(const Exam& exam) {
    return visible(exam.title + (exam.subject.empty() ? "" : " (" + exam.subject + ")"));
}

std::vector<std::string> exams_on(const std::vector<Exam>& exams, Day day) {
    std::vector<std::string> texts;
    for (const Exam& exam : exams)
        if (exam.day == day)
            texts.push_back((exam.mock ? "mock: " : "exam: ") + exam_text(exam));
    return texts;
}

std::vector<std::string> fixed_on(const PlannedDay& day, const std::vector<Exam>& exams) {
    std::vector<std::string> texts = exams_on(exams, day.day);
    for (const LessonPlace& lesson : day.lessons)
        texts.push_back("lesson" + time_text(lesson) + ": " + visible(topics_text(lesson.topics)));
    return texts;
}

Table plan_table(const Plan& plan, const std::vector<Exam>& exams) {
    Table table({{"day"},
                 {"done", Align::right, true},
                 {"planned", Align::right},
                 {"reserved", Align::right, true},
                 {"available", Align::right},
                 {"share", Align::right},
                 {"late", Align::right, true},
                 {"work", Align::left_wrapped}});
    for (const PlannedDay& day : plan.days) {
        const std::vector<std::string> fixed = fixed_on(day, exams);
        if (day.items.empty() && day.reserved + day.done == Seconds(0) && fixed.empty())
            continue;
        std::string work;
        for (const std::string& one : fixed)
            work += (work.empty() ? "" : "; ") + one;
        const std::vector<WorkItem> items = with_halves_joined(day.items);
        for (const WorkItem& item : items)
            work += (&item == &items.front()          ? (work.empty() ? "" : "; ")
                     : item.kind() == WorkKind::retry ? " "
                                                      : "; ") +
                    short_text(item);
        const auto late = std::count_if(day.items.begin(), day.items.end(),
                                        [](const WorkItem& item) { return late_since(item).has_value(); });
        table.add_row({day_text(day.day), length_if_any(day.done), length_if_any(day.planned),
                       length_if_any(day.reserved),
                       day.exam ? length_if_any(day.available) : length_text(day.available),
                       share_text(day.load(), day.available), late == 0 ? "" : std::to_string(late), work});
    }
    return table;
}

Table week_table(const Plan& plan) {
    Table table({{"day"},
                 {"share of the day"},
                 {"", Align::right},
                 {"done", Align::right, true},
                 {"planned", Align::right},
                 {"reserved", Align::right},
                 {"available", Align::right}});
    for (const PlannedDay& day : plan.days)
        table.add_row({day_text(day.day), bar(day), share_text(day.load(), day.available),
                       length_if_any(day.done), length_if_any(day.planned), length_if_any(day.reserved),
                       day.available > Seconds(0) ? length_text(day.available)
                       : day.mock                 ? "mock"
                       : day.exam                 ? "exam"
                       : !day.lessons.empty()     ? "lesson"
                                                  : "free"});
    return table;
}

std::string subject_text(const SubjectAhead& subject, Day today) {
    std::string text = name_of(subject) + ": ";
    if (subject.examined)
        return wrapped(text + "its last exam has come, so none of its papers are planned.", text_width()) +
               '\n';
    if (!subject.exam) {
        text +=
            count_text(subject.papers, "paper") + " to sit, one a week, as " +
            (subject.far_off
                 ? "the exam on " + day_text(*subject.far_off) + " is more than three years off."
                 : "no exam " + (subject.subject.empty() ? "for them" : "of " + visible(subject.subject)) +
                       " is on file.");
    } else {
        text += "exam on " + day_text(*subject.exam) + ", " +
                (subject.papers == 0 ? "no paper" : count_text(subject.papers, "paper")) + " to sit.";
        if (subject.papers > 0 || *subject.last_useful >= today)
            text += std::string(" The last useful sitting ") +
                    (*subject.last_useful < today ? "was on " : "is on ") + day_text(*subject.last_useful) +
                    ": a question missed after that has no full window before the exam.";
        if (subject.too_late > 0)
            text += " Too late for that: " + std::to_string(subject.too_late) + " of " +
                    count_text(subject.papers, "paper") + " (" +
                    std::to_string(std::lround(100.0 * static_cast<double>(subject.too_late) /
                                               static_cast<double>(subject.papers))) +
                    "%).";
    }
    if (subject.sat > 0)
        text += " Of the " + std::to_string(subject.wished) + " asked for, " + std::to_string(subject.sat) +
                (subject.sat == 1 ? " is" : " are") + " already sat.";
    if (!subject.without_day.empty())
        text += " No day has room for: " + names_of(subject.without_day) + ".";
    return wrapped(text, text_width()) + '\n';
}

std::string fullest_text(const Timetable& timetable) {
    const std::string fullest = share_text(timetable.fullest_share);
    const std::string bound = share_text(timetable.fullest_share_bound);
    return "Fullest day to come: " + fullest + " of its time" +
           (bound == fullest ? ".\n" : "; within the windows it can't be below " + bound + ".\n");
}

std::string short_text(const Timetable& timetable, const std::vector<Remedy>& remedies,
                       const std::string& same_candidate) {
    if (timetable.fit == PlanFit::fits)
        return {};
    std::string text = not_placed_text(timetable);
    const bool all_has_day = timetable.not_placed_time == Seconds(0);
    if (remedies.empty())
        return text +
               wrapped(std::string("No single change was found that makes ") +
                           (all_has_day ? "room for it. "
                                        : "it fit: drop some of it, or give it more time (inkturn days set" +
                                              same_candidate + "). ") +
                           "Rest days and sleep come first.",
                       text_width()) +
               '\n';
    text += text_line(std::string("Any one of these would make ") +
                      (all_has_day ? "room for it" : "it fit, not counting what is missed once more") +
                      "; rest days and sleep come first:");
    for (const Remedy& remedy : remedies)
        text += "  " + wrapped(std::visit(RemedyText{same_candidate}, remedy), text_width() - 2, 2) + '\n';
    return text;
}

namespace {

std::string what_changed(const PlanChange& change) {
    return (change.half ? "half an hour to " : "") + std::string(name(change.kind)) + " " +
           visible(change.what);
}

} // namespace

std::string changes_text(const std::vector<PlanChange>& changes) {
    std::string text;
    std::size_t count = 0;
    const PlanChange* before = nullptr; // told in the line above
    for (const PlanChange& change : changes) {
        if (!change.to || ++count > max_changes)
            continue;
        const std::string what = what_changed(change);
        const bool goes_on = change.not_done && before && before->not_done && before->from == change.from;
        before = &change;
        if (goes_on)
            text +=
                "  " + wrapped(what + "; now on " + day_text(*change.to) + ".", text_width() - 2, 4) + '\n';
        else
            text += text_line(change.not_done ? "Not done on " + day_text(change.from) + ": " + what +
                                                    "; now on " + day_text(*change.to) + "."
                                              : "Moved: " + what + " from " + day_text(change.from) + " to " +
                                                    day_text(*change.to) + ".");
    }
    if (count > max_changes)
        text += "And " + std::to_string(count - max_changes) + " more.\n";
    return text;
}

std::string on_exam_days_text(const Timetable& timetable, const std::vector<Exam>& exams) {
    std::string text;
    for (const Exam& exam : exams) {
        std::vector<std::string> on_it;
        for (const WorkItem& item : with_halves_joined(timetable.items))
            if (item.day == exam.day)
                on_it.push_back(visible(short_text(item)));
        if (!on_it.empty())
            text += text_line("On the day of " + exam_text(exam) +
                              ", as no other day is left: " + joined(on_it, " and ") + ".");
    }
    return text;
}

namespace {

/// `is over (Mechanics test)`: the latest exam of the subject, which may be today's.
std::string latest_exam(const std::vector<Exam>& exams, const std::string& subject, Day today) {
    const Exam* latest = nullptr;
    for (const Exam& exam : exams)
        if (examines(exam, subject) && exam.day <= today && (latest == nullptr || exam.day >= latest->day))
            latest = &exam;
    if (latest == nullptr)
        return "is over";
    return (latest->day == today ? "is today (" : "is over (") + visible(latest->title) + ")";
}

std::string resting_text(const std::string& subject, const std::vector<std::string>& retries,
                         const std::string& exam) {
    const std::string count =
        std::to_string(retries.size()) + (subject.empty() ? "" : " " + visible(subject));
    const bool one = retries.size() == 1;
    return text_line(count + (one ? " retry is" : " retries are") + " no longer planned, as " +
                     (one ? "its" : "their") + " exam " + exam + ": " + joined(retries, " and ") + ".");
}

} // namespace

std::string without_day_text(const Timetable& timetable, const std::vector<Exam>& exams, Day today) {
    std::vector<std::string> without;
    std::map<std::string, std::vector<std::string>> resting; // by subject
    for (const WorkItem& item : timetable.items)
        if (const auto* retry = std::get_if<Retry>(&item.work); retry && !retry->window)
            (has_no_day_left(*retry, exams, today) ? without : resting[retry->paper->subject()])
                .push_back(to_text(retry->id));
    std::string text;
    if (!without.empty())
        text += text_line(counted_retries(without.size()) + (without.size() == 1 ? " has" : " have") +
                          " no day left before the exam: " + joined(without, " and ") + ".");
    for (const auto& [subject, retries] : resting)
        text += resting_text(subject, retries, latest_exam(exams, subject, today));
    return text;
}

} // namespace inkturn
