#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

enum class FactId : std::int64_t {};

/// Something to know by heart: what a sheet says, and what is to be written below it. Subject and prompt
/// together name it.
struct Fact {
    static constexpr std::size_t max_characters = 300; ///< characters of a prompt or an answer

    FactId id{};
    std::string prompt;
    std::string answer;
    std::string topic;   ///< empty: none stated
    std::string subject; ///< empty: none stated; ties it to exams
};

/// Throws Error unless prompt and answer have 1 to `longest` printable characters, no blank at their ends,
/// and topic and subject at most 200 printable ones.
void check_prompt(const std::string& prompt);
void check_answer(const std::string& answer);
void check_topic(const std::string& topic);
void check_fact(const Fact& fact);

/// What a fact that is told again makes of the one of its name on file.
enum class FactMatch : std::uint8_t {
    unchanged,
    completed, ///< by a topic, where none was stated
    contradicted
};

FactMatch match_fact(const Fact& on_file, const Fact& incoming);

/// The fact on file with what was told in place of its answer and, where one was stated, its topic.
Fact updated_fact(Fact on_file, const Fact& incoming);

/// Null where there is none of this number.
const Fact* find_fact(const std::vector<Fact>& facts, FactId id);

} // namespace inkturn
