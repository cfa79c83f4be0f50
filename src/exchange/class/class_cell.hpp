#pragma once

#include "exchange/table/problem_list.hpp"
#include "inkturn/base/problem.hpp"

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace inkturn {

/// A cell of marks as it is meant: without blanks, in lower case, any dash as `-`, and `4.0` or `4,0` as 4.
std::string plain_cell(std::string_view written);

/// Whether a plain cell says that the candidate was not there: abs, absent, a, n/a.
bool is_absence_word(std::string_view plain);

/// The maximum that a plain cell such as /4 or [4] states; nothing where it is none.
std::optional<int> stated_maximum(std::string_view plain);

/// Whether a remark, as it is written, says in a word of its own that the candidate was absent.
bool says_absent(std::string_view remark);

/// Whether a remark gives a reason why the candidate may have been absent: ill, on a trip.
bool may_say_absent(std::string_view remark);

/// Whether a plain cell is a number that is not whole, such as 2,5.
bool is_fraction(std::string_view plain);

/// What a cell of marks is told if it holds a fraction.
constexpr const char* whole_marks_only = "marks are whole numbers, half marks are not supported";

enum class CellFault : std::uint8_t {
    marks,
    out_of,
    fraction,
    above,
    empty,
    absence,
    words,
    not_set,
    date,
    late,
    total
};

/// What is wrong with the cells of each column: where many have the same fault, one problem for all of them.
class CellFaults {
  public:
    /// `make_problem` says what is wrong with this cell, `many` what of it holds for all: `like 2,5; marks
    /// are whole numbers`.
    template <typename MakeProblem, typename Many>
    void add(std::size_t column, CellFault kind, MakeProblem make_problem, Many many) {
        Fault& fault = faults_[{column, kind}];
        if (fault.count++ == 0)
            fault.many = many();
        if (fault.count <= max_listed)
            fault.first.push_back(make_problem());
    }

    /// Puts them into the list, which is then in the order of the file. `names` are the columns'.
    void report(const std::vector<std::string>& names, ProblemList& problems) const;

  private:
    static constexpr std::size_t max_listed = 3;

    struct Fault {
        std::vector<Problem> first;
        std::string many;
        std::size_t count = 0;
    };

    std::map<std::pair<std::size_t, CellFault>, Fault> faults_;
};

} // namespace inkturn
