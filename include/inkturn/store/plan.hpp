#pragma once

#include "inkturn/facts/fact.hpp"
#include "inkturn/retry/planned_work.hpp"
#include "inkturn/store/change.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// What a store keeps of the candidates' plans; Store::candidate() reads it. It is changed by a
/// Store::Change, which outlives this and whose errors the verbs throw.
class PlanOnFile {
  public:
    explicit PlanOnFile(Store::Change& change) : change_(change) {}

    /// In place of all that was planned for the candidate.
    void keep(const std::string& candidate, const std::vector<PlannedWork>& planned);

    /// The day for which the days on file, those of retries too, were chosen.
    void set_planned_for(const std::string& candidate, Day day);

    /// Takes facts off the plan that were asked.
    void take_off(const std::string& candidate, const std::vector<Fact>& facts);

    void set_wishes(const std::string& candidate, const PlanWishes& wishes);

    /// Takes the topic off the plan. False where that is on file for this day.
    bool add_relearned(const std::string& candidate, const Relearned& relearned);
    /// False where there is none of this day.
    [[nodiscard]] bool remove_relearned(const std::string& candidate, const Relearned& relearned);

  private:
    Store::Change& change_;
};

} // namespace inkturn
