#pragma once

#include "inkturn/statistics/diagnosis.hpp"
#include "view/text/table.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// One row per topic, in their order: parts, marks, unaided share with its interval, the share of unaided
/// marks that came in overtime, what to do, marks to win back for an hour of work.
Table topics_table(const std::vector<TopicDiagnosis>& topics);

/// Marks lost by reason, one row per topic that lost some; nothing if none did.
std::optional<Table> lost_by_reason_table(const std::vector<TopicDiagnosis>& topics);

/// The same by mark-scheme code; nothing if no codes are known.
std::optional<Table> lost_by_code_table(const std::vector<TopicDiagnosis>& topics);

/// What the advice given means, and the columns of topics_table(): lines of at most 80 columns that each end
/// in a line break. Empty without topics.
std::string topics_key(const std::vector<TopicDiagnosis>& topics);

} // namespace inkturn
