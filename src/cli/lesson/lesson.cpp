#include "cli/lesson/lesson.hpp"

#include "cli/commands.hpp"
#include "cli/local_time.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "exchange/json/lesson.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/lesson/places.hpp"
#include "inkturn/lesson/touched.hpp"
#include "inkturn/retry/availability.hpp"
#include "inkturn/seats/lost_marks.hpp"
#include "inkturn/statistics/diagnosis.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/lessons.hpp"
#include "view/text/lesson.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <numeric>
#include <set>

namespace inkturn {
namespace {

std::string lost_text(const std::optional<Marks>& lost) {
    return !lost ? "not sat" : *lost == Marks(0) ? "full marks" : marks_number(*lost);
}

/// Who is offered a place before others, and why.
struct Claims {
    LostByCandidate lost;
    Elsewhere elsewhere;
    std::vector<std::string> line; ///< the next one first
    std::string day_off{};         ///< whose it is, a line; empty: nobody's
};

/// `waits, number 2`; `comes to help-2` or `offered in help-2`, at that time; `had none`, once the lesson is
/// over.
std::string place_text(const PlaceAsked& asked, const Claims& claims, bool is_over) {
    if (asked.state != PlaceState::asked)
        return std::string(name(asked.state));
    if (is_over)
        return "had none";
    const auto found = std::find(claims.line.begin(), claims.line.end(), asked.candidate);
    if (found != claims.line.end())
        return "waits, number " + std::to_string(found - claims.line.begin() + 1);
    const PlaceElsewhere& other = claims.elsewhere.at(asked.candidate);
    return (comes(other.state) ? "comes to " : "offered in ") + other.lesson;
}

std::string counted(const Lesson& lesson) {
    std::vector<std::string> counts;
    for (const PlaceState state : {PlaceState::attended, PlaceState::confirmed, PlaceState::offered})
        if (const std::size_t count = in_state(lesson, state).size(); count > 0)
            counts.push_back(std::to_string(count) + " " + std::string(name(state)));
    counts.push_back(std::to_string(free_places(lesson)) + " free");
    return count_text(lesson.places, "place") + ": " + joined(counts, ", ") + ".";
}

std::string order_text(const Lesson& lesson) {
    return lesson.order == PlaceOrder::asked ? "by the order of asking"
                                             : "by the marks lost on what they want";
}

/// What to do about the line, and why.
std::string line_text(const Lesson& lesson, const Claims& claims, Day today) {
    const std::vector<std::string>& line = claims.line;
    if (line.empty())
        return "";
    const bool is_over = lesson.day < today;
    const std::vector<std::string> early = placed_out_of_turn(lesson, claims.lost, claims.elsewhere);
    const std::string how = early.empty() ? ", " + order_text(lesson) + "."
                                          : ". Places go " + order_text(lesson) + ", but " +
                                                visible(joined(early, " and ")) +
                                                (early.size() == 1 ? " has" : " have") + " one out of turn.";
    const std::size_t next = is_over ? 0 : std::min(free_places(lesson), line.size());
    if (next > 0)
        return text_line(
                   "Next in line for the " + std::string(next == 1 ? "free place" : "free places") + ", " +
                   order_text(lesson) + ": " +
                   visible(joined({line.begin(), line.begin() + static_cast<std::ptrdiff_t>(next)}, ", ")) +
                   ".") +
               (next < line.size() ? text_line("No room for " + std::to_string(line.size() - next) + " more.")
                                   : "");
    return text_line((is_over ? "Asked and had no place: " : "No room for: ") + visible(joined(line, ", ")) +
                     how);
}

/// Who can't come after all, or can't be offered a place: they have one in another lesson at that time.
std::string elsewhere_text(const Lesson& lesson, const Claims& claims, Day today) {
    std::string text;
    if (lesson.day < today)
        return text;
    for (const PlaceAsked& asked : lesson.asked) {
        const auto other = claims.elsewhere.find(asked.candidate);
        if (other == claims.elsewhere.end() || asked.state == PlaceState::declined || comes(asked.state))
            continue;
        text += text_line(
            visible(asked.candidate) +
            (comes(other->second.state) ? " comes to lesson " : " is offered a place in lesson ") +
            other->second.lesson + " at that time" +
            (asked.state == PlaceState::asked ? ", so is passed over."
                                              : ": 'inkturn lesson decline " + lesson.id + " " +
                                                    shell_word(asked.candidate) + "' frees the place here."));
    }
    return text;
}

/// Whose day off the lesson's day is: of those who asked, with their classes; of all classes before anybody
/// did.
std::string day_off_text(const Store& store, const Lesson& lesson, Day today) {
    if (lesson.day < today)
        return "";
    std::vector<std::string> whose;
    std::set<std::string> members;
    for (const ClassOnFile& one : store.classes()) {
        if (!is_day_off(store.class_times(one.name).dates, lesson.day))
            continue;
        const std::vector<std::string> codes = store.members(one.name);
        members.insert(codes.begin(), codes.end());
        if (lesson.asked.empty() || std::any_of(codes.begin(), codes.end(), [&](const std::string& code) {
                return find_asked(lesson, code) != nullptr;
            }))
            whose.push_back("class " + visible(one.name));
    }
    for (const PlaceAsked& asked : lesson.asked)
        if (members.count(asked.candidate) == 0 &&
            is_day_off(store.candidate(asked.candidate).availability.dates, lesson.day))
            whose.push_back(visible(asked.candidate));
    return whose.empty() ? ""
                         : text_line(day_text(lesson.day) + " is a day off for " + joined(whose, " and ") +
                                     ": ask whether they can come.");
}

std::string next_step(const Lesson& lesson, const std::vector<std::string>& line, Day today) {
    if (lesson.day < today || (lesson.day == today && !those_who_come(lesson).empty()))
        return in_state(lesson, PlaceState::attended).empty() ? "attended " + lesson.id + " CODE..." : "list";
    if (!line.empty() && free_places(lesson) > 0)
        return "offer " + lesson.id;
    if (!in_state(lesson, PlaceState::offered).empty())
        return "confirm " + lesson.id + " CODE...";
    return those_who_come(lesson).empty() ? "ask " + lesson.id + " CODE..." : "sheet " + lesson.id;
}

Table table_of(const Lesson& lesson, const Claims& claims, Day today) {
    Table table({{"candidate", Table::Align::left_may_be_cut},
                 {"since"},
                 {"place"},
                 {"lost", Table::Align::right},
                 {"wants", Table::Align::left_may_be_cut, true},
                 {"remark", Table::Align::left_may_be_cut, true}});
    for (const PlaceAsked& asked : lesson.asked)
        table.add_row({asked.candidate, date_text(local_day(asked.at)),
                       place_text(asked, claims, lesson.day < today),
                       lost_text(claims.lost.at(asked.candidate)), topics_text(asked.topics), asked.remark});
    return table;
}

void print(const Context& context, const Lesson& lesson, const Claims& claims) {
    const Day today = context.date_today();
    context.out << context.heading("Lesson " + lesson.id) << ": "
                << wrapped(what_and_when(lesson), text_width() - 9 - lesson.id.size(), 2) << '\n'
                << counted(lesson) << '\n'
                << claims.day_off << line_text(lesson, claims, today)
                << elsewhere_text(lesson, claims, today);
    if (!lesson.asked.empty())
        context.out << '\n'
                    << table_of(lesson, claims, today) << '\n'
                    << text_line(
                           "Lost: marks so far on what each wants. Marks don't say who needs help most: "
                           "that's your judgement.");
    context.out << "Next: inkturn lesson " << next_step(lesson, claims.line, today) << '\n';
}

} // namespace

std::string days_off_text(const Store& store, const std::vector<Lesson>& lessons, Day today) {
    std::set<std::string> lines;
    for (const Lesson& lesson : lessons)
        lines.insert(day_off_text(store, lesson, today));
    return std::accumulate(lines.begin(), lines.end(), std::string());
}

Lesson lesson_on_file(const Store& store, const std::string& id) {
    auto lesson = LessonsOnFile::find(store, id);
    if (!lesson) {
        std::vector<std::string> ids;
        for (const Lesson& one : LessonsOnFile::all(store))
            ids.push_back(one.id);
        throw not_on_file("no lesson " + id + " on file", id, ids, Error::Remedy::list_lessons);
    }
    return std::move(*lesson);
}

Elsewhere elsewhere_on_file(const Store& store, const Lesson& lesson, Day today) {
    return elsewhere_then(lesson, LessonsOnFile::all(store), today);
}

LostByCandidate lost_by_those_who_asked(const Store& store, const Lesson& lesson) {
    const std::vector<Copies> copies = DrawnPapers::copies(store);
    LostByCandidate lost;
    for (const PlaceAsked& asked : lesson.asked) {
        std::vector<TopicDiagnosis> topics =
            diagnose({unseen_marks(store.candidate(asked.candidate), copies)});
        topics.erase(
            std::remove_if(topics.begin(), topics.end(),
                           [&](const TopicDiagnosis& topic) { return topic.subject != lesson.subject; }),
            topics.end());
        lost[asked.candidate] = marks_lost_on(topics, asked.topics.empty() ? lesson.topics : asked.topics);
    }
    return lost;
}

std::size_t keep_lesson(const Context& context, Store::Change& change, const Lesson& before,
                        const std::optional<Lesson>& after) {
    const Day today = context.date_today();
    if (after) {
        check_can_be_changed(before, *after);
        check_nobody_is_in_two(*after, LessonsOnFile::all(change.store()));
    }
    const std::vector<std::string> touched = touched_by(before, after);
    for (const std::string& code : touched)
        keep_days_passed(change, code, today);
    LessonsOnFile lessons(change);
    if (after)
        lessons.change(*after);
    else
        lessons.remove(before.id);
    std::size_t moved = 0;
    for (const std::string& code : touched)
        if (change.store().has_candidate(code))
            moved += !keep_timetable(change, change.store().candidate(code), today).moved.empty();
    return moved;
}

void show_lesson(const Context& context, const Store& store, const std::string& id) {
    const Lesson lesson = lesson_on_file(store, id);
    Claims claims{lost_by_those_who_asked(store, lesson),
                  elsewhere_on_file(store, lesson, context.date_today()),
                  {},
                  {}};
    claims.day_off = day_off_text(store, lesson, context.date_today());
    claims.line = next_in_line(lesson, claims.lost, claims.elsewhere);
    context.answer([&] { return json_of(lesson, claims.lost, claims.elsewhere); },
                   [&] { print(context, lesson, claims); });
}

void add_lesson(Command& line) {
    Command group = line.group("lesson", "Revision lessons: who asks, who comes, and what to do there");
    group.closing(
        "Examples:\n  inkturn lesson add vectors-1 --on 2026-12-05 --at 16:00 --topic vectors --places 8\n"
        "  inkturn lesson ask vectors-1 K02 K05");
    add_lesson_lists(group);
    add_lesson_places(group);
    add_lesson_sheet(group);
    add_lesson_seats(group);
    add_lesson_form(group);
}

} // namespace inkturn
