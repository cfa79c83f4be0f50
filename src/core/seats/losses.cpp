#include "core/seats/losses.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>

namespace inkturn::seats {
namespace {

bool can_come(const SeatTerms& terms, const std::vector<Day>& dates, Index date) {
    return !terms.never &&
           (terms.dates.empty() || dates.empty() ||
            std::find(terms.dates.begin(), terms.dates.end(), dates[date]) != terms.dates.end());
}

Amount sum_of(const std::vector<std::vector<SeatWeight>>& lost) {
    Amount sum = 0;
    for (const std::vector<SeatWeight>& row : lost) {
        if (row.size() != lost.front().size())
            throw Error("every candidate needs a weight for each topic", Error::Kind::misused);
        for (const SeatWeight weight : row)
            sum += weight.count();
    }
    return sum;
}

bool anybody_lost(const Losses& losses, Index topic) {
    for (Index candidate = 0; candidate < losses.candidates; ++candidate)
        for (Index date = 0; date < losses.dates(); ++date)
            if (losses.at(candidate, losses.column(date, topic)) > 0)
                return true;
    return false;
}

} // namespace

std::vector<Day> distinct(std::vector<Day> dates) {
    dates.erase(std::unique(dates.begin(), dates.end()), dates.end());
    return dates;
}

Losses losses_of(const std::vector<std::vector<SeatWeight>>& lost, const std::vector<SeatTerms>& terms,
                 const std::vector<Day>& dates) {
    const auto musts =
        std::count_if(terms.begin(), terms.end(), [](const SeatTerms& one) { return one.must; });
    const Amount sum = sum_of(lost);
    Losses losses{lost.size(),
                  0,
                  {},
                  lost.empty() ? 0 : lost.front().size() + (musts > 0 ? 1 : 0),
                  musts > 0 ? sum + 1 : 0};
    if (sum + musts * losses.must > max_sum)
        throw Error("the weights add up to more than " + std::to_string(max_sum), Error::Kind::misused);
    const Index days = std::max<Index>(dates.size(), 1);
    losses.topics = days * losses.topics_a_date;
    losses.marks.reserve(losses.candidates * losses.topics);
    for (Index candidate = 0; candidate < lost.size(); ++candidate)
        for (Index date = 0; date < days; ++date) {
            const bool comes = terms.empty() || can_come(terms[candidate], dates, date);
            for (const SeatWeight weight : lost[candidate])
                losses.marks.push_back(comes ? weight.count() : 0);
            if (musts > 0)
                losses.marks.push_back(comes && terms[candidate].must ? losses.must : 0);
        }
    return losses;
}

std::vector<Index> topics_to_choose(const Losses& losses) {
    const Index topics = losses.topics_a_date - (losses.must > 0 ? 1 : 0);
    std::vector<Index> lost;
    std::vector<Index> all;
    for (Index topic = 0; topic < topics; ++topic) {
        all.push_back(topic);
        if (anybody_lost(losses, topic))
            lost.push_back(topic);
    }
    return lost.empty() && losses.must > 0 ? all : lost;
}

} // namespace inkturn::seats
