#pragma once

#include "inkturn/statistics/diagnosis.hpp"
#include "view/text/table.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A row a topic, in their order: parts, marks, own share with its interval, the share of own marks that came
/// in overtime, what to do, marks to win back for an hour of work.
Table topics_table(const std::vector<TopicDiagnosis>& topics);

/// Own marks lost by reason, a row a topic that lost some; nothing where none did.
std::optional<Table> lost_by_reason_table(const std::vector<TopicDiagnosis>& topics);

/// The same by mark-scheme code; nothing where no code tells.
std::optional<Table> lost_by_code_table(const std::vector<TopicDiagnosis>& topics);

/// What the advice means that occurs, and what the columns of topics_table() do: lines of at most 80 columns
/// that each end in a line break. Empty without a topic.
std::string topics_key(const std::vector<TopicDiagnosis>& topics);

} // namespace inkturn
