#include "exchange/json/sitting.hpp"

#include "exchange/json/value.hpp"
#include "inkturn/clock/allowance.hpp"
#include "inkturn/clock/clock.hpp"
#include "inkturn/retry/turn_outcome.hpp"

#include <algorithm>

namespace inkturn {
namespace {

std::int64_t number_of(SittingId id) {
    return static_cast<std::int64_t>(id);
}

Json sitting_totals(const Totals& sum) {
    return {{"max", sum.max.count()},
            {"in_time", sum.in_time.count()},
            {"overtime", sum.overtime.count()},
            {"unaided", sum.unaided().count()},
            {"corrected", sum.corrected.count()},
            {"unearned", sum.unearned().count()}};
}

/// By question, then turn.
Json reattempts_of(const SittingRecord& record) {
    Json list = Json::array();
    for (const Question& question : record.paper->questions())
        for (const QuestionAttempt& attempt : attempts_at(record, question)) {
            if (attempt.outcome.turn == 0)
                continue;
            Json turn = value_of(*record.paper, question, attempt);
            turn["id"] = to_text(RetryId{record.id, question.label, attempt.outcome.turn});
            turn["question"] = question.label;
            list.push_back(std::move(turn));
        }
    return list;
}

} // namespace

Json value_of(const LostByReason& lost) {
    Json json;
    for (const Reason reason : all_reasons)
        json[std::string(name(reason))] = lost.of(reason).count();
    json["unstated"] = lost.unstated.count();
    if (lost.left_open > Marks(0))
        json["left_open"] = lost.left_open.count();
    return json;
}

std::string json_of(const SittingRecord& record, const Candidate& candidate,
                    const std::vector<Retry>& retries) {
    const Paper& paper = *record.paper;
    Json parts = Json::array();
    for (std::size_t i = 0; i < paper.parts().size(); ++i) {
        parts.push_back(value_of(paper.parts()[i], record.sitting.parts[i]));
        add_note(record.sitting.notes, paper.parts()[i], parts.back());
    }
    Json of_sitting = Json::array();
    for (const Retry& retry : retries)
        if (retry.id.sitting == record.id)
            of_sitting.push_back(value_of(retry));
    const auto clock = clock_of(paper, record.sitting);
    Json json{{"sitting", number_of(record.id)},
              {"candidate", candidate.code},
              {"paper", paper.id()},
              {"date", iso(record.sitting.day)},
              {"marks", sitting_totals(totals(paper, record.sitting.parts))},
              {"extra_time", record.sitting.extra_time.percent()},
              {"allowance_seconds", allowance(paper, record.sitting).count()},
              {"lost", value_of(lost_by_reason(paper, record.sitting.parts))},
              {"parts", std::move(parts)},
              {"clock", clock ? value_of(*clock) : Json(nullptr)},
              {"retries", std::move(of_sitting)},
              {"reattempts", reattempts_of(record)}};
    for (const Question& question : paper.questions()) { // no key if none was
        const auto let_go = steering_of(candidate, record.id, question.label).let_go;
        const auto open = turn_to_follow(record, question);
        if (let_go && open)
            json["dropped"].push_back({{"id", to_text(RetryId{record.id, question.label, open->turn})},
                                       {"date", iso(let_go->day)},
                                       {"reason", let_go->reason}});
    }
    return text_of(json);
}

std::string json_of(const Candidate& candidate, const std::vector<Retry>& retries,
                    const std::vector<Script>& scripts) {
    Json sittings = Json::array();
    for (const SittingRecord& record : candidate.sittings) {
        const auto open = std::count_if(retries.begin(), retries.end(),
                                        [&](const Retry& retry) { return retry.id.sitting == record.id; });
        sittings.push_back({{"sitting", number_of(record.id)},
                            {"candidate", candidate.code},
                            {"paper", record.paper->id()},
                            {"date", iso(record.sitting.day)},
                            {"marks", sitting_totals(totals(*record.paper, record.sitting.parts))},
                            {"open_retries", open}});
    }
    Json at_desk = Json::array();
    for (const Script& script : scripts)
        at_desk.push_back(value_of(script));
    return text_of({{"sittings", std::move(sittings)}, {"scripts", std::move(at_desk)}});
}

} // namespace inkturn
