#include "exchange/document/lessons.hpp"

#include "exchange/document/strict_json.hpp"
#include "exchange/json/value.hpp"
#include "inkturn/base/time.hpp"
#include "inkturn/store/lessons.hpp"

#include <algorithm>
#include <set>
#include <tuple>

namespace inkturn {
namespace {

constexpr int seconds_of_day = 86400;

auto facts_of(const Lesson& lesson) {
    return std::tie(lesson.day, lesson.start, lesson.duration, lesson.subject, lesson.topics, lesson.places,
                    lesson.order);
}

bool same(const PlaceAsked& a, const PlaceAsked& b) {
    return std::tie(a.candidate, a.at, a.topics, a.remark, a.state) ==
           std::tie(b.candidate, b.at, b.topics, b.remark, b.state);
}

Json value_of(const PlaceAsked& asked) {
    return {{"candidate", asked.candidate},
            {"asked_at", iso(asked.at)},
            {"topics", asked.topics},
            {"remark", null_if_empty(asked.remark)},
            {"state", name(asked.state)}};
}

Json value_of(const Lesson& lesson) {
    Json asked = Json::array();
    for (const PlaceAsked& one : lesson.asked)
        asked.push_back(value_of(one));
    return {{"lesson", lesson.id},
            {"date", iso(lesson.day)},
            {"start_seconds", lesson.start ? Json(lesson.start->count()) : Json(nullptr)},
            {"duration_seconds", lesson.duration.count()},
            {"subject", null_if_empty(lesson.subject)},
            {"topics", lesson.topics},
            {"places", lesson.places},
            {"order", name(lesson.order)},
            {"asked", std::move(asked)}};
}

std::string text_or_empty(const JsonValue& value) {
    return value.is_null() ? std::string() : value.text();
}

std::vector<std::string> read_topics(const JsonValue& value) {
    std::vector<std::string> topics;
    value.each_element([&](const JsonValue& topic) { topics.push_back(topic.text()); });
    std::sort(topics.begin(), topics.end());
    return topics;
}

PlaceAsked read_asked(const JsonValue& value, const Lesson& lesson) {
    value.check_keys({"candidate", "asked_at", "topics", "remark", "state"});
    const JsonValue at = value.at("asked_at");
    const auto moment = read_iso_moment(at.text());
    if (!moment)
        at.refuse("'" + at.text() + "' is not a moment: write it as 2026-11-25T09:00:30Z");
    const JsonValue state = value.at("state");
    const auto named = place_state_named(state.text());
    if (!named)
        state.refuse("write asked, offered, confirmed, declined or attended");
    PlaceAsked asked{value.at("candidate").text(), *moment, read_topics(value.at("topics")),
                     text_or_empty(value.at("remark")), *named};
    value.at("candidate").checked([&] { check_candidate_code(asked.candidate); });
    value.checked([&] { check_asked(lesson, asked); });
    return asked;
}

Lesson read_lesson(const JsonValue& value, Day today) {
    value.check_keys({"lesson", "date", "start_seconds", "duration_seconds", "subject", "topics", "places",
                      "order", "asked"});
    const JsonValue start = value.at("start_seconds");
    const JsonValue order = value.at("order");
    const auto named = place_order_named(order.text());
    if (!named)
        order.refuse("write asked or marks");
    Lesson lesson{
        value.at("lesson").text(),
        read_day(value.at("date")),
        start.is_null() ? std::nullopt : std::optional(Seconds(start.whole_number(0, seconds_of_day - 1))),
        Seconds(value.at("duration_seconds").whole_number(60, seconds_of_day)),
        text_or_empty(value.at("subject")),
        read_topics(value.at("topics")),
        static_cast<std::size_t>(value.at("places").whole_number(1, static_cast<int>(Lesson::max_places))),
        *named};
    value.checked([&] { check_lesson(lesson); });
    std::set<std::string> codes;
    value.at("asked").each_element([&](const JsonValue& element) {
        PlaceAsked asked = read_asked(element, lesson);
        if (!codes.insert(asked.candidate).second)
            element.refuse("candidate " + asked.candidate + " appears twice");
        if (asked.state == PlaceState::attended && lesson.day > today)
            element.refuse("nobody has attended a lesson that is after today");
        lesson.asked.push_back(std::move(asked));
    });
    std::stable_sort(lesson.asked.begin(), lesson.asked.end(),
                     [](const PlaceAsked& a, const PlaceAsked& b) { return a.at < b.at; });
    return lesson;
}

/// Merges one lesson into the one on file.
class LessonMerge {
  public:
    LessonMerge(const Lesson& here, const MergeOptions& options, Merge& merge)
        : merged_(here), options_(options), merge_(merge) {}

