#include "exchange/class/long_marks.hpp"

#include "exchange/class/class_roll.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"

namespace inkturn {

/// Reads plain numbers that fit directly; anything else goes through the core's rules.
std::optional<PartMarks> LongMarks::read(const std::string& label, Marks max) {
    const auto number_or_zero = [](std::string_view text) {
        return text.empty() ? std::optional<int>(0) : plain_number(text);
    };
    const auto in_time = plain_number(table_.cell(columns_.in_time));
    const auto overtime = number_or_zero(cell(columns_.overtime));
    const auto corrected = number_or_zero(cell(columns_.corrected));
    const bool all_plain = in_time && overtime && corrected;
    if (!all_plain || *in_time + *overtime + *corrected > max.count())
        return read_unusual(label, max);
    PartMarks marks({Marks(*in_time), Marks(*overtime), Marks(*corrected)}, max);
    const std::string_view reason = cell(columns_.reason);
    if (!reason.empty()) {
        const auto stated = reason_named(reason);
        if (!stated || marks.in_time() == max)
            return read_unusual(label, max);
        marks.state_reason(*stated, max);
    }
    return marks;
}

std::optional<PartMarks> LongMarks::read_unusual(const std::string& label, Marks max) {
    const std::string said = plain_cell(table_.cell(columns_.in_time));
    says_absent_ = is_absence_word(said);
    const bool is_set = said != not_set_word;
    const bool attempted = is_set && said != "-" && !says_absent_;
    const auto in_time = attempted ? read_ink(columns_.in_time, "in_time", label, max) : 0;
    const auto overtime = read_ink(columns_.overtime, "overtime", label, max);
    const auto corrected = read_ink(columns_.corrected, "corrected", label, max);
    if (!in_time || !overtime || !corrected)
        return std::nullopt;
    if (!attempted && (*overtime > 0 || *corrected > 0)) {
        table_.report(*overtime > 0 ? *columns_.overtime : *columns_.corrected,
                      "part " + label +
                          (is_set ? " has marks but was not attempted: write 0 instead of - "
                                    "if it was tried or corrected after the time"
                                  : " has marks but was not set: leave one or the other out"));
        return std::nullopt;
    }
    std::string text(is_set ? "-" : not_set_word);
    if (attempted)
        text = std::to_string(*in_time) + '+' + std::to_string(*overtime) + '+' + std::to_string(*corrected);
    auto marks = judge(text, max, columns_.in_time);
    const std::string reason = plain_cell(cell(columns_.reason));
    if (marks && !reason.empty())
        marks = judge(text + ':' + reason, max, *columns_.reason);
    return marks;
}

std::optional<int> LongMarks::read_ink(std::optional<std::size_t> column, const char* name,
                                       const std::string& label, Marks max) {
    const std::string text = plain_cell(cell(column));
    if (text.empty() && column != columns_.in_time)
        return 0;
    try {
        if (text.empty())
            throw Error("no mark for " + label +
                        ": write - if it was not attempted, not-set if it was not set");
        return parse_whole_number(text, 0, max.count(), "part " + label + ", " + name);
    } catch (const Error& error) {
        add_marks_fault(faults_, table_, *column, error.what(), max);
        return std::nullopt;
    }
}

std::optional<PartMarks> LongMarks::judge(const std::string& text, Marks max, std::size_t column) {
    try {
        return parse_cell_marks(text, max);
    } catch (const Error& error) {
        table_.report(column, error.what());
        return std::nullopt;
    }
}

} // namespace inkturn
