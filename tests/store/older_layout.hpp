#pragma once

namespace inkturn::test {

/// Takes away what the newest layout has over version 12.
constexpr const char* drop_since_12 = "DROP TABLE checked; DROP TABLE topic_wanted; DROP TABLE place_asked; "
                                      "DROP TABLE lesson_topic; DROP TABLE lesson;";

} // namespace inkturn::test
