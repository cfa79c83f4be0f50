#pragma once

#include "inkturn/grades/award.hpp"
#include "inkturn/store/change.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// The awards in a store. They are changed through a Store::Change, which must outlive this; the verbs throw
/// its errors.
class AwardsOnFile {
  public:
    static std::vector<Award> all(const Store& store); ///< by subject, then name
    static const Award* find(const std::vector<Award>& awards, const std::string& name); ///< null: none
    static const Award& get(const std::vector<Award>& awards, const std::string& name);  ///< throws Error

    explicit AwardsOnFile(Store::Change& change) : change_(change) {}

    /// False if the award is already on file. Throws Error if another one has its name or, for its subject,
    /// one of its components.
    bool add(const Award& award);
    /// With its boundary sets; papers keep the name of their component.
    void remove(const std::string& name);
    /// In the place of the one of its name, whose boundary sets stay: they must be the new one's too.
    void replace(const Award& award);

  private:
    void insert(const Award& award, std::int64_t row) const;
    Store::Change& change_;
};

} // namespace inkturn
