#pragma once

#include "exchange/table/problem_list.hpp"
#include "exchange/table/rows.hpp"
#include "inkturn/paper/topic_list.hpp"

#include <vector>

namespace inkturn {

/// Reads a list of topics: a header with `topic` and optionally `order` and `parent`, in any order, then one
/// row per topic. They come by order, whole numbers from 1, then as they stand. Blanks at the ends of a cell
/// are left out. Problems: a topic without a name or spelled as one before, and a parent that neither the
/// file nor the list on file has. The topics are whole only if there are none.
std::vector<ListedTopic> read_topic_rows(Rows& rows, const TopicList& on_file, ProblemList& problems);

} // namespace inkturn
