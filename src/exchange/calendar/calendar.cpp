#include "exchange/calendar/calendar.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <utility>

namespace inkturn {
namespace {

using ItemIterator = std::vector<WorkItem>::const_iterator;

/// 64-bit FNV-1a (Fowler, Noll, Vo) over facts without line breaks, each ended by one.
std::uint64_t hash_of(const std::vector<std::string>& facts) {
    std::uint64_t hash = 0xCBF29CE484222325;
    for (const std::string& fact : facts)
        for (const char c : fact + '\n')
            hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001B3;
    return hash;
}

std::string uid_of(const std::string& kind, const std::vector<std::string>& facts) {
    std::string uid = "inkturn-" + kind + "-";
    const std::uint64_t hash = hash_of(facts);
    for (int shift = 60; shift >= 0; shift -= 4)
        uid += "0123456789abcdef"[hash >> shift & 0xF];
    return uid;
}

/// Rounded up. In a calendar `18:00` would be read as a time of day.
std::string minutes_text(Seconds length) {
    return std::to_string((length.count() + 59) / 60) + " min";
}

/// ` (7a 7b)`; nothing if there is only one part.
std::string parts_text(const Retry& retry) {
    std::string labels;
    for (const std::size_t part : retry.paper_question().parts)
        labels += (labels.empty() ? "" : " ") + retry.paper->parts()[part].label;
    return retry.paper_question().parts.size() == 1 ? "" : " (" + labels + ")";
}

std::string question_text(const Retry& retry) {
    return retry.paper->id() + " question " + retry.id.question;
}

std::string count_text(std::size_t count, const std::string& one, const std::string& more) {
    return std::to_string(count) + " " + (count == 1 ? one : more);
}

std::string title_of(const Retry& retry) {
    return question_text(retry);
}

std::string title_of(const PaperToSit& paper) {
    return "Sit " + name_of(paper) + " and mark it";
}

std::string title_of(const TopicToRelearn& topic) {
    return "Relearn " + topic.topic + " (" + std::to_string(topic.piece) + " of " +
           std::to_string(TopicToRelearn::pieces) + ")";
}

std::string title_of(const TopicToCheck& check) {
    return "Check " + check.topic;
}

std::string title_of(const RecallGroup& group) {
    return "Recall " + count_text(group.facts.size(), "fact", "facts");
}

std::string line_of(const Retry& retry, Seconds duration) {
    return question_text(retry) + parts_text(retry) + ", " +
           count_text(static_cast<std::size_t>(retry.paper_question().marks.count()), "mark", "marks") +
           ", " + length_text(duration) + ", retry " + to_text(retry.id);
}

template <typename Work>
std::string line_of(const Work& work, Seconds duration) {
    return title_of(work) + ", " + length_text(duration) +
           (work.subject.empty() ? "" : ", subject " + work.subject);
}

std::string line_of(const TopicToCheck& check, Seconds duration) {
    return title_of(check) + ", " + length_text(duration) +
           (check.lesson.empty() ? " of" : ", " + std::to_string(check.questions_after_lesson)) +
           " unseen questions (inkturn paper draw)" +
           (check.subject.empty() ? "" : ", subject " + check.subject);
}

std::string line_of(const WorkItem& item) {
    return std::visit([&](const auto& work) { return line_of(work, item.duration); }, item.work);
}

/// What distinguishes a piece of work from all others, in any store.
class Identity {
  public:
    Identity(const Candidate& candidate, const TimetableRequest& request)
        : candidate_(candidate), request_(request), last_recalls_(last_recalls(request.sheets)) {}

    std::vector<std::string> operator()(const Retry& retry) const {
        const Day sat_on = get_sitting(candidate_, retry.id.sitting).sitting.day;
        return {candidate_.code, retry.paper->id(), iso(sat_on), retry.id.question,
                std::to_string(retry.id.turn)};
    }
    std::vector<std::string> operator()(const PaperToSit& paper) const {
        if (paper.paper)
            return {candidate_.code, paper.subject, paper.paper->id()};
        return {candidate_.code, paper.subject, "", std::to_string(paper.number)};
    }
    std::vector<std::string> operator()(const TopicToRelearn& topic) const {
        return {candidate_.code, topic.subject, topic.topic, last_relearned(topic),
                std::to_string(topic.piece)};
    }
    std::vector<std::string> operator()(const TopicToCheck& check) const {
        return {candidate_.code, check.subject, check.topic, iso(check.relearned_on)};
    }
    std::vector<std::string> operator()(const RecallGroup& group) const {
        std::map<std::string, std::string> asked_on;
        for (const FactId fact : group.facts)
            asked_on[find_fact(request_.facts, fact)->prompt] = last_day(fact);
        std::vector<std::string> facts{candidate_.code, group.subject};
        for (const auto& [prompt, day] : asked_on)
            facts.insert(facts.end(), {prompt, day});
        return facts;
    }

  private:
    /// The last day it was relearned as a whole; empty: never. Marks lost while a topic waits to be relearned
    /// don't make it another piece of work.
    std::string last_relearned(const TopicToRelearn& topic) const {
        std::string last;
        for (const Relearned& relearned : candidate_.relearned)
            if (!relearned.half && relearned.subject == topic.subject && relearned.topic == topic.topic)
                last = std::max(last, iso(relearned.day));
        return last;
    }

    /// The last day the fact was on a sheet; empty: never.
    std::string last_day(FactId fact) const {
        const auto last = last_recalls_.find(fact);
        return last == last_recalls_.end() ? std::string() : iso(last->second.day);
    }

