#pragma once

#include "inkturn/practice/draw.hpp"
#include "inkturn/store/change.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace inkturn {

/// The drawn papers in a store, and where their questions came from. They are changed through a
/// Store::Change, which must outlive this; the verbs throw its errors.
class DrawnPapers {
  public:
    /// The questions that appear in several papers, each set of copies once.
    static std::vector<Copies> copies(const Store& store);

    explicit DrawnPapers(Store::Change& change) : change_(change) {}

    /// Puts the drawn_paper() of these questions on file on that day, with the pictures of each. The
    /// questions must be in papers on file.
    void add(const Paper& paper, const std::vector<Drawable>& questions, Day today);

    /// Notes that a question on file is the same as another on file; does nothing if that is known.
    void note_copy(const QuestionName& source, const QuestionName& copy);

  private:
    void check_drawn(const Paper& paper, const std::vector<Drawable>& questions) const;
    void check_on_file(const QuestionName& name) const;
    // Copies of one question form a numbered set.
    std::int64_t row_of(const QuestionName& name) const; ///< of its paper
    std::optional<std::int64_t> set_of(const QuestionName& name) const;
    std::int64_t set_made(const QuestionName& name);
    void put_last(std::int64_t same, const QuestionName& name);
    void join(std::int64_t same, std::int64_t other); ///< puts the other's copies behind its own

    Store::Change& change_;
};

} // namespace inkturn
