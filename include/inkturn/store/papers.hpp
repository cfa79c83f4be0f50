#pragma once

#include "inkturn/practice/draw.hpp"
#include "inkturn/store/change.hpp"

#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// A topic that no part on file has any more, and the one that all its parts have in its place.
struct RenamedTopic {
    std::string from;
    std::string to;
};

/// What followed when a paper was amended.
struct PaperAmended {
    std::vector<std::string> copies; ///< papers in which the same questions were amended too, by id
    std::vector<RenamedTopic> topics;
};

/// Papers on file that are corrected. They are changed through a Store::Change, which must outlive this; the
/// verbs throw its errors.
class PapersOnFile {
  public:
    explicit PapersOnFile(Store::Change& change) : change_(change) {}

    /// Changes title, subject, duration, topics, codes and marks of the paper with this id, which must have
    /// the same parts; and its questions' copies in drawn papers with them. What was noted of a topic goes
    /// with it where the paper renames it for good. Throws Error, of kind conflict, that names them, where
    /// marks on file would not fit.
    PaperAmended amend(const Paper& paper);

  private:
    struct TopicChange {
        std::string subject, topic, new_subject, new_topic;
    };
    std::vector<Paper> copies_amended(const Paper& was, const Paper& is) const;
    void check_marks_fit(const Paper& was, const Paper& is) const;
    std::vector<std::string> candidates_of(const Paper& paper) const; ///< with a sitting or a script of it
    void write(const Paper& paper) const;
    void exec(const char* sql, const std::vector<std::string>& texts) const;
    void move_decisions(const Paper& was, const Paper& is) const;
    std::vector<TopicChange> topics_gone(const Paper& was, const Paper& is) const;
    void move_topic(const TopicChange& change) const;

    Store::Change& change_;
};

} // namespace inkturn
