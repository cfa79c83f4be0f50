#pragma once

#include "inkturn/base/moment.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/paper/picture.hpp"
#include "inkturn/retry/availability.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/retry/exam.hpp"
#include "inkturn/retry/retry.hpp"
#include "inkturn/sitting/sitting.hpp"
#include "inkturn/statistics/comparison.hpp"
#include "inkturn/store/class_on_file.hpp"

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

struct Repaired;
struct StoreFault;

struct PaperOnFile {
    std::shared_ptr<const Paper> paper;
    std::size_t sittings; ///< including scripts that will become one
};

/// A candidate in a list, without what they did.
struct CandidateOnFile {
    std::string code;
    std::size_t sittings;
    std::optional<Day> latest{};           ///< sitting
    std::optional<ExtraTime> extra_time{}; ///< of sittings to come
    std::vector<std::string> classes{};    ///< names, ascending
};

/// What a store is opened for: the command as typed, and when. Its changes are listed so: changes.hpp.
struct Occasion {
    std::string command{};
    Moment at{};
    std::function<void()> when_stored{}; ///< called after each change that was made; it must not throw
};

/// What is on file, in one SQLite database; only a Change changes it, see change.hpp. All verbs throw
/// StoreError where the file can't be read or written.
class Store {
  public:
    /// Opens the file, or creates it, readable by its owner only; brings its tables up to date. Checks, once
    /// a day and after an interrupted program's change was undone, that the file is sound. Refuses a folder,
    /// a file that isn't a store of this program, and a store from a newer version, and leaves them
    /// untouched.
    static Store open(const std::string& file, const Occasion& occasion = {});

    /// Opens an existing store or, if there is none, an empty one in memory. A file that can't be written is
    /// opened for reading only.
    static Store open_to_read(const std::string& file, const Occasion& occasion = {});

    Store(Store&& other) noexcept;
    Store& operator=(Store&& other) noexcept;
    ~Store();

    bool writable() const;

    /// What the file held at a moment, to be held against what it holds later.
    enum class Seen : std::int64_t {};
    Seen seen() const;

    class Change;

    // Papers
    std::shared_ptr<const Paper> find_paper(const std::string& id) const; ///< null where there is none
    std::vector<std::shared_ptr<const Paper>> papers() const;             ///< by id
    std::vector<PaperOnFile> papers_and_sittings() const;                 ///< by id

    // Pictures of a paper's questions
    std::vector<PictureOnFile> pictures() const; ///< by paper, then as they were added
    std::optional<Picture> picture(PictureId id) const;
    /// In the order they were added; those of the whole question if the part asked for has none. Throws Error
    /// where the paper is not on file.
    std::vector<Picture> pictures_of(const Paper& paper, const std::string& question,
                                     PictureContent content) const;

    // Candidates and their sittings
    std::vector<std::string> candidates() const; ///< codes, ascending
    /// By code; only members of the class, if one is named. Throws Error where it is not on file.
    std::vector<CandidateOnFile> listed_candidates(const std::optional<std::string>& of_class) const;
    bool has_candidate(const std::string& code) const;
    Candidate candidate(const std::string& code) const; ///< without sittings if nothing is on file
    /// The candidate with only those sittings that count in a class's statistics: see sittings_of(). Throws
    /// Error where the class is not on file.
    Candidate candidate_in(const std::string& class_name, const std::string& code) const;
    std::optional<std::string> candidate_of(SittingId id) const;
    /// The sittings of a paper, by candidate, then by day; only members of the class, if one is named, and of
    /// a member with sittings of it that were imported or marked for the class none that were for others
    /// alone, or were collected. Throws Error where paper or class is not on file.
    std::vector<SittingOfPaper> sittings_of(const Paper& paper,
                                            const std::optional<std::string>& of_class) const;

    // Classes
    bool has_class(const std::string& name) const;
    std::vector<ClassOnFile> classes() const;                        ///< by name
    std::vector<std::string> members(const std::string& name) const; ///< codes, ascending; throws Error
    std::vector<std::string> classes_of(const std::string& candidate) const; ///< names, ascending
    std::vector<std::string> classes_of(SittingId id) const; ///< those it was imported for; names, ascending

    /// What was set for a class. Throws Error where it is not on file.
    StatedTimes class_times(const std::string& name) const;

    std::vector<ExamOnFile> exams() const; ///< by day; of everybody and of all classes

    /// Rewrites the file without what was removed. Throws Error inside a Change or a Reading.
    void compact();

  private:
    friend class AwardsOnFile;
    friend class BoundarySets;
    friend class CalendarOnFile;
    friend class ChangesOnFile;
    friend class ClosedClasses;
    friend class CollectedFiles;
    friend class Desk;
    friend class FactsOnFile;
    friend class LessonsOnFile;
    friend class PapersOnFile;
    friend class PlanOnFile;
    friend class DrawnPapers;
    friend class PrintedSets;
    friend class QuestionBank;
    friend class Reading;
    friend class SteeringOnFile;
    friend class TopicLists;
    friend void back_up(const Store& store, const std::string& to);
    friend std::vector<StoreFault> faults_of(const Store& store);
    friend Repaired repair_store(const std::string& file);
    static Store open_to_repair(const std::string& file); ///< without a check that it is sound
    struct State;
    enum class Purpose : std::uint8_t { reading, writing, repair };
    static std::shared_ptr<State> opened(const std::string& file, const Occasion& occasion, Purpose purpose);
    explicit Store(std::shared_ptr<State> state);
    std::shared_ptr<State> state_;
};

/// The newest layout of the tables that this program knows, as in SQLite's user_version.
int newest_store_version() noexcept;

} // namespace inkturn
