#pragma once

#include "inkturn/grades/class_award.hpp"
#include "inkturn/grades/class_standing.hpp"
#include "inkturn/plan/plan.hpp"
#include "inkturn/retry/due_question.hpp"
#include "inkturn/statistics/diagnosis.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A class's retries in a span of days, and how many have no day left.
std::string json_of_class_retries(DaySpan span, const std::vector<CandidateWork>& candidates,
                                  std::size_t without_day, std::size_t not_placed);
/// The questions due for a class of so many candidates in a span of days.
std::string json_of_class_questions(DaySpan span, std::size_t candidates,
                                    const std::vector<DueQuestion>& questions);
/// A class's topics, over the candidates whose marks they are.
std::string json_of_class(const std::optional<std::string>& class_name, std::size_t candidates,
                          const std::vector<TopicDiagnosis>& topics, Gain gain);
/// A class's standing in the subject asked for, over so many candidates, and in its awards.
std::string json_of_class(const std::optional<std::string>& class_name, const std::string& subject,
                          std::size_t candidates, const std::vector<ClassUnder>& under,
                          const std::vector<ClassAward>& awards = {});

} // namespace inkturn
