#pragma once

#include "inkturn/lesson/lesson.hpp"
#include "inkturn/store/change.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// The revision lessons that a store holds. It is changed through a Store::Change, which must outlive this;
/// the verbs throw its errors.
class LessonsOnFile {
  public:
    explicit LessonsOnFile(Store::Change& change) : change_(change) {}

    static std::vector<Lesson> all(const Store& store); ///< by day, start and id
    static std::optional<Lesson> find(const Store& store, const std::string& id);

    void add(const Lesson& lesson);
    /// Replaces all but the id of the lesson with this id. A candidate who is not on file is added.
    void change(const Lesson& lesson);
    void remove(const std::string& id);

  private:
    void insert_topics_and_asked(std::int64_t row, const Lesson& lesson);

    Store::Change& change_;
};

} // namespace inkturn
