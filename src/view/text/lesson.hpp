#pragma once

#include "inkturn/lesson/lesson.hpp"

#include <optional>
#include <string>

namespace inkturn {

/// `16:00`.
std::string clock_text(Seconds since_midnight);

/// ` at 16:00, 1:00:00`, or without a start `, 1:00:00`.
std::string time_text(std::optional<Seconds> start, Seconds duration);
std::string time_text(const LessonPlace& lesson);

/// `series, vectors, Sat 5 Dec 2026 at 16:00, 1:00:00`, visible().
std::string what_and_when(const Lesson& lesson);

} // namespace inkturn
