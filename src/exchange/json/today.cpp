#include "exchange/json/today.hpp"

#include "exchange/json/value.hpp"
#include "inkturn/base/number.hpp"

#include <limits>
#include <utility>

namespace inkturn {
namespace {

/// The facts of a day are one item.
Json value_of(const std::vector<PlannedWork>& planned) {
    Json items = Json::array();
    Json facts = Json::array();
    Seconds time_for_facts{0};
    for (const PlannedWork& work : planned) {
        if (work.what == WorkPurpose::recall) {
            facts.push_back(read_whole_number(work.name, std::numeric_limits<int>::max()).value_or(0));
            time_for_facts += work.duration;
            continue;
        }
        Json item{{"kind", name(work.what)}, {"subject", work.subject}};
        if (work.what == WorkPurpose::sit) {
            item["paper"] = null_if_empty(work.name);
            item["number"] = work.name.empty() ? Json(work.number) : Json(nullptr);
        } else {
            item["topic"] = work.name;
        }
        if (work.what == WorkPurpose::relearn) {
            item["piece"] = work.number;
            item["pieces"] = TopicToRelearn::pieces;
        }
        item["duration_seconds"] = work.duration.count();
        items.push_back(std::move(item));
    }
    if (!facts.empty())
        items.push_back({{"kind", name(WorkPurpose::recall)},
                         {"facts", std::move(facts)},
                         {"duration_seconds", time_for_facts.count()}});
    return items;
}

} // namespace

std::string json_of(const TodaysWork& work) {
    Json next = nullptr;
    if (work.next)
        next = {{"date", iso(work.next->day)}, {"count", work.next->count}};
    Json json{{"date", iso(work.day)},
              {"available_seconds", work.available.count()},
              {"planned_seconds", work.planned.count()},
              {"done_seconds", work.done.count()},
              {"retries", value_of(work.retries)},
              {"other_work", value_of(work.other_work)},
              {"next", std::move(next)},
              {"late_after", work.late_after},
              {"facts_due", work.facts_due}};
    for (const LessonPlace& lesson : work.lessons) // no key if there is none
        json["lessons"].push_back(value_of(lesson));
    return text_of(json);
}

} // namespace inkturn