    void take_facts(const Lesson& in_file) {
        if (facts_of(merged_) == facts_of(in_file))
            return;
        if (!options_.replace) {
            refuse("its day, time, topics or places differ from those in the file");
            return;
        }
        Lesson replaced = in_file;
        replaced.asked = std::move(merged_.asked);
        for (PlaceAsked& asked : replaced.asked) // on topics that it still has
            asked.topics.erase(std::remove_if(asked.topics.begin(), asked.topics.end(),
                                              [&](const std::string& topic) {
                                                  return !std::binary_search(replaced.topics.begin(),
                                                                             replaced.topics.end(), topic);
                                              }),
                               asked.topics.end());
        merged_ = std::move(replaced);
        replaced_ = true;
    }

    void take_asked(const PlaceAsked& in_file) {
        for (PlaceAsked& here : merged_.asked) {
            if (here.candidate != in_file.candidate)
                continue;
            if (same(here, in_file))
                return;
            if (options_.replace) {
                here = in_file;
                replaced_ = true;
            } else {
                refuse("what candidate " + in_file.candidate +
                       " asked for, or came of it, differs from the file");
            }
            return;
        }
        merged_.asked.push_back(in_file);
        completed_ = true;
    }

    void put_into(LessonsOnFile& lessons) {
        if (!merge_.conflicts.empty())
            return;
        if (!replaced_ && !completed_) {
            ++merge_.lessons_unchanged;
            return;
        }
        std::stable_sort(merged_.asked.begin(), merged_.asked.end(),
                         [](const PlaceAsked& a, const PlaceAsked& b) { return a.at < b.at; });
        lessons.change(merged_);
        ++(replaced_ ? merge_.lessons_replaced : merge_.lessons_completed);
    }

  private:
    void refuse(const std::string& why) {
        merge_.refuse("lesson " + merged_.id + ": " + why + "; --replace takes the file's");
    }

    Lesson merged_;
    const MergeOptions& options_;
    Merge& merge_;
    bool replaced_ = false;
    bool completed_ = false;
};

/// The document's only candidate by the code that is wanted here.
Lesson renamed(Lesson lesson, const Document& document, const MergeOptions& options) {
    if (options.as)
        for (PlaceAsked& asked : lesson.asked)
            if (asked.candidate == document.candidates.front().candidate.code)
                asked.candidate = *options.as;
    return lesson;
}

} // namespace

std::vector<Lesson> exported_lessons(const Store& store, const std::optional<std::string>& candidate) {
    std::vector<Lesson> lessons = LessonsOnFile::all(store);
    if (candidate) {
        for (Lesson& lesson : lessons)
            lesson.asked.erase(
                std::remove_if(lesson.asked.begin(), lesson.asked.end(),
                               [&](const PlaceAsked& asked) { return asked.candidate != *candidate; }),
                lesson.asked.end());
        lessons.erase(std::remove_if(lessons.begin(), lessons.end(),
                                     [](const Lesson& lesson) { return lesson.asked.empty(); }),
                      lessons.end());
    }
    std::sort(lessons.begin(), lessons.end(), [](const Lesson& a, const Lesson& b) { return a.id < b.id; });
    return lessons;
}

void add_lessons(const std::vector<Lesson>& lessons, Json& document) {
    for (const Lesson& lesson : lessons)
        document["lessons"].push_back(value_of(lesson));
}

std::vector<Lesson> read_lessons(const JsonValue& value, Day today) {
    std::vector<Lesson> lessons;
    std::set<std::string> ids;
    value.each_element([&](const JsonValue& element) {
        lessons.push_back(read_lesson(element, today));
        if (!ids.insert(lessons.back().id).second)
            element.refuse("lesson " + lessons.back().id + " appears twice");
    });
    std::sort(lessons.begin(), lessons.end(), [](const Lesson& a, const Lesson& b) { return a.id < b.id; });
    return lessons;
}

void take_lessons(Store::Change& change, const Document& document, const MergeOptions& options,
                  Merge& merge) {
    LessonsOnFile on_file(change);
    for (const Lesson& of_document : document.lessons) {
        const Lesson in_file = renamed(of_document, document, options);
        const auto here = LessonsOnFile::find(change.store(), in_file.id);
        if (!here) {
            on_file.add(in_file);
            ++merge.lessons_added;
            continue;
        }
        LessonMerge lesson(*here, options, merge);
        lesson.take_facts(in_file);
        for (const PlaceAsked& asked : in_file.asked)
            lesson.take_asked(asked);
        lesson.put_into(on_file);
    }
}

} // namespace inkturn
