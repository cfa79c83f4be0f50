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

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

struct PaperOnFile {
    std::shared_ptr<const Paper> paper;
    std::size_t sittings; ///< including scripts that will become one
};

struct ClassOnFile {
    std::string name;
    std::size_t members;
};

/// What a store is opened for: the command as typed, and when. Its changes are listed under that, see
/// changes.hpp.
struct Occasion {
    std::string command{};
    Moment at{};
};

/// What is on file, in one SQLite database; only a Change changes it, see change.hpp. All verbs throw
/// StoreError where the file can't be read or written.
class Store {
  public:
    /// Opens the file, or creates it, readable by its owner only; brings its tables up to date. Refuses a
    /// folder, a file that isn't a store of this program, and a store from a newer version, and leaves them
    /// untouched.
    static Store open(const std::string& file, const Occasion& occasion = {});

    /// Opens an existing store or, if there is none, an empty one in memory. A file that can't be written is
    /// opened for reading only.
    static Store open_to_read(const std::string& file, const Occasion& occasion = {});

    Store(Store&& other) noexcept;
    Store& operator=(Store&& other) noexcept;
    ~Store();

    bool writable() const;

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
    bool has_candidate(const std::string& code) const;
    /// A candidate with nothing on file comes back without sittings.
    Candidate candidate(const std::string& code) const;
    std::optional<std::string> candidate_of(SittingId id) const;
    /// The marks of each candidate's latest sitting of a paper, the latest whole one if there is any; only
    /// members of the class, if one is named, and of a member with sittings that were imported for the class
    /// none that were imported for others alone. Throws Error where paper or class is not on file.
    std::vector<std::vector<PartMarks>> latest_sittings(const Paper& paper,
                                                        const std::optional<std::string>& of_class) const;

    /// All sittings of a paper, by candidate, then by day; only members of the class, if one is named. Throws
    /// Error where paper or class is not on file.
    std::vector<SittingOfPaper> sittings_of(const Paper& paper,
                                            const std::optional<std::string>& of_class) const;

    // Classes
    bool has_class(const std::string& name) const;
    std::vector<ClassOnFile> classes() const; ///< by name
    /// Codes, ascending. Throws Error where the class is not on file.
    std::vector<std::string> members(const std::string& name) const;
    std::vector<std::string> classes_of(const std::string& candidate) const; ///< names, ascending
    std::vector<std::string> classes_of(SittingId id) const; ///< those it was imported for; names, ascending

    std::vector<ExamOnFile> exams() const; ///< by day

    /// Rewrites the file without what was removed. Throws Error inside a Change or a Reading.
    void compact();

  private:
    friend class BoundarySets;
    friend class CalendarOnFile;
    friend class ChangesOnFile;
    friend class CollectedFiles;
    friend class Desk;
    friend class FactsOnFile;
    friend class PapersOnFile;
    friend class PlanOnFile;
    friend class DrawnPapers;
    friend class Reading;
    friend class SteeringOnFile;
    struct State;
    static std::shared_ptr<State> opened(const std::string& file, const Occasion& occasion, bool to_write);
    explicit Store(std::shared_ptr<State> state);
    std::shared_ptr<State> state_;
};

/// The newest layout of the tables that this program knows, as in SQLite's user_version.
int newest_store_version() noexcept;

} // namespace inkturn
