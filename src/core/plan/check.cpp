#include "inkturn/plan/check.hpp"

#include <algorithm>
#include <set>
#include <utility>

namespace inkturn {
namespace {

bool was_checked(const Candidate& candidate, const LessonPlace& lesson) {
    return was_checked(candidate, lesson.subject, lesson.topics, lesson.day);
}

bool tried_on(const Part& part, const PartMarks& marks, const std::string& topic) {
    return part.topic == topic && marks.counts() && marks.attempted();
}

/// Whether a part on the topic was tried in the sitting.
bool tried_in(const SittingRecord& record, const std::string& subject, const std::string& topic) {
    if (record.paper->subject() != subject)
        return false;
    for (std::size_t i = 0; i < record.sitting.parts.size(); ++i)
        if (tried_on(record.paper->parts()[i], record.sitting.parts[i], topic))
            return true;
    return false;
}

bool fails(const Paper& paper, const Part& part, const PartMarks& marks, const std::string& topic) {
    return tried_on(part, marks, topic) && is_missed(paper, part, marks) &&
           marks.reason().value_or(Reason::method) == Reason::method;
}

bool fails(const SittingRecord& record, const std::string& topic) {
    for (std::size_t i = 0; i < record.sitting.parts.size(); ++i)
        if (fails(*record.paper, record.paper->parts()[i], record.sitting.parts[i], topic))
            return true;
    return false;
}

bool fails(const Paper& paper, const Reattempt& reattempt, const std::string& topic) {
    const auto position = paper.find_question(reattempt.question);
    if (!position)
        return false;
    const std::vector<std::size_t>& parts = paper.question(*position).parts;
    for (std::size_t i = 0; i < parts.size(); ++i)
        if (fails(paper, paper.parts()[parts[i]], reattempt.parts[i], topic))
            return true;
    return false;
}

/// Every topic that was relearned in full, on the day it was last.
std::vector<UntriedTopic> relearned_topics(const Candidate& candidate) {
    std::set<std::pair<std::string, std::string>> names;
    for (const Relearned& relearned : candidate.relearned)
        names.emplace(relearned.subject, relearned.topic);
    std::vector<UntriedTopic> topics;
    for (const auto& [subject, topic] : names)
        if (const auto day = relearned_in_full(candidate, subject, topic))
            topics.push_back({subject, topic, *day});
    return topics;
}

/// Those attended, the latest on the same topics of a subject.
std::vector<const LessonPlace*> lessons_attended(const Candidate& candidate) {
    std::vector<const LessonPlace*> lessons;
    for (const LessonPlace& lesson : candidate.lessons)
        if (find_lesson_attended(candidate, lesson.subject, topics_text(lesson.topics)) == &lesson)
            lessons.push_back(&lesson);
    return lessons;
}

bool is_among(const std::vector<TopicToRelearn>& topics, const std::string& subject,
              const std::string& topic) {
    return std::any_of(topics.begin(), topics.end(), [&](const TopicToRelearn& one) {
        return one.subject == subject && one.topic == topic;
    });
}

} // namespace

std::optional<Day> relearned_in_full(const Candidate& candidate, const std::string& subject,
                                     const std::string& topic) {
    std::optional<Day> in_full;
    bool half_before = false;
    for (const Relearned& relearned : candidate.relearned) {
        if (relearned.subject != subject || relearned.topic != topic)
            continue;
        if (!relearned.half || half_before)
            in_full = relearned.day;
        half_before = relearned.half && !half_before;
    }
    return in_full;
}

bool is_second_half(const Candidate& candidate, const Relearned& relearned) {
    bool half_before = false;
    for (const Relearned& one : candidate.relearned)
        if (one.subject == relearned.subject && one.topic == relearned.topic && one.day <= relearned.day)
            half_before = one.half && !half_before;
    return half_before &&
           !planned_day(candidate.planned, WorkPurpose::relearn, relearned.subject, relearned.topic, 1);
}

bool was_tried_after(const Candidate& candidate, const std::string& subject, const std::string& topic,
                     Day day) {
    return std::any_of(candidate.sittings.begin(), candidate.sittings.end(),
                       [&](const SittingRecord& record) {
                           return record.sitting.day > day && tried_in(record, subject, topic);
                       });
}

std::optional<Day> failed_after(const Candidate& candidate, const std::string& subject,
                                const std::string& topic, Day day) {
    std::optional<Day> first;
    const auto failed_on = [&](Day on) { first = first ? std::min(*first, on) : on; };
    for (const SittingRecord& record : candidate.sittings) {
        if (record.paper->subject() != subject)
            continue;
        if (record.sitting.day > day && fails(record, topic))
            failed_on(record.sitting.day);
        for (const Reattempt& reattempt : record.reattempts)
            if (reattempt.day > day && fails(*record.paper, reattempt, topic))
                failed_on(reattempt.day);
    }
    return first;
}

bool was_checked(const Candidate& candidate, const std::string& subject,
                 const std::vector<std::string>& topics, Day learned_on) {
    return std::any_of(
        candidate.sittings.begin(), candidate.sittings.end(), [&](const SittingRecord& record) {
            const Day sat_on = record.sitting.day;
            if (sat_on <= learned_on ||
                std::none_of(topics.begin(), topics.end(),
                             [&](const std::string& topic) { return tried_in(record, subject, topic); }))
                return false;
            const auto window = window_by_exams(candidate.exams, subject, learned_on, sat_on).window;
            return !window || sat_on >= window->opens;
        });
}

const LessonPlace* find_lesson_attended(const Candidate& candidate, const std::string& subject,
                                        const std::string& topics) {
    const LessonPlace* latest = nullptr;
    for (const LessonPlace& lesson : candidate.lessons)
        if (lesson.state == PlaceState::attended && lesson.subject == subject &&
            topics_text(lesson.topics) == topics && (!latest || latest->day <= lesson.day))
            latest = &lesson;
    return latest;
}

bool is_to_check(const Candidate& candidate, const std::string& subject, const std::string& topic) {
    const LessonPlace* lesson = find_lesson_attended(candidate, subject, topic);
    if (lesson && !was_checked(candidate, *lesson))
        return true;
    const auto relearned = relearned_in_full(candidate, subject, topic);
    return relearned && !was_checked(candidate, subject, {topic}, *relearned);
}

std::vector<UntriedTopic> untried_topics(const Candidate& candidate) {
    std::vector<UntriedTopic> topics = relearned_topics(candidate);
    topics.erase(std::remove_if(topics.begin(), topics.end(),
                                [&](const UntriedTopic& one) {
                                    return was_tried_after(candidate, one.subject, one.topic,
                                                           one.relearned_on) ||
                                           failed_after(candidate, one.subject, one.topic, one.relearned_on);
                                }),
                 topics.end());
    return topics;
}

std::vector<TopicToCheck> topics_to_check(const Candidate& candidate,
                                          const std::vector<TopicToRelearn>& to_relearn, Day today) {
    std::vector<TopicToCheck> to_check;
    for (const auto& [subject, topic, day] : relearned_topics(candidate)) {
        if (was_checked(candidate, subject, {topic}, day) || is_among(to_relearn, subject, topic) ||
            steering_of(candidate, WorkPurpose::relearn, subject, topic).let_go)
            continue;
        const LessonPlace* lesson = find_lesson_attended(candidate, subject, topic);
        if (lesson && lesson->day >= day)
            continue; // checked after the lesson
        WindowByExams by = window_by_exams(candidate.exams, subject, day, today);
        if (by.window)
            to_check.push_back({subject, topic, day, by, by.window->closes < today, {topic}});
    }
    for (const LessonPlace* lesson : lessons_attended(candidate)) {
        const std::string taught = topics_text(lesson->topics);
        const auto relearned = relearned_in_full(candidate, lesson->subject, taught);
        if (was_checked(candidate, *lesson) || (relearned && *relearned > lesson->day) ||
            steering_of(candidate, WorkPurpose::relearn, lesson->subject, taught).let_go)
            continue;
        WindowByExams by = window_by_exams(candidate.exams, lesson->subject, lesson->day, today);
        if (by.window)
            to_check.push_back({lesson->subject, taught, lesson->day, by, by.window->closes < today,
                                lesson->topics, lesson->lesson});
    }
    std::stable_sort(to_check.begin(), to_check.end(), [](const TopicToCheck& a, const TopicToCheck& b) {
        return a.relearned_on < b.relearned_on;
    });
    return to_check;
}

std::vector<TopicOnDesk> topics_on_desk(const std::vector<Script>& desk) {
    std::vector<TopicOnDesk> topics;
    for (const Script& script : desk)
        for (std::size_t place = 0; place < script.positions.size(); ++place) {
            const std::string& topic = script.paper->part(script.positions[place]).topic;
            if (!script.id.retry && script.is_set(place) && !topic.empty())
                topics.push_back({script.paper->subject(), topic, script.day});
        }
    return topics;
}

bool is_on_desk(const TopicToCheck& check, const std::vector<TopicOnDesk>& on_desk) {
    return std::any_of(on_desk.begin(), on_desk.end(), [&](const TopicOnDesk& one) {
        return one.subject == check.subject && one.day >= check.relearned_on &&
               std::count(check.topics.begin(), check.topics.end(), one.topic) > 0;
    });
}

bool can_be_drawn(const TopicToCheck& check, const std::vector<UnseenQuestion>& unseen) {
    return std::any_of(unseen.begin(), unseen.end(), [&](const UnseenQuestion& question) {
        return question.subject == check.subject &&
               std::count(check.topics.begin(), check.topics.end(), question.topic) > 0 &&
               (!check.lesson.empty() || question.allowance <= TopicToCheck::duration);
    });
}

const UnseenPaper* find_drawn(const TopicToCheck& check, const std::vector<UnseenPaper>& drawn) {
    const auto is_on_check = [&](const std::set<std::string>& topics) {
        return std::any_of(check.topics.begin(), check.topics.end(),
                           [&](const std::string& topic) { return topics.count(topic) > 0; });
    };
    const auto would_do = [&](const UnseenPaper& paper) {
        return paper.subject == check.subject &&
               std::all_of(paper.topics.begin(), paper.topics.end(), is_on_check) &&
               (!check.lesson.empty() || paper.allowance <= TopicToCheck::duration);
    };
    const auto found = std::find_if(drawn.begin(), drawn.end(), would_do);
    return found == drawn.end() ? nullptr : &*found;
}

} // namespace inkturn
