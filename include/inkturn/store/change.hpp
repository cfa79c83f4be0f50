#pragma once

#include "inkturn/store/store.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A change of a store by one or several verbs: taken back unless commit() was reached. Reading goes on
/// meanwhile, by store() too, and sees it. What a verb is given is checked before anything is written: it
/// throws Error, of kind not_found where what it names is not on file and conflict where something on file
/// stands in the way, and StoreError where the file can't be written. Where one fails when it has written
/// something, nothing but taking back is left: the verbs after it and commit() throw.
class Store::Change {
  public:
    /// Waits up to three seconds for another program that is writing. Throws Error inside another Change or
    /// a Reading, StoreError where the store is open for reading alone.
    explicit Change(Store& store);
    ~Change();
    Change(const Change&) = delete;
    Change& operator=(const Change&) = delete;

    /// Ends it: verbs that come after throw Error.
    void commit();

    const Store& store() const { return store_; }

    // Papers
    void add_paper(const Paper& paper);
    /// Changes title, subject, topics and codes of the paper of this id, which has these parts; codes that
    /// are on file may be others, not left out.
    void complete_paper(const Paper& paper);
    /// With the sittings that hang on it, and the candidates of whom nothing is left.
    void remove_paper(const std::string& id);

    // Pictures of a paper's questions and parts, which go with the paper
    PictureId add_picture(const Paper& paper, const std::string& question, PictureContent content,
                          const Picture& picture);
    void remove_picture(PictureId id);

    // Candidates and their sittings
    void rename_candidate(const std::string& from, const std::string& to);
    /// With all that is on file of them; compact() then removes what the file still holds of it.
    void erase_candidate(const std::string& code);
    /// Of the paper on file that has the paper's id. A candidate sits a paper once a day, a script that is to
    /// become a sitting counted too.
    SittingId add_sitting(const std::string& candidate, const Paper& paper, const Sitting& sitting);
    /// Changes day, extra time, marks and clock; what was recorded of its retries stays.
    void change_sitting(SittingId id, const Sitting& sitting);
    void remove_sitting(SittingId id); ///< with its candidate where nothing else is on file of them

    // Retries
    /// Turns come one after the other, none on a day before the last one or the sitting.
    void add_reattempt(SittingId id, const Reattempt& reattempt);
    void remove_reattempt(const RetryId& id); ///< the last turn of its question
    void keep_day(const Placement& placement);
    void keep_days(const std::vector<Retry>& retries); ///< of those day_is_new

    // Classes
    void add_class(const std::string& name);
    /// False where the candidate is in it already.
    bool add_member(const std::string& name, const std::string& candidate);
    /// With the candidate where nothing else is on file.
    void remove_member(const std::string& name, const std::string& candidate);
    void remove_class(const std::string& name);

    // Availability and exams
    void set_availability(const std::string& candidate, const Availability& availability);
    ExamId add_exam(const Exam& exam);
    void move_exam(ExamId id, Day to);
    void remove_exam(ExamId id);

  private:
    friend class BoundarySets;
    friend class Desk;
    friend class DrawnPapers;
    friend class FactsOnFile;
    friend class PlanOnFile;
    State& state() const; ///< throws Error once it is over

    const Store& store_;
    std::shared_ptr<State> state_; ///< stays while the change does, whatever becomes of the store
    bool is_over_ = false;
};

} // namespace inkturn
