#pragma once

#include "inkturn/paper/paper.hpp"
#include "inkturn/paper/picture.hpp"
#include "inkturn/retry/availability.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/retry/exam.hpp"
#include "inkturn/retry/retry.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

struct PaperOnFile {
    std::shared_ptr<const Paper> paper;
    std::size_t sittings; ///< how many hang on it, scripts that are to become one among them
};

struct ClassOnFile {
    std::string name;
    std::size_t members;
};

/// What is on file, in one SQLite database. Verbs that change something are called inside a Change, which is
/// done whole or not at all. All throw StoreError where the file can't be read or written.
class Store {
  public:
    /// Opens the file, which is made, readable to its owner alone, where there is none; brings its tables up
    /// to date. Refuses, untouched, a folder, what is no store of this program, and one from a newer version.
    static Store open(const std::string& file);

    /// Opens a store that is there; where there is none, an empty one in memory. A file that may not be
    /// written is opened for reading alone.
    static Store open_to_read(const std::string& file);

    Store(Store&&) noexcept;
    Store& operator=(Store&&) noexcept;
    ~Store();

    bool writable() const;

    /// A change of one or several verbs: taken back unless commit() was reached. Waits up to three seconds
    /// for another program that is writing; throws StoreError where the store is open for reading alone.
    class Change {
      public:
        explicit Change(Store& store);
        ~Change();
        Change(const Change&) = delete;
        Change& operator=(const Change&) = delete;
        void commit();

      private:
        Store& store_;
        bool committed_ = false;
    };

    // Papers
    /// Throws Error where the id is taken.
    void add_paper(const Paper& paper);
    std::shared_ptr<const Paper> find_paper(const std::string& id) const; ///< null where there is none
    std::vector<PaperOnFile> papers() const;                              ///< by id
    /// Changes title, subject, topics and codes of the paper on file that has this id and these parts.
    void complete_paper(const Paper& paper);
    /// With the sittings that hang on it, and the candidates of whom nothing is left.
    void remove_paper(const std::string& id);

    // Pictures of a paper's questions, which go with the paper
    PictureId add_picture(const Paper& paper, const std::string& question, Shows shows,
                          const Picture& picture);
    std::vector<PictureOnFile> pictures() const; ///< by paper, then as they came
    std::optional<Picture> picture(PictureId id) const;
    /// In the order in which they came; of the whole question where there is none of the part asked for.
    std::vector<Picture> pictures_of(const Paper& paper, const std::string& question, Shows shows) const;
    void remove_picture(PictureId id);

    // Candidates and their sittings
    std::vector<std::string> candidates() const; ///< codes, ascending
    bool has_candidate(const std::string& code) const;
    /// A candidate without anything on file is one without sittings.
    Candidate candidate(const std::string& code) const;
    std::optional<std::string> candidate_of(SittingId id) const;
    /// Throws Error where a candidate has the new code already.
    void rename_candidate(const std::string& from, const std::string& to);
    /// With all that is on file of them; compact() then removes what the file still holds of it.
    void erase_candidate(const std::string& code);
    /// The marks of each candidate's latest sitting of a paper, of a class's members where one is named.
    std::vector<std::vector<PartMarks>> latest_sittings(const Paper& paper,
                                                        const std::optional<std::string>& of_class) const;
    /// Throws Error where the candidate has a sitting of this paper on this day, or a script that is to
    /// become one.
    SittingId add_sitting(const std::string& candidate, const Paper& paper, const Sitting& sitting);
    /// Changes day, extra time, marks and clock; what was recorded of its retries stays. Throws Error where
    /// the candidate has another of its paper on the day, or a script that is to become one.
    void change_sitting(SittingId id, const Sitting& sitting);
    void remove_sitting(SittingId id); ///< with its candidate where nothing else is on file of them

    // Retries
    void add_reattempt(SittingId id, const Reattempt& reattempt);
    void remove_reattempt(const RetryId& id);
    void keep_day(const Placement& placement);
    void keep_days(const std::vector<Retry>& retries); ///< of those placed_now

    // Classes. Those that name one throw Error where it is not on file.
    bool has_class(const std::string& name) const;
    std::vector<ClassOnFile> classes() const;                                ///< by name
    std::vector<std::string> members(const std::string& name) const;         ///< codes, ascending
    std::vector<std::string> classes_of(const std::string& candidate) const; ///< names, ascending
    void add_class(const std::string& name); ///< throws Error where there is one of this name
    /// False where the candidate is in it already.
    bool add_member(const std::string& name, const std::string& candidate);
    /// Throws Error where the candidate is not in it. With the candidate where nothing else is on file.
    void remove_member(const std::string& name, const std::string& candidate);
    void remove_class(const std::string& name);

    // Availability and exams
    void set_availability(const std::string& candidate, const Availability& availability);
    ExamId add_exam(const Exam& exam);
    std::vector<ExamOnFile> exams() const; ///< by day
    void move_exam(ExamId id, Day to);
    void remove_exam(ExamId id);

    /// Writes the file anew without what was removed. Outside a Change.
    void compact();

  private:
    friend class BoundarySets;
    friend class Desk;
    friend class FactsOnFile;
    friend class PlanOnFile;
    friend class DrawnPapers;
    friend class Reading;
    struct State;
    static std::unique_ptr<State> opened(const std::string& file, bool to_write);
    explicit Store(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

/// The newest layout of the tables that this program knows, as in SQLite's user_version.
int newest_store_version() noexcept;

} // namespace inkturn
