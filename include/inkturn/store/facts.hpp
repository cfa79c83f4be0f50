#pragma once

#include "inkturn/facts/fact.hpp"
#include "inkturn/facts/sheet.hpp"
#include "inkturn/store/change.hpp"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// The facts in a store, and the sheets that ask them. They are changed by a Store::Change, which outlives
/// this and whose errors the verbs throw.
class FactsOnFile {
  public:
    static std::vector<Fact> all(const Store& store); ///< by subject, topic, then number
    static std::vector<Sheet> sheets(const Store& store, const std::string& candidate); ///< by number
    static std::optional<CandidateSheet> find_sheet(const Store& store, SheetId id);
    static std::set<FactId> on_logged_sheets(const Store& store); ///< whoever's they are

    explicit FactsOnFile(Store::Change& change) : change_(change) {}

    /// Puts a fact on file under a number of its own. Its subject has no other with this prompt.
    FactId add(const Fact& fact);
    void change(const Fact& fact); ///< answer and topic of the one of this number
    /// With its rows on sheets, the sheets of which no row is left, and the candidates of whom nothing is.
    void remove(FactId id);

    /// Under a number of its own.
    SheetId add_sheet(const std::string& candidate, const Sheet& sheet);
    void keep_log(SheetId id, const std::optional<Sheet::Log>& log);

  private:
    void check_on_file(FactId id) const;

    Store::Change& change_;
};

} // namespace inkturn
