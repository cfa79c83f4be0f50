#include "exchange/class/class_roll.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/retry/candidate.hpp"

#include <algorithm>
#include <utility>

namespace inkturn {

std::size_t ClassRoll::candidate(std::size_t column) {
    code_ = table_.cell(column);
    const auto [found, is_new] = candidates_.try_emplace(code_, csv_.candidates.size());
    if (is_new)
        csv_.candidates.push_back(code_);
    if (is_new || code_.empty()) {
        try {
            table_.check_has_value(column);
            check_candidate_code(code_);
        } catch (const Error& error) {
            table_.report(column, error.what());
        }
    }
    return found->second;
}

std::optional<Day> ClassRoll::day(std::size_t column) {
    const auto day = read_iso_day(table_.cell(column));
    if (!day) {
        table_.report(column, why_no_day(table_.cell(column)));
        return std::nullopt;
    }
    if (*day > options_.today) {
        table_.report(column, "the sitting on " + iso(*day) + " is after today, " + iso(options_.today) +
                                  ": correct its date");
        return std::nullopt;
    }
    return day;
}

ClassRoll::Found ClassRoll::sitting(std::size_t candidate, std::size_t paper, Day day) {
    if (2 * csv_.sittings.size() >= slots_.size())
        widen();
    Slot key{static_cast<std::uint32_t>(candidate), static_cast<std::uint32_t>(paper),
             day.time_since_epoch().count(), static_cast<std::uint32_t>(csv_.sittings.size())};
    Slot& slot = slot_of(key);
    const bool is_new = slot.sitting == no_sitting;
    if (is_new) {
        slot = key;
        csv_.sittings.push_back({candidate, paper, day, {}, table_.line()});
    }
    return {slot.sitting, is_new};
}

/// The slot of this candidate, paper and day, or the free one for it.
ClassRoll::Slot& ClassRoll::slot_of(const Slot& key) {
    constexpr std::uint64_t odd = 0x9E3779B97F4A7C15; // 2^64 over the golden ratio
    std::uint64_t mixed = (std::uint64_t(key.candidate) << 32 | key.paper) * odd;
    mixed = ((mixed ^ mixed >> 32) + static_cast<std::uint32_t>(key.day)) * odd;
    for (auto i = static_cast<std::size_t>(mixed >> 32);; ++i) {
        Slot& slot = slots_[i & (slots_.size() - 1)];
        const bool same = slot.candidate == key.candidate && slot.paper == key.paper && slot.day == key.day;
        if (same || slot.sitting == no_sitting)
            return slot;
    }
}

void ClassRoll::widen() {
    const std::vector<Slot> narrower = std::move(slots_);
    slots_.assign(std::max<std::size_t>(64, 2 * narrower.size()), Slot{});
    for (const Slot& slot : narrower)
        if (slot.sitting != no_sitting)
            slot_of(slot) = slot;
}

PartMarks parse_cell_marks(std::string_view text, Marks max) {
    const PartMarks marks = parse_part_marks(text, max);
    if (marks.by_code())
        throw Error("marks '" + std::string(text) + "': only a reason may follow them");
    return marks;
}

std::string short_list(const std::vector<std::string_view>& labels) {
    constexpr std::size_t max_named = 10;
    std::string list;
    for (std::size_t i = 0; i < labels.size() && i < max_named; ++i)
        list.append(i == 0 ? "" : ", ").append(labels[i]);
    if (labels.size() > max_named)
        list += " and " + std::to_string(labels.size() - max_named) + " more";
    return list;
}

} // namespace inkturn
