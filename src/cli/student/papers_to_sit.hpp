#pragma once

#include "inkturn/paper/copies.hpp"
#include "inkturn/plan/sittings_ahead.hpp"
#include "inkturn/practice/draw.hpp"
#include "inkturn/practice/printed_set.hpp"
#include "inkturn/store/store.hpp"

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// The papers on file as plans choose from them: read once, for any number of candidates.
class PapersOfPlans {
  public:
    explicit PapersOfPlans(const Store& store);

    /// For the candidate with these scripts, without the share of work that is missed.
    SittingsRequest request_for(const Candidate& candidate, const std::vector<Script>& scripts,
                                Day today) const;

    /// The ids of the papers that are to be sat whole, in the first days too, when the plan has few of them.
    std::set<std::string> to_sit(const Candidate& candidate, Day today) const;

    const std::vector<std::shared_ptr<const Paper>>& papers() const { return papers_; }
    const std::vector<Copies>& copies() const { return copies_; }
    const std::set<std::string>& kept_unseen() const { return kept_unseen_; }

  private:
    std::map<std::string, std::optional<Day>> drawn_for_practice() const;
    PaperIds of_others(const std::vector<std::string>& classes) const;

    const Store& store_;
    std::vector<std::shared_ptr<const Paper>> papers_;
    std::vector<Copies> copies_;
    std::set<std::string> kept_unseen_;
    std::vector<PrintedSet> printed_;
    PaperIds drawn_;
    std::map<std::string, std::optional<Day>> drawn_on_; ///< see questions_met_in_copies()
    PaperIds begun_;
    mutable std::map<std::string, PaperIds> of_classes_; ///< papers of each, read when first asked for
};

/// Says which questions of a drawn paper are in papers that a plan keeps for a whole sitting, and how such a
/// paper stays unseen; empty where there are none. `plan` is whose, such as `the plan`.
std::string to_sit_text(const std::vector<Drawable>& questions, const std::string& plan, bool is_stored);

} // namespace inkturn
