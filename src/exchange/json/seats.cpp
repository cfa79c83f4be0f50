#include "exchange/json/seats.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {
namespace {

double marks_of_hundredths(SeatWeight hundredths) {
    return hundredths.count() / 100.0;
}

} // namespace

std::string json_of(const SeatPlan& plan, const LostMarks& lost, const SeatsBasis& basis) {
    const std::vector<std::vector<SeatLosses>> by_seat = losses_by_seat(plan, lost);
    Json lessons = Json::array();
    for (std::size_t i = 0; i < plan.lessons.size(); ++i) {
        Json topics = Json::array();
        for (const std::size_t topic : plan.lessons[i].topics)
            topics.push_back(lost.topics[topic]);
        Json seats = Json::array();
        for (std::size_t j = 0; j < by_seat[i].size(); ++j)
            seats.push_back({{"candidate", lost.candidates[plan.lessons[i].seats[j].candidate]},
                             {"marks", by_seat[i][j].marks.count()},
                             {"won_back", marks_of_hundredths(by_seat[i][j].won_in_an_hour)}});
        lessons.push_back({{"date", day_or_null(plan.lessons[i].date)},
                           {"topics", std::move(topics)},
                           {"seats", std::move(seats)}});
    }
    const SeatLosses all = total_losses(by_seat);
    Json without = Json::array();
    for (const WithoutSeat& one : without_seat(plan, basis))
        without.push_back({{"candidate", one.candidate}, {"why", name(one.why)}});
    return text_of({{"measure", name(basis.measure)},
                    {"lessons", std::move(lessons)},
                    {"marks", all.marks.count()},
                    {"won_back", marks_of_hundredths(all.won_in_an_hour)},
                    {"bound", basis.measure == SeatMeasure::hour ? Json(marks_of_hundredths(plan.bound))
                                                                 : Json(plan.bound.count())},
                    {"without_seat", std::move(without)}});
}

} // namespace inkturn
