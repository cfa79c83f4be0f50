#include "exchange/json/plan.hpp"

#include "exchange/json/value.hpp"

#include <array>
#include <variant>

namespace inkturn {
namespace {

constexpr std::array<const char*, 3> shares_of{"candidate", "class", "guess"};
constexpr std::array<const char*, 3> says{"fits", "short", "not_found"};

Json numbers_of(const std::vector<FactId>& facts) {
    Json list = Json::array();
    for (const FactId fact : facts)
        list.push_back(static_cast<std::int64_t>(fact));
    return list;
}

struct ItemKeys {
    Json& item;

    void operator()(const Retry& retry) const {
        item["id"] = to_text(retry.id);
        item["paper"] = retry.paper->id();
        item["question"] = retry.id.question;
    }
    void operator()(const PaperToSit& paper) const {
        item["paper"] = null_if_empty(paper.paper ? paper.paper->id() : std::string());
        item["number"] = paper.paper ? Json(nullptr) : Json(paper.number);
        item["subject"] = paper.subject;
        item["allowance_seconds"] = paper.allowance.count();
        if (paper.met > 0)
            item["questions_met"] = paper.met;
    }
    void operator()(const TopicToRelearn& topic) const {
        item["subject"] = topic.subject;
        item["topic"] = topic.topic;
        item["piece"] = topic.piece;
        item["pieces"] = TopicToRelearn::pieces;
    }
    void operator()(const TopicToCheck& check) const {
        item["subject"] = check.subject;
        item["topic"] = check.topic;
        item["relearned_on"] = iso(check.relearned_on);
        item["window"] = {{"opens", iso(check.by.window->opens)}, {"closes", iso(check.by.window->closes)}};
        item["late"] = check.late;
        if (!check.lesson.empty())
            item["lesson"] = check.lesson;
    }
    void operator()(const RecallGroup& group) const {
        item["subject"] = group.subject;
        item["facts"] = numbers_of(group.facts);
    }
};

struct RemedyKeys {
    Json& json;

