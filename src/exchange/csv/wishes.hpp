#pragma once

#include "exchange/csv/csv.hpp"
#include "exchange/csv/problem_list.hpp"
#include "inkturn/seats/lost_marks.hpp"

#include <iosfwd>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// What a wish may name.
struct WishesFor {
    std::set<std::string> candidates;
    std::set<std::string> topics;
};

/// Reads wishes: a header with `candidate` and `topic`, then a row a wish. Problems: a candidate or a topic
/// that is not among those that may be named, a row that is there twice. The wishes are whole only where
/// there is none.
std::vector<Wish> read_wishes_csv(std::istream& in, const CsvOptions& options, const WishesFor& named,
                                  ProblemList& problems);

} // namespace inkturn
