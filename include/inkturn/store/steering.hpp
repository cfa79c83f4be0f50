#pragma once

#include "inkturn/retry/steering.hpp"
#include "inkturn/store/change.hpp"

#include <string>

namespace inkturn {

/// What a store holds of candidates' decisions about single pieces of work; Store::candidate() reads it. It
/// is changed through a Store::Change, which must outlive this; the verbs throw its errors.
class SteeringOnFile {
  public:
    explicit SteeringOnFile(Store::Change& change) : change_(change) {}

    /// In place of what was decided before. Where nothing is decided any more its kept day goes too.
    void steer(const SteeredRetry& retry);
    void steer(const std::string& candidate, const SteeredWork& work);

    /// In place of an earlier day for the same turn.
    void ask_again(SittingId sitting, const AskedAgain& again);
    /// Throws Error, kind not_found, where that turn was not asked for.
    void take_back_turn(const RetryId& id);

  private:
    Store::Change& change_;
};

} // namespace inkturn
