#pragma once

#include "inkturn/retry/exam.hpp"

#include <string>
#include <vector>

namespace inkturn {

std::string json_of(const std::vector<ExamOnFile>& exams);

} // namespace inkturn
