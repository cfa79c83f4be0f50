#pragma once

#include "inkturn/paper/marks.hpp"

#include <cstddef>
#include <vector>

namespace inkturn {

/// The revision classes there is room for.
struct SeatsAsked {
    std::size_t classes;         ///< 1 to 64
    std::size_t places;          ///< in each class; 1 or more
    std::size_t topics_each = 1; ///< the most topics that one class takes; 1 or more
    std::size_t most_each = 1;   ///< the most classes that one candidate sits; 1 or more
};

/// Which topics each revision class takes, and who sits in it.
struct SeatPlan {
    struct Seat {
        std::size_t candidate;
        Marks marks; ///< what is won here and in no earlier class of the plan; above 0
    };
    struct RevisionClass {
        std::vector<std::size_t> topics; ///< ascending; each wins somebody seated here a mark
        std::vector<Seat> seats;         ///< by candidate
    };
    std::vector<RevisionClass> classes; ///< as many as were asked for; those nobody needs are empty, and last
    Marks marks;                        ///< over all seats
    Marks bound;                        ///< no plan wins more; where it equals marks the plan is proven best
};

/// Chooses the topics of each class and its candidates so that the marks that may be won back are most: over
/// the candidates, the marks lost on the topics of all the classes they sit, each topic once. `lost` holds a
/// row a candidate, all of one length, with the marks lost on each topic, none negative; what weighs them,
/// such as tenths of a mark, may stand in their place. Two classes may take
/// the same topics. Among plans with the same topics fewer seats are preferred where that is cheap to see.
/// Same input, same answer: it stops after a fixed amount of work, never after a time, and then the bound is
/// above the marks.
SeatPlan plan_seats(const SeatsAsked& asked, const std::vector<std::vector<Marks>>& lost);

} // namespace inkturn
