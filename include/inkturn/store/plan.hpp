#pragma once

#include "inkturn/facts/fact.hpp"
#include "inkturn/plan/rating.hpp"
#include "inkturn/retry/planned_work.hpp"
#include "inkturn/store/change.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// What a store holds of candidates' plans; Store::candidate() reads it. It is changed through a
/// Store::Change, which must outlive this; the verbs throw its errors.
class PlanOnFile {
  public:
    explicit PlanOnFile(Store::Change& change) : change_(change) {}

    /// Replaces everything planned for the candidate.
    void keep(const std::string& candidate, const std::vector<PlannedWork>& planned);

    /// The day for which the days on file, those of retries too, were chosen.
    void set_planned_for(const std::string& candidate, Day day);

    /// Takes facts that were asked off the plan.
    void take_off(const std::string& candidate, const std::vector<Fact>& facts);

    void set_wishes(const std::string& candidate, const PlanWishes& wishes);

    /// Takes the topic off the plan. False if it is already on file for this day.
    bool add_relearned(const std::string& candidate, const Relearned& relearned);
    /// False if there is none for this day.
    [[nodiscard]] bool remove_relearned(const std::string& candidate, const Relearned& relearned);

    /// How a candidate rates topics: by subject, then topic.
    static std::vector<TopicRating> ratings(const Store& store, const std::string& candidate);
    /// In place of what the candidate said of the topic before.
    void rate(const std::string& candidate, const TopicRating& rating);

  private:
    Store::Change& change_;
};

} // namespace inkturn
