#pragma once

#include "inkturn/sitting/sitting.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// One candidate's marks, typed along the parts that were set: in one line or in several, read like the
/// answers to `mark`.
class RowOfMarks {
  public:
    /// `set`: positions of the parts that were set; nothing: all. The paper must outlive it.
    RowOfMarks(const Paper& paper, const std::optional<std::vector<std::size_t>>& set);

    bool is_empty() const { return typed_.empty(); }
    bool is_whole() const { return typed_.size() == places_.size(); }
    const Part& next_part() const; ///< of a row that is not whole
    std::size_t parts_left() const { return places_.size() - typed_.size(); }

    /// Takes marks for the next parts, one for each word; `f`: full. Throws Error where there are more words
    /// than parts left, and takes none of them; where one is wrong, it names the part, and those before are
    /// taken.
    void take(const std::vector<std::string>& words);
    bool step_back(); ///< false at the first part

    /// Accuracy codes of the last part taken that earned marks without their method.
    std::vector<std::string> doubtful_codes() const;

    std::vector<PartMarks> marks() const; ///< of a whole row

  private:
    void take_one(const std::string& word);

    const Paper& paper_;
    std::optional<std::vector<std::size_t>> set_;
    std::vector<std::size_t> places_;
    std::vector<Entry> typed_;
};

/// The words of a line, blanks between them.
std::vector<std::string> words_in(std::string_view line);

} // namespace inkturn
