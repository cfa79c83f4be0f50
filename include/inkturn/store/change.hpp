#pragma once

#include "inkturn/store/store.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A change of a store by one or more verbs, undone unless commit() is reached. Meanwhile the store can be
/// read, through store() too, and shows the change. A verb checks what it is given before it writes: it
/// throws Error, of kind not_found if something it names is not on file and conflict if something on file
/// stands in the way, and StoreError if the file can't be written. If a verb fails after it has written
/// something, the change can only be undone: later verbs and commit() throw.
class Store::Change {
  public:
    /// Waits up to three seconds for another program that is writing. Throws Error inside another Change or a
    /// Reading, StoreError if the store is open for reading only.
    explicit Change(Store& store);
    /// The same of what somebody looked at and agreed to. Throws Error of kind conflict where another program
    /// has changed the store since.
    Change(Store& store, Seen seen);
    ~Change();
    Change(const Change&) = delete;
    Change& operator=(const Change&) = delete;

    /// Makes the change permanent and ends it: later verbs throw Error. It is kept to be taken back, one with
    /// all that is changed until the store is closed: see changes.hpp.
    void commit();

    const Store& store() const { return store_; }

    /// What repair_store() repairs, see check.hpp.
    void repair();

    // Papers
    void add_paper(const Paper& paper);
    /// Changes title, subject, component, topics, codes and shares got at of the paper with this id, which
    /// must have the same parts; codes and shares on file may be changed, not left out.
    void complete_paper(const Paper& paper);
    /// With its sittings, and the candidates who then have nothing on file.
    void remove_paper(const std::string& id);

    // Pictures of a paper's questions and parts, which go with the paper
    PictureId add_picture(const Paper& paper, const std::string& question, PictureContent content,
                          const Picture& picture);
    void remove_picture(PictureId id);

    // Candidates and their sittings
    /// What calendars were written with and the changes that could be taken back go: they tell the old code.
    void rename_candidate(const std::string& from, const std::string& to);
    /// With everything on file about them, the changes that could be taken back among it; compact() then
    /// removes what traces the file still holds.
    void erase_candidate(const std::string& code);
    /// Drops what could be taken back, this change with it; compact() then removes what traces the file
    /// holds.
    void forget_changes();
    /// The extra time of sittings to come; nothing: none is stated.
    void set_extra_time(const std::string& code, std::optional<ExtraTime> extra);
    /// Of the paper on file with this paper's id. A candidate sits a paper at most once a day; a script that
    /// will become a sitting counts too.
    SittingId add_sitting(const std::string& candidate, const Paper& paper, const Sitting& sitting);
    /// Changes day, extra time, marks, clock and notes; what was recorded of its retries stays.
    void change_sitting(SittingId id, const Sitting& sitting);
    void remove_sitting(SittingId id); ///< with its candidate if nothing else is on file about them

    // Retries
    /// Turns come one after another, none before the day of the last one or of the sitting.
    void add_reattempt(SittingId id, const Reattempt& reattempt);
    void remove_reattempt(const RetryId& id); ///< the last turn of its question
    void keep_day(const Placement& placement);
    void keep_days(const std::vector<Retry>& retries); ///< those with day_is_new
    /// The same of sittings none of whose days was kept yet, in a third of the time.
    void keep_first_days(const std::vector<Retry>& retries);

    // Classes
    void add_class(const std::string& name);
    /// False if the candidate is already in it.
    bool add_member(const std::string& name, const std::string& candidate);
    /// With the candidate if nothing else is on file.
    void remove_member(const std::string& name, const std::string& candidate);
    void remove_class(const std::string& name);
    /// Notes that the sitting was imported for the class, which then counts it before those of other classes:
    /// see Store::sittings_of().
    void keep_for_class(const std::string& name, SittingId id);

    // Availability and exams
    /// A candidate's own, in place of those on file.
    void set_times(const std::string& candidate, const StatedTimes& times);
    /// Those of a class, which count for its members.
    void set_class_times(const std::string& name, const StatedTimes& times);
    ExamId add_exam(const Exam& exam); ///< its class, if any, must be on file
    void move_exam(ExamId id, Day to);
    void remove_exam(ExamId id);

  private:
    friend class AwardsOnFile;
    friend class BoundarySets;
    friend class CalendarOnFile;
    friend class ChangesOnFile;
    friend class ClosedClasses;
    friend class CollectedFiles;
    friend class Desk;
    friend class DrawnPapers;
    friend class FactsOnFile;
    friend class LessonsOnFile;
    friend class PapersOnFile;
    friend class PlanOnFile;
    friend class PrintedSets;
    friend class QuestionBank;
    friend class SteeringOnFile;
    friend class TopicLists;
    State& state() const; ///< throws Error once it is over

    const Store& store_;
    std::shared_ptr<State> state_; ///< stays while the change does, whatever becomes of the store
    int changes_before_ = 0;       ///< of the database, as SQLite counts them
    bool is_over_ = false;
};

} // namespace inkturn
