#include "inkturn/seats/seats.hpp"

#include <algorithm>

namespace inkturn {
namespace {

/// Gives those who must have a seat places one by one; who has one moves on where that makes room (augmenting
/// paths).
class MustPlaces {
  public:
    MustPlaces(const SeatsRequest& request, const std::vector<SeatTerms>& terms)
        : request_(request), terms_(terms), seated_(request.lessons) {}

    bool find_place(std::size_t candidate) {
        tried_.assign(request_.lessons, false);
        return move_in(candidate);
    }

  private:
    bool can_sit(std::size_t candidate, std::size_t lesson) const {
        const std::vector<Day>& dates = terms_[candidate].dates;
        return dates.empty() || request_.dates.empty() ||
               std::find(dates.begin(), dates.end(), request_.dates[lesson]) != dates.end();
    }

    bool move_in(std::size_t candidate) {
        for (std::size_t lesson = 0; lesson < request_.lessons; ++lesson) {
            if (tried_[lesson] || !can_sit(candidate, lesson))
                continue;
            tried_[lesson] = true;
            std::vector<std::size_t>& there = seated_[lesson];
            if (there.size() < request_.places) {
                there.push_back(candidate);
                return true;
            }
            for (std::size_t i = 0; i < request_.places; ++i)
                if (move_in(there[i])) {
                    there[i] = candidate;
                    return true;
                }
        }
        return false;
    }

    const SeatsRequest& request_;
    const std::vector<SeatTerms>& terms_;
    std::vector<std::vector<std::size_t>> seated_; ///< by lesson
    std::vector<bool> tried_;
};

} // namespace

std::vector<std::size_t> musts_without_place(const SeatsRequest& request,
                                             const std::vector<SeatTerms>& terms) {
    MustPlaces places(request, terms);
    std::vector<std::size_t> without;
    for (std::size_t candidate = 0; candidate < terms.size(); ++candidate)
        if (terms[candidate].must && (terms[candidate].never || !places.find_place(candidate)))
            without.push_back(candidate);
    return without;
}

} // namespace inkturn
