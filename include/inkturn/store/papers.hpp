#pragma once

#include "inkturn/practice/draw.hpp"
#include "inkturn/retry/papers_of_class.hpp"
#include "inkturn/store/change.hpp"

#include <optional>
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

/// That a candidate was absent from a paper of a class on a day.
struct Absence {
    std::string of_class;
    std::string paper; ///< id
    Day day;
};

/// Papers on file: whose they are, and their correction. They are changed through a Store::Change, which must
/// outlive this; the verbs throw its errors.
class PapersOnFile {
  public:
    /// The papers that members of the class sat or that were set for it, by id. Throws Error where the class
    /// is not on file.
    static std::vector<PaperInClass> in_class(const Store& store, const std::string& class_name);
    /// Those of in_class() that count as the class's.
    static PaperIds of_class(const Store& store, const std::string& class_name);
    /// Those that somebody sat, or has a script of.
    static PaperIds begun(const Store& store);

    /// The ids of all papers on file, ascending.
    static std::vector<std::string> ids(const Store& store);

    /// Of whom it was said, for the class or for any, that they were absent from the paper on some day.
    static std::set<std::string> absent(const Store& store, const std::optional<std::string>& class_name,
                                        const Paper& paper);
    /// Members of the class of whom it was said that they were absent from the paper on that day.
    static std::set<std::string> absent(const Store& store, const std::string& class_name, const Paper& paper,
                                        Day day);

    /// What was said of the candidate's absences, by day, paper and class.
    static std::vector<Absence> absences(const Store& store, const std::string& candidate);

    explicit PapersOnFile(Store::Change& change) : change_(change) {}

    void note_absent(const std::string& class_name, const Paper& paper, Day day,
                     const std::string& candidate);
    void forget_absent(const std::string& class_name, const Paper& paper, Day day,
                       const std::string& candidate);

    /// Changes title, subject, duration, topics, codes and marks of the paper with this id, which must have
    /// the same parts; and its questions' copies in drawn papers with them. What was noted of a topic goes
    /// with it where the paper renames it for good. Throws Error, of kind conflict, that names them, where
    /// marks on file would not fit.
    PaperAmended amend(const Paper& paper);

    /// All that is on file of the paper stays its own. Throws Error where it is not on file, or another paper
    /// has the new id.
    void give_id(const std::string& id, const std::string& new_id);

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
    void exec_absent(const char* sql, const std::string& class_name, const Paper& paper, Day day,
                     const std::string& candidate);

    Store::Change& change_;
};

} // namespace inkturn