    const Candidate& candidate_;
    const TimetableRequest& request_;
    std::map<FactId, LastRecall> last_recalls_;
};

std::size_t count_of(WorkKind kind, ItemIterator first, ItemIterator last) {
    return static_cast<std::size_t>(
        std::count_if(first, last, [kind](const WorkItem& item) { return item.kind() == kind; }));
}

/// `2 retries, 1 paper, 1 topic, 1 check, 12 facts`; kinds without any are left out.
std::string counted_work(ItemIterator first, ItemIterator last) {
    std::set<std::pair<std::string, std::string>> topics;
    std::size_t facts = 0;
    for (auto item = first; item != last; ++item) {
        if (const auto* topic = std::get_if<TopicToRelearn>(&item->work))
            topics.emplace(topic->subject, topic->topic);
        if (const auto* group = std::get_if<RecallGroup>(&item->work))
            facts += group->facts.size();
    }
    std::string text;
    const auto add = [&text](std::size_t count, const std::string& one, const std::string& more) {
        if (count > 0)
            text += (text.empty() ? "" : ", ") + count_text(count, one, more);
    };
    add(count_of(WorkKind::retry, first, last), "retry", "retries");
    add(count_of(WorkKind::sit, first, last), "paper", "papers");
    add(topics.size(), "topic", "topics");
    add(count_of(WorkKind::check, first, last), "check", "checks");
    add(facts, "fact", "facts");
    return text;
}

/// `first` up to, but not including, `last` are one day's.
CalendarEvent event_of_day(const Candidate& candidate, ItemIterator first, ItemIterator last) {
    Seconds duration{0};
    std::string lines;
    for (auto item = first; item != last; ++item) {
        duration += item->duration;
        lines += (lines.empty() ? "" : "\n") + line_of(*item);
    }
    const Day day = *first->day;
    return {uid_of("day", {candidate.code, iso(day)}), day, day,
            counted_work(first, last) + ", " + minutes_text(duration), lines};
}

CalendarEvent event_of_item(const Identity& identity, const WorkItem& item) {
    const std::string title = std::visit([](const auto& work) { return title_of(work); }, item.work);
    return {uid_of(std::string(name(item.kind())), std::visit(identity, item.work)), *item.day, *item.day,
            title + ", " + minutes_text(item.duration), line_of(item)};
}

std::vector<WorkItem> items_within(const Timetable& timetable, DaySpan span) {
    std::vector<WorkItem> within;
    for (const WorkItem& item : timetable.items)
        if (item.day && span.contains(*item.day))
            within.push_back(item);
    return within;
}

/// Of the papers sat and of those to sit.
std::set<std::string> subjects_of(const Candidate& candidate, const Timetable& timetable) {
    std::set<std::string> subjects;
    for (const SittingRecord& record : candidate.sittings)
        subjects.insert(record.paper->subject());
    for (const WorkItem& item : timetable.items)
        if (const auto* paper = std::get_if<PaperToSit>(&item.work))
            subjects.insert(paper->subject);
    return subjects;
}

/// `number` counts exams with the same title and subject, from 1.
CalendarEvent event_of_exam(const Exam& exam, std::ptrdiff_t number) {
    std::vector<std::string> facts{exam.title, exam.subject};
    if (number > 1)
        facts.push_back(std::to_string(number));
    return {uid_of("exam", facts), exam.day, exam.day, (exam.mock ? "Mock: " : "Exam: ") + exam.title,
            exam.subject.empty() ? "All subjects" : "Subject: " + exam.subject};
}

} // namespace

std::vector<CalendarEvent> events_of_work(const Candidate& candidate, const TimetableRequest& request,
                                          const Timetable& timetable, DaySpan span, EventFor each) {
    const std::vector<WorkItem> within = items_within(timetable, span);
    std::vector<CalendarEvent> events;
    if (each == EventFor::item) {
        const Identity identity(candidate, request);
        for (const WorkItem& item : within)
            events.push_back(event_of_item(identity, item));
        return events;
    }
    for (auto first = within.begin(); first != within.end();) {
        const auto last =
            std::find_if(first, within.end(), [&](const WorkItem& item) { return item.day != first->day; });
        events.push_back(event_of_day(candidate, first, last));
        first = last;
    }
    return events;
}

std::vector<CalendarEvent> events_of_lessons(const Candidate& candidate, DaySpan span) {
    std::vector<CalendarEvent> events;
    for (const LessonPlace& lesson : candidate.lessons) {
        if (!span.contains(lesson.day))
            continue;
        CalendarEvent event{uid_of("lesson", {candidate.code, lesson.lesson}), lesson.day, lesson.day,
                            "Lesson: " + topics_text(lesson.topics) +
                                (lesson.start ? "" : ", " + minutes_text(lesson.duration)),
                            lesson.subject.empty() ? "" : "Subject: " + lesson.subject};
        if (lesson.start)
            event.time = EventTime{*lesson.start, lesson.duration};
        events.push_back(std::move(event));
    }
    return events;
}

std::vector<CalendarEvent> events_of_exams(const Candidate& candidate, const Timetable& timetable,
                                           DaySpan span) {
    const std::set<std::string> subjects = subjects_of(candidate, timetable);
    std::vector<CalendarEvent> events;
    for (auto exam = candidate.exams.begin(); exam != candidate.exams.end(); ++exam) {
        if (!span.contains(exam->day) || (!exam->subject.empty() && subjects.count(exam->subject) == 0))
            continue;
        const auto before = std::count_if(candidate.exams.begin(), exam, [&](const Exam& other) {
            return other.title == exam->title && other.subject == exam->subject;
        });
        events.push_back(event_of_exam(*exam, before + 1));
    }
    return events;
}

} // namespace inkturn
