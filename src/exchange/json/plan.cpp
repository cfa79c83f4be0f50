#include "exchange/json/json.hpp"

#include "inkturn/base/number.hpp"

#include <array>
#include <limits>

namespace inkturn {
namespace {

constexpr std::array<const char*, 3> shares_of{"candidate", "class", "guess"};

Json day_or_null(const std::optional<Day>& day) {
    return day ? Json(iso(*day)) : Json(nullptr);
}

/// A paper that is not on file has no id.
Json paper_or_null(const std::string& id) {
    return id.empty() ? Json(nullptr) : Json(id);
}

Json numbers(const std::vector<FactId>& facts) {
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
        item["paper"] = paper_or_null(paper.paper ? paper.paper->id() : std::string());
        item["number"] = paper.paper ? Json(nullptr) : Json(paper.number);
        item["subject"] = paper.subject;
        item["allowance_seconds"] = paper.allowance.count();
    }
    void operator()(const TopicToRelearn& topic) const {
        item["subject"] = topic.subject;
        item["topic"] = topic.topic;
        item["piece"] = topic.piece;
        item["pieces"] = TopicToRelearn::pieces;
    }
    void operator()(const RecallGroup& group) const {
        item["subject"] = group.subject;
        item["facts"] = numbers(group.facts);
    }
};

Json json_of(const WorkItem& item) {
    Json json{{"kind", name(item.kind())}};
    std::visit(ItemKeys{json}, item.work);
    if (const auto* paper = std::get_if<PaperToSit>(&item.work))
        json["too_late"] = paper->last_useful && item.day && *item.day > *paper->last_useful;
    json["asked_seconds"] = item.asked.count();
    return json;
}

Json json_of(const PlannedDay& day) {
    Json items = Json::array();
    for (const WorkItem& item : day.items)
        items.push_back(json_of(item));
    return {{"date", iso(day.day)},
            {"available_seconds", day.available.count()},
            {"asked_seconds", day.asked.count()},
            {"kept_seconds", day.kept.count()},
            {"retries", json_of(day.retries())},
            {"items", std::move(items)}};
}

Json json_of(const SubjectAhead& subject) {
    return {{"subject", subject.subject},
            {"exam", day_or_null(subject.exam)},
            {"examined", subject.examined},
            {"last_useful_sitting", day_or_null(subject.last_useful)},
            {"papers", subject.papers},
            {"papers_too_late", subject.too_late},
            {"papers_without_day", subject.without_day.size()}};
}

Json json_of(const Remedy& remedy) {
    Json json{{"kind", name(remedy.kind)}, {"amount", remedy.amount}};
    if (remedy.kind == Remedy::Kind::longer_day)
        json["weekday"] = weekday_name(remedy.weekday);
    if (remedy.kind == Remedy::Kind::fewer_papers) {
        json["subject"] = remedy.subject;
        json["papers"] = remedy.left;
    }
    if (remedy.kind == Remedy::Kind::days_off) {
        json["dates"] = Json::array();
        for (const Day day : remedy.days)
            json["dates"].push_back(iso(day));
        json["available_seconds"] = remedy.available.count();
    }
    return json;
}

Json json_of(const PlanChange& change) {
    return {{"kind", name(change.kind)},
            {"what", change.what},
            {"from", iso(change.from)},
            {"to", day_or_null(change.to)}};
}

template <typename Value>
Json list_of(const std::vector<Value>& values) {
    Json list = Json::array();
    for (const Value& value : values)
        list.push_back(json_of(value));
    return list;
}

/// Of the first exam ahead.
std::optional<Day> last_useful_sitting(const Timetable& timetable) {
    for (const SubjectAhead& subject : timetable.subjects)
        if (subject.last_useful)
            return subject.last_useful;
    return std::nullopt;
}

/// The facts of a day are one item.
Json json_of(const std::vector<PlannedWork>& planned) {
    Json items = Json::array();
    Json facts = Json::array();
    Seconds time_for_facts{0};
    for (const PlannedWork& work : planned) {
        if (work.what == PlannedFor::recall) {
            facts.push_back(read_whole_number(work.name, std::numeric_limits<int>::max()).value_or(0));
            time_for_facts += work.asked;
            continue;
        }
        Json item{{"kind", name(work.what)}, {"subject", work.subject}};
        if (work.what == PlannedFor::sit) {
            item["paper"] = paper_or_null(work.name);
            item["number"] = work.name.empty() ? Json(work.number) : Json(nullptr);
        } else {
            item["topic"] = work.name;
            item["piece"] = work.number;
            item["pieces"] = TopicToRelearn::pieces;
        }
        item["asked_seconds"] = work.asked.count();
        items.push_back(std::move(item));
    }
    if (!facts.empty())
        items.push_back({{"kind", name(PlannedFor::recall)},
                         {"facts", std::move(facts)},
                         {"asked_seconds", time_for_facts.count()}});
    return items;
}

} // namespace

Json json_of(const TodaysWork& work) {
    Json next = nullptr;
    if (work.next)
        next = {{"date", iso(work.next->day)}, {"count", work.next->count}};
    return {{"date", iso(work.day)},
            {"available_seconds", work.available.count()},
            {"asked_seconds", work.asked.count()},
            {"retries", json_of(work.retries)},
            {"planned", json_of(work.planned)},
            {"next", std::move(next)},
            {"facts_due", work.facts_due}};
}

Json json_of(const Plan& plan, const Timetable& timetable, const std::vector<Remedy>& remedies,
             const std::vector<PlanChange>& changes) {
    return {{"from", iso(plan.days.front().day)},
            {"to", iso(plan.days.back().day)},
            {"days", list_of(plan.days)},
            {"over_seconds", plan.over.count()},
            {"fullest_share", plan.fullest_share},
            {"fullest_share_bound", plan.fullest_share_bound},
            {"evenness", thousandths(plan.evenness)},
            {"evenness_bound", thousandths(plan.evenness_bound)},
            {"last_useful_sitting", day_or_null(last_useful_sitting(timetable))},
            {"subjects", list_of(timetable.subjects)},
            {"foreseen_retry_seconds", timetable.foreseen.count()},
            {"missed_share", thousandths(timetable.share.share)},
            {"missed_share_of", shares_of[static_cast<std::size_t>(timetable.share.of)]},
            {"short_seconds", timetable.short_by.count()},
            {"advice", list_of(remedies)},
            {"changes", list_of(changes)}};
}

} // namespace inkturn
