#pragma once

#include "days.hpp"
#include "inkturn/retry/candidate.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace inkturn::test {

/// Questions 1, 2 and so on of these marks, without topics and codes.
inline std::vector<Part> parts_of(const std::vector<int>& marks) {
    std::vector<Part> parts;
    for (const int max : marks)
        parts.push_back({std::to_string(parts.size() + 1), Marks(max), "", ""});
    return parts;
}

inline Paper paper_of(const std::vector<int>& marks, std::optional<Seconds> duration = {}) {
    return Paper({"made-up", "", "", duration, RetryBy::question}, parts_of(marks));
}

inline std::shared_ptr<const Paper> paper_of(const std::string& id, const std::vector<int>& marks,
                                             const std::string& subject = "pure") {
    return std::make_shared<const Paper>(PaperHead{id, "", subject, {}, RetryBy::question}, parts_of(marks));
}

/// As many days after the Monday.
inline SittingRecord sat(int id, const std::shared_ptr<const Paper>& paper, int on, const std::string& line) {
    return {SittingId{id}, paper, {day(on), {}, parse_line(*paper, line)}, {}};
}

/// On the day with the id's distance from the Monday.
inline SittingRecord sat(int id, const std::shared_ptr<const Paper>& paper, const std::string& marks) {
    return sat(id, paper, id, marks);
}

} // namespace inkturn::test
