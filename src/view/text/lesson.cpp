#include "view/text/lesson.hpp"

#include "inkturn/base/time.hpp"
#include "view/text/text.hpp"

namespace inkturn {

std::string clock_text(Seconds since_midnight) {
    const std::string text = time_of_day_text(since_midnight);
    return text.substr(text.size() - 3) == ":00" ? text.substr(0, text.size() - 3) : text;
}

std::string time_text(std::optional<Seconds> start, Seconds duration) {
    return (start ? " at " + clock_text(*start) : "") + ", " + length_text(duration);
}

std::string time_text(const LessonPlace& lesson) {
    return time_text(lesson.start, lesson.duration);
}

std::string what_and_when(const Lesson& lesson) {
    return visible(topics_text(lesson.topics)) + ", " + day_text(lesson.day) +
           time_text(lesson.start, lesson.duration);
}

} // namespace inkturn
