#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

enum class FactId : std::int64_t {};

/// Something to know by heart: the prompt that a sheet prints, and the answer to write below it. Subject and
/// prompt together identify it.
struct Fact {
    static constexpr std::size_t max_characters = 300; ///< characters of a prompt or an answer

    FactId id{};
    std::string prompt;
    std::string answer;
    std::string topic;   ///< empty: none stated
    std::string subject; ///< empty: none stated; ties it to exams
};

/// Throws Error unless prompt and answer have 1 to Fact::max_characters printable characters, no blank at
/// either end, and topic and subject at most 200 printable ones.
void check_prompt(const std::string& prompt);
void check_answer(const std::string& answer);
void check_topic(const std::string& topic);
void check_fact(const Fact& fact);

/// How a fact that comes in again compares with the one on file.
enum class FactMatch : std::uint8_t {
    unchanged,
    completed, ///< with a topic, where none was stated
    contradicted
};

FactMatch match_fact(const Fact& on_file, const Fact& incoming);

/// The fact on file with the incoming answer and, if one is stated, the incoming topic.
Fact updated_fact(Fact on_file, const Fact& incoming);

/// Null if there is no fact of this number.
const Fact* find_fact(const std::vector<Fact>& facts, FactId id);

} // namespace inkturn
