#pragma once

#include "inkturn/paper/paper.hpp"

#include <memory>
#include <optional>

namespace inkturn::test {

/// 1 of 4 marks, 2a of 3, 2b of 5, and of B3 (4 + 6 marks), B4 and B5 (10 marks each) any two: 32 marks.
inline Paper paper_with_choice(std::optional<Seconds> duration = {}) {
    const QuestionChoice any_two{"B", 2};
    return Paper({"chosen", "", "pure", duration, RetryBy::question},
                 {{"1", Marks(4), "", ""},
                  {"2a", Marks(3), "", ""},
                  {"2b", Marks(5), "", ""},
                  {"B3a", Marks(4), "", "", {}, any_two},
                  {"B3b", Marks(6), "", "", {}, any_two},
                  {"B4", Marks(10), "", "", {}, any_two},
                  {"B5", Marks(10), "", "", {}, any_two}});
}

} // namespace inkturn::test
