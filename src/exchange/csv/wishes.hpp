#pragma once

#include "exchange/table/problem_list.hpp"
#include "exchange/table/rows.hpp"
#include "inkturn/lesson/wish.hpp"

#include <iosfwd>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// What a wish may name.
struct WishesFor {
    std::set<std::string> topics;
    std::set<std::string> others{}; ///< candidates on file who can't be seated here
};

/// Reads wishes in one of two forms. With a column `topic` (or `topics`) each row is a wish: `candidate`, and
/// optionally `dates`, `asked` and `remarks`; several topics or dates in a cell are joined by `;`. Without
/// one it is a request form as write_request_form() writes it: a column for each topic and each date, in
/// which anything but `-`, `no` or 0 is a tick; a row without any is no wish. Gives one wish a candidate, in
/// the order in which they first come. Problems: a candidate or a topic that may not be named, a topic that a
/// candidate names twice, dates and times that are none. The wishes are whole only if there are none.
std::vector<Wish> read_wishes_rows(Rows& rows, const WishesFor& named, ProblemList& problems);

/// The blank form as CSV: a row for each candidate, boxes for the topics, for any topic and for the dates.
void write_request_form(std::ostream& out, const std::vector<std::string>& candidates,
                        const std::vector<std::string>& topics, const std::vector<Day>& dates);

} // namespace inkturn
