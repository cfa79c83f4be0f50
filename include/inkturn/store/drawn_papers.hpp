#pragma once

#include "inkturn/practice/draw.hpp"
#include "inkturn/store/store.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace inkturn {

/// The drawn papers in a store, which outlives it, and where their questions came from. Verbs that change
/// something are called inside a Store::Change; all throw StoreError.
class DrawnPapers {
  public:
    explicit DrawnPapers(Store& store) : store_(store) {}

    /// The questions that stand in several papers, each set of copies once.
    std::vector<Copies> copies() const { return copies(store_); }
    static std::vector<Copies> copies(const Store& store);

    /// Puts the drawn_paper() of these questions on file, which are in papers on file, with the pictures of
    /// each. Throws Error where the id is taken.
    void add(const Paper& paper, const std::vector<Drawable>& questions);

    /// Notes that a question on file is the same as another one on file; nothing where that is known.
    void note_copy(const QuestionName& source, const QuestionName& copy);

  private:
    // Copies of one question are a set of a number.
    std::optional<std::int64_t> set_of(const QuestionName& name) const;
    std::int64_t set_made(const QuestionName& name);
    void put_last(std::int64_t same, const QuestionName& name);
    void join(std::int64_t same, std::int64_t other); ///< puts the other's copies behind its own

    Store& store_;
};

} // namespace inkturn
