#include "exchange/class/class_import.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {

std::string json_of(const ClassImport& import) {
    Json problems = Json::array();
    for (const Problem& problem : import.problems.items) {
        problems.push_back(
            {{"line", problem.line}, {"column", problem.column}, {"message", problem.message}});
        if (!problem.cell.empty())
            problems.back()["cell"] = problem.cell;
    }
    return text_of({{"rows", import.rows},
                    {"sittings_added", import.sittings_added},
                    {"sittings_unchanged", import.sittings_unchanged},
                    {"sittings_replaced", import.sittings_replaced},
                    {"absent", import.absent},
                    {"retries_added", import.retries_added},
                    {"papers_added", import.papers_added},
                    {"class_added", import.class_added},
                    {"members_added", import.members_added},
                    {"problems", std::move(problems)}});
}

} // namespace inkturn