    void operator()(const MoreTime& more) const { json["amount"] = more.a_day / std::chrono::minutes{1}; }
    void operator()(const LongerDay& longer) const {
        json["amount"] = longer.in_all / std::chrono::minutes{1};
        json["weekday"] = weekday_name(longer.weekday);
    }
    void operator()(const FewerPapers& papers) const {
        json["amount"] = papers.fewer;
        json["subject"] = papers.subject;
        json["remaining"] = papers.remaining;
    }
    void operator()(const UseDaysOff& off) const {
        json["amount"] = off.days.size();
        json["dates"] = Json::array();
        for (const Day day : off.days)
            json["dates"].push_back(iso(day));
        json["available_seconds"] = off.each.count();
    }
    void operator()(const FewerRetries& fewer) const {
        json["amount"] = fewer.retries.size();
        json["retries"] = Json::array();
        for (const RetryId& id : fewer.retries)
            json["retries"].push_back(to_text(id));
        json["missed"] = fewer.missed_marks.count();
    }
};

Json value_of(const WorkItem& item) {
    Json json{{"kind", name(item.kind())}};
    std::visit(ItemKeys{json}, item.work);
    if (const auto* paper = std::get_if<PaperToSit>(&item.work))
        json["too_late"] = paper->last_useful && item.day && *item.day > *paper->last_useful;
    json["duration_seconds"] = item.duration.count();
    return json;
}

Json value_of(const PlannedDay& day) {
    Json items = Json::array();
    for (const WorkItem& item : day.items)
        items.push_back(value_of(item));
    Json json{{"date", iso(day.day)},
              {"available_seconds", day.available.count()},
              {"planned_seconds", day.planned.count()},
              {"reserved_seconds", day.reserved.count()},
              {"done_seconds", day.done.count()},
              {"retries", value_of(day.retries())},
              {"items", std::move(items)}};
    for (const LessonPlace& lesson : day.lessons) // no key if there is none
        json["lessons"].push_back(value_of(lesson));
    return json;
}

Json value_of(const SubjectAhead& subject) {
    return {{"subject", subject.subject},
            {"exam", day_or_null(subject.exam)},
            {"exams_over", subject.examined},
            {"last_useful_sitting", day_or_null(subject.last_useful)},
            {"papers", subject.papers},
            {"papers_wished", subject.wished},
            {"papers_sat", subject.sat},
            {"papers_too_late", subject.too_late},
            {"papers_without_day", subject.without_day.size()}};
}

Json value_of(const Remedy& remedy) {
    Json json{{"kind", name(remedy)}};
    std::visit(RemedyKeys{json}, remedy);
    return json;
}

Json value_of(const PlanChange& change) {
    return {{"kind", name(change.kind)},
            {"what", change.what},
            {"half", change.half},
            {"from", iso(change.from)},
            {"to", day_or_null(change.to)}};
}

Json value_of(const Choice& choice) {
    Json cost = nullptr;
    if (choice.cost)
        cost = {{"work_seconds", choice.cost->work.count()},
                {"without_day_seconds", choice.cost->without_day.count()},
                {"outside_seconds", choice.cost->outside.count()},
                {"fullest_share", thousandths(choice.cost->fullest_share)},
                {"fullest_share_without", thousandths(choice.cost->fullest_share_without)}};
    return {{"choice", name(choice.kind)},
            {"kind", name(choice.work)},
            {"subject", choice.subject},
            {"what", choice.what},
            {"date", iso(choice.day)},
            {"reason", null_if_empty(choice.reason)},
            {"day", day_or_null(choice.placed_on)},
            {"outside_window", choice.outside_window},
            {"cost", std::move(cost)}};
}

Json value_of(const TopicRating& rating) {
    return {{"subject", null_if_empty(rating.subject)},
            {"topic", rating.topic},
            {"rating", name(rating.understanding)}};
}

Json value_of(const UncheckedTopic& unchecked) {
    return {{"subject", unchecked.subject}, {"topic", unchecked.topic}, {"papers", unchecked.papers}};
}

template <typename Value>
Json list_of(const std::vector<Value>& values) {
    Json list = Json::array();
    for (const Value& value : values)
        list.push_back(value_of(value));
    return list;
}

/// Of the first exam ahead.
std::optional<Day> last_useful_sitting(const Timetable& timetable) {
    for (const SubjectAhead& subject : timetable.subjects)
        if (subject.last_useful)
            return subject.last_useful;
    return std::nullopt;
}

} // namespace

std::string json_of(const Plan& plan, const Timetable& timetable, const std::vector<Remedy>& remedies,
                    const std::vector<PlanChange>& changes, const Steered& steered) {
    Json document({{"from", iso(plan.days.front().day)},
                   {"to", iso(plan.days.back().day)},
                   {"days", list_of(plan.days)},
                   {"not_placed", list_of(timetable.not_placed())},
                   {"fullest_share", timetable.fullest_share},
                   {"fullest_share_bound", timetable.fullest_share_bound},
                   {"evenness", thousandths(timetable.evenness)},
                   {"evenness_bound", thousandths(timetable.evenness_bound)},
                   {"last_useful_sitting", day_or_null(last_useful_sitting(timetable))},
                   {"subjects", list_of(timetable.subjects)},
                   {"expected_retry_seconds", (timetable.expected + timetable.expected_again).count()},
                   {"expected_again_seconds", timetable.expected_again.count()},
                   {"again_without_room_seconds", timetable.again_without_room.count()},
                   {"missed_share", thousandths(timetable.share.share)},
                   {"missed_share_of", shares_of[static_cast<std::size_t>(timetable.share.of)]},
                   {"missed_from", steered.rule.missed_from.count()},
                   {"slips", steered.rule.slips},
                   {"says", says[static_cast<std::size_t>(timetable.fit)]},
                   {"short_seconds", timetable.short_by.count()},
                   {"remedies", list_of(remedies)},
                   {"changes", list_of(changes)},
                   {"choices", list_of(steered.choices)}});
    if (!timetable.by_ratings.empty()) {
        document["by_ratings"] = list_of(timetable.by_ratings);
        document["first_things"] = timetable.first_things;
    }
    if (!timetable.unchecked.empty())
        document["unchecked"] = list_of(timetable.unchecked);
    return text_of(document);
}

} // namespace inkturn
