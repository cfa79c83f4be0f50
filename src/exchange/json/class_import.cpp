#include "exchange/class/class_import.hpp"

#include "exchange/json/value.hpp"

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

Json value_of(const ProblemList& problems) {
    Json list = Json::array();
    for (const Problem& problem : problems.items) {
        list.push_back({{"line", problem.line}, {"column", problem.column}, {"message", problem.message}});
        if (!problem.cell.empty())
            list.back()["cell"] = problem.cell;
    }
    return list;
}

Json value_of(const FileDoubts& doubts) {
    Json list = Json::array();
    for (const FileDoubt& doubt : doubts.open())
        list.push_back(json_of_doubt(doubt));
    return list;
}

std::string json_of(const ClassImport& import) {
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
                    {"doubts", value_of(import.doubts)},
                    {"problems", value_of(import.problems)}});
}

} // namespace inkturn
