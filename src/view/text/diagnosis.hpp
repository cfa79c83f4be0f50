#pragma once

#include "inkturn/statistics/diagnosis.hpp"
#include "view/text/table.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// `1 candidate's marks alone`, `22 candidates' marks`: what an outlook rests on.
std::string marks_of_text(std::size_t candidates);

/// `relearn`, `probably recall`; `try new parts` where it was relearned since; `-` without advice.
std::string advice_text(const TopicDiagnosis& topic);

/// What to do first and why, in a sentence or two that end in a line break. `gain` is what an hour is taken
/// to teach.
std::string topics_opening(const std::vector<TopicDiagnosis>& topics, bool of_class, Gain gain);

/// One row per topic, in their order: marks in time, and again if any were tried again, the share expected
/// with its range, what the topic costs a paper, what to do.
Table topics_table(const std::vector<TopicDiagnosis>& topics);

/// One row per topic with its own marks alone: parts, marks, unaided share with its interval, the share of
/// unaided marks that came in overtime.
Table plain_topics_table(const std::vector<TopicDiagnosis>& topics);

/// Marks lost by reason, one row per topic that lost some; nothing if none did.
std::optional<Table> lost_by_reason_table(const std::vector<TopicDiagnosis>& topics);

/// The same by mark-scheme code; nothing if no codes are known.
std::optional<Table> lost_by_code_table(const std::vector<TopicDiagnosis>& topics);

/// What a reader has to know of single topics: which were relearned after their marks, and of which one part
/// is all that was seen. A sentence each.
std::vector<std::string> topic_notes(const std::vector<TopicDiagnosis>& topics);

/// Those notes, what the advice given means, the columns of topics_table(), and how many candidates' marks it
/// rests on: lines of at most 80 columns that each end in a line break. Empty without topics.
std::string topics_key(const std::vector<TopicDiagnosis>& topics, std::size_t candidates);

} // namespace inkturn
