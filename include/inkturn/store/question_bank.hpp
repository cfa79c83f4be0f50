#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/store/change.hpp"

#include <map>
#include <set>
#include <string>

namespace inkturn {

/// The first words printed of a paper's parts, by label; only of parts of which some are known.
using PartWords = std::map<std::string, std::string>;

constexpr std::size_t max_part_words = 200; ///< characters

/// What a store holds of papers as a bank of questions, beside their parts. It is changed through a
/// Store::Change, which must outlive this; the verbs throw its errors.
class QuestionBank {
  public:
    /// Ids of papers kept for a mock: nothing is drawn from them, and no plan has them sat.
    static std::set<std::string> kept_unseen(const Store& store);
    /// Ids of those that were put on file on this day or later, as far as that is known.
    static std::set<std::string> added_since(const Store& store, Day day);
    /// The days on which papers were put on file, by id, as far as they are known.
    static std::map<std::string, Day> days_added(const Store& store);
    static std::map<std::string, PartWords> words(const Store& store); ///< by paper's id; none empty

    explicit QuestionBank(Store::Change& change) : change_(change) {}

    void set_kept_unseen(const std::string& paper, bool kept);
    void set_added(const std::string& paper, Day day);
    /// In place of those on file of these parts. A text that is too long or can't be printed is refused.
    void set_words(const std::string& paper, const PartWords& words);

  private:
    Store::Change& change_;
};

} // namespace inkturn
