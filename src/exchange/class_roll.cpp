#include "exchange/class_roll.hpp"

#include "inkturn/candidate.hpp"
#include "inkturn/error.hpp"

#include <cstdint>

namespace inkturn {

std::size_t ClassRoll::candidate(std::size_t column) {
    code_ = table_.cell(column);
    const auto [found, is_new] = candidates_.try_emplace(code_, csv_.candidates.size());
    if (is_new)
        csv_.candidates.push_back(code_);
    if (is_new || code_.empty()) {
        try {
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
        table_.report(column, "the sitting on " + iso(*day) + " lies after today, " + iso(options_.today) +
                                  ": correct its date");
        return std::nullopt;
    }
    return day;
}

ClassRoll::Found ClassRoll::sitting(std::size_t candidate, std::size_t paper, Day day) {
    const auto [found, is_new] = sittings_.try_emplace(Key{candidate, paper, day}, csv_.sittings.size());
    if (is_new)
        csv_.sittings.push_back({candidate, paper, day, {}, table_.line()});
    return {found->second, is_new};
}

std::size_t ClassRoll::KeyHash::operator()(const Key& key) const noexcept {
    std::uint64_t mixed = key.candidate;
    for (const std::uint64_t piece :
         {std::uint64_t(key.paper), std::uint64_t(key.day.time_since_epoch().count())})
        mixed = (mixed ^ (mixed >> 29)) * 0x9E3779B97F4A7C15 + piece;
    return static_cast<std::size_t>((mixed ^ (mixed >> 32)) * 0x9E3779B97F4A7C15 >> 16);
}

std::string short_list(const std::vector<std::string_view>& labels) {
    constexpr std::size_t most_named = 10;
    std::string list;
    for (std::size_t i = 0; i < labels.size() && i < most_named; ++i)
        list.append(i == 0 ? "" : ", ").append(labels[i]);
    if (labels.size() > most_named)
        list += " and " + std::to_string(labels.size() - most_named) + " more";
    return list;
}

} // namespace inkturn
