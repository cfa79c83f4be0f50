#pragma once

#include "inkturn/facts/fact.hpp"
#include "inkturn/facts/sheet.hpp"
#include "inkturn/store/store.hpp"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// The facts in a store, which outlives it, and the sheets that ask them. Verbs that change something are
/// called inside a Store::Change; all throw StoreError.
class FactsOnFile {
  public:
    explicit FactsOnFile(Store& store) : store_(store) {}

    std::vector<Fact> all() const { return all(store_); } ///< by subject, topic, then number
    static std::vector<Fact> all(const Store& store);

    /// Puts a checked fact on file under a number of its own. Throws Error where its subject has one with
    /// this prompt.
    FactId add(const Fact& fact);
    void change(const Fact& fact); ///< answer and topic of the one of this number
    /// With its rows on sheets, the sheets of which no row is left, and the candidates of whom nothing is.
    void remove(FactId id);

    std::vector<Sheet> sheets(const std::string& candidate) const { return sheets(store_, candidate); }
    static std::vector<Sheet> sheets(const Store& store, const std::string& candidate); ///< by number

    std::optional<SheetOfFacts> find_sheet(SheetId id) const { return find_sheet(store_, id); }
    static std::optional<SheetOfFacts> find_sheet(const Store& store, SheetId id);

    std::set<FactId> on_logged_sheets() const; ///< facts that logged sheets ask, whoever's they are

    /// Under a number of its own.
    SheetId add_sheet(const std::string& candidate, const Sheet& sheet);
    void keep_log(SheetId id, const std::optional<Sheet::Log>& log);

  private:
    Store& store_;
};

} // namespace inkturn
