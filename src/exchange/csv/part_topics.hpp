#pragma once

#include "exchange/table/problem_list.hpp"
#include "exchange/table/rows.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/paper/topic_list.hpp"

#include <map>
#include <memory>
#include <string>
#include <vector>

namespace inkturn {

/// A row of the table of parts and their topics.
struct PartTopicRow {
    std::string paper; ///< id
    std::string part;  ///< short label
    Marks marks;
    std::string words;
    std::string topic;   ///< on file or proposed; empty: to be filled in
    std::string says;    ///< `on file`, `proposed` or empty
    std::string perhaps; ///< what is proposed in doubt
};

/// The table as rows of cells, the header first: paper, part, marks, words, topic, says, perhaps.
std::vector<std::vector<std::string>> cells_of(const std::vector<PartTopicRow>& rows);

/// The same as CSV.
std::string csv_of(const std::vector<PartTopicRow>& rows);

/// What a table is held against: papers by id, and lists of topics by subject.
struct PartTopicsContext {
    std::map<std::string, std::shared_ptr<const Paper>> papers;
    std::map<std::string, TopicList> lists;
};

/// The topic that a row gives a part.
struct PartTopic {
    std::string paper;
    std::string part;  ///< short label
    std::string topic; ///< as the list of its subject spells it, if there is one
};

/// Reads such a table: a header with `paper,part,topic` and optionally the other columns, in any order. Rows
/// without a topic are left out. Problems: a paper or part that is not on file, marks that are not the
/// part's, a part with two topics, and a topic that is new to the part and that its subject's list doesn't
/// have, with the one that was probably meant.
std::vector<PartTopic> read_part_topic_rows(Rows& rows, const PartTopicsContext& met, ProblemList& problems);

} // namespace inkturn
