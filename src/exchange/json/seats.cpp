#include "exchange/json/seats.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {
namespace {

double marks_of_hundredths(SeatWeight hundredths) {
    return hundredths.count() / 100.0;
}

} // namespace

std::string json_of(const SeatPlan& plan, const LostMarks& lost, SeatMeasure measure) {
    const std::vector<std::vector<SeatLosses>> by_seat = losses_by_seat(plan, lost);
    Json classes = Json::array();
    for (std::size_t i = 0; i < plan.classes.size(); ++i) {
        Json topics = Json::array();
        for (const std::size_t topic : plan.classes[i].topics)
            topics.push_back(lost.topics[topic]);
        Json seats = Json::array();
        for (std::size_t j = 0; j < by_seat[i].size(); ++j)
            seats.push_back({{"candidate", lost.candidates[plan.classes[i].seats[j].candidate]},
                             {"marks", by_seat[i][j].marks.count()},
                             {"won_back", marks_of_hundredths(by_seat[i][j].won_in_an_hour)}});
        classes.push_back({{"topics", std::move(topics)}, {"seats", std::move(seats)}});
    }
    const SeatLosses all = total_losses(by_seat);
    return text_of({{"measure", name(measure)},
                    {"classes", std::move(classes)},
                    {"marks", all.marks.count()},
                    {"won_back", marks_of_hundredths(all.won_in_an_hour)},
                    {"bound", measure == SeatMeasure::hour ? Json(marks_of_hundredths(plan.bound))
                                                           : Json(plan.bound.count())},
                    {"left_out", left_out_of(plan, lost, measure)}});
}

} // namespace inkturn
