#include "exchange/json/retry.hpp"

#include "exchange/json/value.hpp"

#include "inkturn/retry/turn_outcome.hpp"

#include <array>

namespace inkturn {
namespace {

Json value_or_null(const std::optional<Retry>& retry) {
    return retry ? value_of(*retry) : Json(nullptr);
}

} // namespace

Json value_of(const Retry& retry) {
    Json parts = Json::array();
    for (const std::size_t part : retry.paper_question().parts)
        parts.push_back(retry.paper->parts()[part].label);
    Json window = nullptr;
    if (retry.window)
        window = {{"opens", iso(retry.window->opens)}, {"closes", iso(retry.window->closes)}};
    Json json{{"id", to_text(retry.id)},
              {"candidate", retry.candidate},
              {"paper", retry.paper->id()},
              {"question", retry.id.question},
              {"parts", std::move(parts)},
              {"marks", retry.paper_question().marks.count()},
              {"missed", retry.missed_marks.count()},
              {"allowance_seconds", retry.allowance.count()},
              {"dropped_on", iso(retry.dropped_on)},
              {"window", std::move(window)},
              {"day", day_or_null(retry.day)},
              {"turn", retry.id.turn},
              {"squeezed", retry.window && retry.window->squeezed},
              {"late", retry.late}};
    if (retry.wanted)
        json["wanted"] = iso(*retry.wanted);
    return json;
}

Json value_of(const std::vector<Retry>& retries) {
    Json list = Json::array();
    for (const Retry& retry : retries)
        list.push_back(value_of(retry));
    return list;
}

std::string json_of_done(const RetryId& id, RetryDone done, const std::optional<Retry>& next) {
    constexpr std::array<const char*, 3> names{"on", "drop", "again"};
    const auto which = static_cast<std::size_t>(done);
    return text_of({{"id", to_text(id)},
                    {"done", names[which % names.size()]},
                    {"undone", which >= names.size()},
                    {"next", value_or_null(next)}});
}

std::string json_of_outcome(const SittingRecord& record, const RetryId& id,
                            const std::optional<Retry>& next) {
    const Question& question = question_of(*record.paper, get_reattempt(record, id));
    const bool got = is_got(record, id);
    Json lost = Json::array();
    for (const LostPart& one : lost_in_turn(record, id))
        lost.push_back({{"part", record.paper->part(question.parts[one.place]).label},
                        {"marks", one.marks.count()},
                        {"reason", one.reason ? Json(std::string(name(*one.reason))) : Json(nullptr)},
                        {"new", one.is_new},
                        {"joins_next", one.joins_next}});
    return text_of({{"id", to_text(id)},
                    {"got", got},
                    {"secured", got},
                    {"lost_parts", std::move(lost)},
                    {"notes_before", Json(notes_before(record, question, id.turn))},
                    {"next", value_or_null(next)}});
}

std::string json_of_undone(const RetryId& id, const std::optional<Retry>& open) {
    return text_of({{"id", to_text(id)}, {"got", false}, {"secured", false}, {"next", value_or_null(open)}});
}

} // namespace inkturn
