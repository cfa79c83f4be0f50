#pragma once

#include "exchange/document/merge.hpp"
#include "exchange/json/forward.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/facts.hpp"

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace inkturn {

class JsonValue;

/// The facts as they stand in a document: by subject and prompt, numbered from 1 in that order. `numbers` has
/// a fact's number there by the one on file.
std::vector<Fact> exported_facts(std::vector<Fact> facts, std::map<FactId, FactId>& numbers);

/// A candidate's sheets as they stand in a document: by day, facts and log, without numbers of their own.
/// Facts go by `numbers`, which has them all.
std::vector<Sheet> exported_sheets(std::vector<Sheet> sheets, const std::map<FactId, FactId>& numbers);

/// Adds those that there are to a document, where none is there no key.
void add_facts(const std::vector<Fact>& facts, Json& document);
/// The same for a candidate; `facts` are those of the document.
void add_sheets(const std::vector<Sheet>& sheets, const std::vector<Fact>& facts, Json& candidate);

/// Reads what the two above wrote, and puts it in their order.
class FactsReader {
  public:
    void read_facts(const JsonValue& value);
    /// Comes after the facts.
    std::vector<Sheet> read_sheets(const JsonValue& value, Day today) const;
    std::vector<Fact> facts() const;

  private:
    Sheet read_sheet(const JsonValue& value, Day today) const;

    std::map<std::pair<std::string, std::string>, Fact> facts_; ///< by subject, then prompt
    std::map<std::pair<std::string, std::string>, FactId> numbers_;
};

/// Facts and sheets on file meet those of a document. What it refers to must outlive it.
class FactsMerge {
  public:
    FactsMerge(Store::Change& change, const MergeOptions& options, Merge& merge)
        : store_(change.store()), on_file_(change), options_(options), merge_(merge) {}

    void take(const std::vector<Fact>& in_file);
    /// Comes after the facts.
    void take(const std::string& code, const std::vector<Sheet>& in_file);

  private:
    void take_fact(const Fact& in_file, const Fact* here);
    void take_log(const std::string& code, const Sheet& here, const Sheet& in_file);

    const Store& store_;
    FactsOnFile on_file_;
    const MergeOptions& options_;
    Merge& merge_;
    std::map<FactId, FactId> ids_here_; ///< by the document's
};

} // namespace inkturn
