#pragma once

#include "inkturn/practice/draw.hpp"
#include "inkturn/store/change.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace inkturn {

/// The drawn papers in a store, and where their questions came from. They are changed by a Store::Change,
/// which outlives this and whose errors the verbs throw.
class DrawnPapers {
  public:
    /// The questions that stand in several papers, each set of copies once.
    static std::vector<Copies> copies(const Store& store);

    explicit DrawnPapers(Store::Change& change) : change_(change) {}

    /// Puts the drawn_paper() of these questions on file, which are in papers on file, with the pictures of
    /// each.
    void add(const Paper& paper, const std::vector<Drawable>& questions);

    /// Notes that a question on file is the same as another one on file; nothing where that is known.
    void note_copy(const QuestionName& source, const QuestionName& copy);

  private:
    void check_drawn(const Paper& paper, const std::vector<Drawable>& questions) const;
    void check_on_file(const QuestionName& name) const;
    // Copies of one question are a set of a number.
    std::int64_t row_of(const QuestionName& name) const; ///< of its paper
    std::optional<std::int64_t> set_of(const QuestionName& name) const;
    std::int64_t set_made(const QuestionName& name);
    void put_last(std::int64_t same, const QuestionName& name);
    void join(std::int64_t same, std::int64_t other); ///< puts the other's copies behind its own

    Store::Change& change_;
};

} // namespace inkturn
