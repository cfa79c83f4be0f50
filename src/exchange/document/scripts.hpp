#pragma once

#include "exchange/document/merge.hpp"
#include "inkturn/desk/script.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/desk.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// Puts a candidate's scripts in the order of a document: by date, paper, then whole papers before retries,
/// these by sitting, question in the paper's order and turn.
void sort_scripts(std::vector<Script>& scripts);

/// Whether `later` is the same work taken as far as `earlier` or further: the clock goes on from where it
/// stood there, and what was marked has the same marks.
bool goes_on(const Script& later, const Script& earlier);

/// A candidate's scripts on file meet what a document tells of them. What it refers to must outlive it.
class DeskMerge {
  public:
    DeskMerge(Store::Change& change, const std::string& code, const MergeOptions& options, Merge& merge)
        : change_(change), desk_(change), code_(code), options_(options), merge_(merge) {}

    /// Puts a sitting of the document on file, in the place of its script where there is one.
    SittingId add(const Paper& paper, const Sitting& sitting);

    /// A re-attempt of the document was put on file: a script of it goes.
    void was_recorded(const RetryId& id, const Reattempt& reattempt);

    /// A script of the document whose id is the one that it would have here (0: a whole paper). Comes after
    /// all of the candidate's sittings and re-attempts. `is_done`: what it is to become is on file.
    void take(Script in_file, bool is_done);

  private:
    std::string name_of(const Script& script) const;
    std::optional<Script> paper_on_desk(const std::string& paper, Day day) const;
    std::optional<Script> running_beside(const std::optional<Script>& here) const;
    void check_became(const Script& here, const std::vector<ClockEvent>& clock);
    void leave_out(const Script& in_file, const std::string& why);
    void put(Script in_file, const std::optional<Script>& here, std::size_t& count);

    Store::Change& change_;
    Desk desk_;
    const std::string& code_;
    const MergeOptions& options_;
    Merge& merge_;
};

} // namespace inkturn
