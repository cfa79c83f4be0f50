#include "exchange/calendar.hpp"

#include "inkturn/plan.hpp"

#include <algorithm>
#include <string>

namespace inkturn {
namespace {

using RetryIterator = std::vector<Retry>::const_iterator;

/// FNV-1a of 64 bits (Fowler, Noll, Vo) over facts that hold no line break, each ended by one.
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

/// ` (7a 7b)`; nothing where there is one part alone.
std::string parts_text(const Retry& retry) {
    std::string labels;
    for (const std::size_t part : retry.asked().parts)
        labels += (labels.empty() ? "" : " ") + retry.paper->parts()[part].label;
    return retry.asked().parts.size() == 1 ? "" : " (" + labels + ")";
}

std::string question_text(const Retry& retry) {
    return retry.paper->id() + " question " + retry.id.question;
}

std::string line_of(const Retry& retry) {
    return question_text(retry) + parts_text(retry) + ", " + std::to_string(retry.asked().marks.count()) +
           (retry.asked().marks == Marks(1) ? " mark, " : " marks, ") + length_text(retry.allowance) +
           ", retry " + to_text(retry.id);
}

/// `first` to `last`, excluded, are a day's.
CalendarEvent event_of_day(const Candidate& candidate, RetryIterator first, RetryIterator last) {
    Seconds asked{0};
    std::string lines;
    for (auto retry = first; retry != last; ++retry) {
        asked += retry->allowance;
        lines += (lines.empty() ? "" : "\n") + line_of(*retry);
    }
    const auto count = last - first;
    const std::string summary =
        std::to_string(count) + (count == 1 ? " retry, " : " retries, ") + minutes_text(asked);
    const Day day = *first->day;
    return {uid_of("day", {candidate.code, iso(day)}), day, day, summary, lines};
}

CalendarEvent event_of_retry(const Candidate& candidate, const Retry& retry) {
    const Day sat_on = find_sitting(candidate, retry.id.sitting).sitting.day;
    return {uid_of("retry", {candidate.code, retry.paper->id(), iso(sat_on), retry.id.question,
                             std::to_string(retry.id.turn)}),
            *retry.day, *retry.day, question_text(retry) + ", " + minutes_text(retry.allowance),
            line_of(retry)};
}

bool concerns(const Exam& exam, const Candidate& candidate) {
    return exam.subject.empty() ||
           std::any_of(candidate.sittings.begin(), candidate.sittings.end(),
                       [&](const SittingRecord& record) { return record.paper->subject() == exam.subject; });
}

/// `number` counts the exams of its title and subject from 1.
CalendarEvent event_of_exam(const Exam& exam, std::ptrdiff_t number) {
    std::vector<std::string> facts{exam.title, exam.subject};
    if (number > 1)
        facts.push_back(std::to_string(number));
    return {uid_of("exam", facts), exam.day, exam.day, "Exam: " + exam.title,
            exam.subject.empty() ? "All subjects" : "Subject: " + exam.subject};
}

} // namespace

std::vector<CalendarEvent> events_of_retries(const Candidate& candidate, const std::vector<Retry>& retries,
                                             DaySpan span, EventFor each) {
    const std::vector<Retry> within = asked_within(retries, span).retries;
    std::vector<CalendarEvent> events;
    for (auto first = within.begin(); first != within.end();) {
        const auto last =
            each == EventFor::retry ? first + 1 : std::find_if(first, within.end(), [&](const Retry& retry) {
                return retry.day != first->day;
            });
        events.push_back(each == EventFor::retry ? event_of_retry(candidate, *first)
                                                 : event_of_day(candidate, first, last));
        first = last;
    }
    return events;
}

std::vector<CalendarEvent> events_of_exams(const Candidate& candidate, DaySpan span) {
    std::vector<CalendarEvent> events;
    for (auto exam = candidate.exams.begin(); exam != candidate.exams.end(); ++exam) {
        if (exam->day < span.first || exam->day > span.last || !concerns(*exam, candidate))
            continue;
        const auto before = std::count_if(candidate.exams.begin(), exam, [&](const Exam& other) {
            return other.title == exam->title && other.subject == exam->subject;
        });
        events.push_back(event_of_exam(*exam, before + 1));
    }
    return events;
}

} // namespace inkturn
