#pragma once

#include "catch.hpp"
#include "exchange/document/pure_1.hpp"
#include "inkturn/store/change.hpp"

#include <string>
#include <vector>

namespace inkturn::test {

inline Sitting sitting(const std::string& line, int extra_time = 0) {
    return {sat_on, ExtraTime(extra_time), parse_line(*pure_1(), line)};
}

inline Reattempt turn(int number, const std::string& line, int days_later) {
    return {"7", number, sat_on + Days{days_later}, parse_line(*pure_1(), {1, 2}, line)};
}

/// A store with a sitting of pure-1 by K07 and re-attempts of its question 7.
inline Store store_with(const Sitting& sitting, const std::vector<Reattempt>& turns = {}) {
    Store store = empty_store();
    change(store, [&](Store::Change& open) {
        open.add_paper(*pure_1());
        const SittingId id = open.add_sitting("K07", *pure_1(), sitting);
        for (const Reattempt& reattempt : turns)
            open.add_reattempt(id, reattempt);
    });
    return store;
}

/// The conflicts without --replace, after which the store is as it was.
inline Lines conflicts(Store here, const Store& in_file) {
    const std::string before = text_of(here);
    const Merge done = merge_into(here, in_file);
    CHECK(text_of(here) == before);
    return done.conflicts;
}

/// The same with --replace.
inline Lines conflicts_replacing(Store here, const Store& in_file) {
    const std::string before = text_of(here);
    const Merge done = merge_into(here, in_file, true);
    if (!done.conflicts.empty())
        CHECK(text_of(here) == before);
    return done.conflicts;
}

inline Lines turns_on_file(const Store& store) {
    Lines turns;
    const Candidate candidate = store.candidate("K07");
    for (const Reattempt& reattempt : candidate.sittings.at(0).reattempts)
        turns.push_back(std::to_string(reattempt.turn) + ": " + to_line(reattempt.parts));
    return turns;
}

} // namespace inkturn::test
