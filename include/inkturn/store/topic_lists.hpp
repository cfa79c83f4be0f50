#pragma once

#include "inkturn/paper/topic_list.hpp"
#include "inkturn/store/change.hpp"

#include <map>
#include <string>

namespace inkturn {

/// The lists of topics in a store, one a subject. They are changed through a Store::Change, which must
/// outlive this; the verb throws its errors.
class TopicLists {
  public:
    /// Empty where there is none.
    static TopicList of(const Store& store, const std::string& subject);
    static std::map<std::string, TopicList> all(const Store& store); ///< by subject; none empty

    explicit TopicLists(Store::Change& change) : change_(change) {}

    /// In place of the subject's list on file; an empty one removes it.
    void keep(const std::string& subject, const TopicList& list);

  private:
    Store::Change& change_;
};

} // namespace inkturn
