#pragma once

#include "inkturn/store/change.hpp"

#include <map>
#include <set>
#include <string>

namespace inkturn {

/// A sitting that came with a candidate's export, or a re-attempt of one of its questions.
struct CollectedRecord {
    std::string paper;
    Day day;              ///< of the sitting
    std::string question; ///< empty: the sitting
    int turn = 0;         ///< of a re-attempt, from 1

    bool operator<(const CollectedRecord& other) const;
};

/// When each candidate's own export last brought something new, as a teacher collects them, and what came
/// with them, which stays known when it is taken back or removed. Kept through a Store::Change, which must
/// outlive this; the verbs throw its errors.
class CollectedFiles {
  public:
    /// By candidate's code; those whose export never brought anything are not among them.
    static std::map<std::string, Day> days(const Store& store);

    static std::set<CollectedRecord> records(const Store& store, const std::string& candidate);

    explicit CollectedFiles(Store::Change& change) : change_(change) {}

    void keep_day(const std::string& candidate, Day day);
    void keep_records(const std::string& candidate, const std::set<CollectedRecord>& records);

  private:
    Store::Change& change_;
};

} // namespace inkturn
