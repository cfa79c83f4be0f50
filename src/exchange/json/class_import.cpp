#include "exchange/class/class_import.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {
namespace {

/// `name` is the answer that goes on with what was read, `or` the other one if there is one.
Json json_of_doubt(const FileDoubt& doubt) {
    const DoubtAnswers& answers = answers_to(doubt.kind);
    Json json{{"name", answers.as_read.name},
              {"or", nullptr},
              {"line", doubt.at.line},
              {"column", doubt.at.column},
              {"message", doubt.at.message}};
    if (answers.otherwise.name != nullptr)
        json["or"] = answers.otherwise.name;
    if (!doubt.at.cell.empty())
        json["cell"] = doubt.at.cell;
    return json;
}

} // namespace

std::string json_of(const ClassImport& import) {
    Json problems = Json::array();
    for (const Problem& problem : import.problems.items) {
        problems.push_back(
            {{"line", problem.line}, {"column", problem.column}, {"message", problem.message}});
        if (!problem.cell.empty())
            problems.back()["cell"] = problem.cell;
    }
    Json doubts = Json::array();
    for (const FileDoubt& doubt : import.doubts.open())
        doubts.push_back(json_of_doubt(doubt));
    return text_of({{"rows", import.rows},
                    {"sittings_added", import.sittings_added},
                    {"sittings_unchanged", import.sittings_unchanged},
                    {"sittings_replaced", import.sittings_replaced},
                    {"absent", import.absent},
                    {"absent_candidates", import.understood.absent},
                    {"candidates_new", import.understood.candidates_new},
                    {"candidates_known", import.understood.candidates_known},
                    {"columns_ignored", import.understood.columns_ignored},
                    {"rows_left_out", import.understood.rows_left_out},
                    {"retries_added", import.retries_added},
                    {"papers_added", import.papers_added},
                    {"class_added", import.class_added},
                    {"members_added", import.members_added},
                    {"extra_times_set", import.extra_times_set},
                    {"doubts", std::move(doubts)},
                    {"problems", std::move(problems)}});
}

} // namespace inkturn
