#include "exchange/json/facts.hpp"

#include "exchange/json/value.hpp"

#include <map>
#include <utility>

namespace inkturn {
namespace {

Json possible_days(const DueFact* due) {
    if (!due || !due->possible_days)
        return nullptr;
    return {{"first", iso(due->possible_days->first)}, {"last", iso(due->possible_days->last)}};
}

Json window_of(const DueFact* due) {
    if (!due || !due->window)
        return nullptr;
    return {{"opens", iso(due->window->opens)}, {"closes", iso(due->window->closes)}};
}

Json value_of_fact(const Fact& fact, const LastRecall* last, const DueFact* due) {
    return {{"fact", static_cast<std::int64_t>(fact.id)},
            {"prompt", fact.prompt},
            {"answer", fact.answer},
            {"topic", fact.topic},
            {"subject", fact.subject},
            {"asked", last ? Json(iso(last->day)) : Json(nullptr)},
            {"missed", last ? Json(last->missed) : Json(nullptr)},
            {"window", window_of(due)},
            {"left", possible_days(due)},
            {"late", due && due->late}};
}

} // namespace

std::string json_of_facts(const std::string& candidate, const std::vector<Fact>& facts,
                          const std::vector<Sheet>& of_candidate, const std::vector<DueFact>& due) {
    const std::map<FactId, LastRecall> last = last_recalls(of_candidate);
    std::map<FactId, const DueFact*> due_by_fact;
    for (const DueFact& one : due)
        due_by_fact[one.fact] = &one;
    Json list = Json::array();
    for (const Fact& fact : facts) {
        const auto recall = last.find(fact.id);
        const auto comes_back = due_by_fact.find(fact.id);
        list.push_back(value_of_fact(fact, recall == last.end() ? nullptr : &recall->second,
                                     comes_back == due_by_fact.end() ? nullptr : comes_back->second));
    }
    Json open = Json::array();
    for (const Sheet& sheet : of_candidate)
        if (!sheet.log)
            open.push_back({{"sheet", static_cast<std::int64_t>(sheet.id)},
                            {"date", iso(sheet.day)},
                            {"rows", sheet.rows.size()}});
    return text_of({{"candidate", candidate}, {"facts", std::move(list)}, {"not_logged", std::move(open)}});
}

std::string json_of(const CandidateSheet& of, bool filled) {
    const Sheet& sheet = of.sheet;
    Json log = nullptr;
    if (sheet.log)
        log = {{"date", iso(sheet.log->day)}, {"missed", sheet.log->missed_rows}};
    Json rows = Json::array();
    for (std::size_t i = 0; i < sheet.rows.size(); ++i) {
        const Fact& fact = of.facts[i];
        rows.push_back({{"row", sheet.rows[i].number},
                        {"fact", static_cast<std::int64_t>(fact.id)},
                        {"prompt", fact.prompt},
                        {"answer", filled ? Json(fact.answer) : Json(nullptr)},
                        {"topic", fact.topic},
                        {"subject", fact.subject}});
    }
    return text_of({{"sheet", rows.empty() ? Json(nullptr) : Json(static_cast<std::int64_t>(sheet.id))},
                    {"candidate", of.candidate},
                    {"date", iso(sheet.day)},
                    {"asked_seconds", sheet.duration().count()},
                    {"log", std::move(log)},
                    {"rows", std::move(rows)}});
}

} // namespace inkturn
