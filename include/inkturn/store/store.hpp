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

/// What is on file, in one SQLite database; a Change alone changes it, see change.hpp. All verbs throw
/// StoreError where the file can't be read or written.
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

    class Change;

    // Papers
    std::shared_ptr<const Paper> find_paper(const std::string& id) const; ///< null where there is none
    std::vector<PaperOnFile> papers() const;                              ///< by id

    // Pictures of a paper's questions
    std::vector<PictureOnFile> pictures() const; ///< by paper, then as they came
    std::optional<Picture> picture(PictureId id) const;
    /// In the order in which they came; of the whole question where there is none of the part asked for.
    /// Throws Error where the paper is not on file.
    std::vector<Picture> pictures_of(const Paper& paper, const std::string& question,
                                     PictureContent content) const;

    // Candidates and their sittings
    std::vector<std::string> candidates() const; ///< codes, ascending
    bool has_candidate(const std::string& code) const;
    /// A candidate without anything on file is one without sittings.
    Candidate candidate(const std::string& code) const;
    std::optional<std::string> candidate_of(SittingId id) const;
    /// The marks of each candidate's latest sitting of a paper, of a class's members where one is named.
    /// Throws Error where paper or class is not on file.
    std::vector<std::vector<PartMarks>> latest_sittings(const Paper& paper,
                                                        const std::optional<std::string>& of_class) const;

    // Classes
    bool has_class(const std::string& name) const;
    std::vector<ClassOnFile> classes() const; ///< by name
    /// Codes, ascending. Throws Error where the class is not on file.
    std::vector<std::string> members(const std::string& name) const;
    std::vector<std::string> classes_of(const std::string& candidate) const; ///< names, ascending

    std::vector<ExamOnFile> exams() const; ///< by day

    /// Writes the file anew without what was removed. Throws Error inside a Change or a Reading.
    void compact();

  private:
    friend class BoundarySets;
    friend class Desk;
    friend class FactsOnFile;
    friend class PlanOnFile;
    friend class DrawnPapers;
    friend class Reading;
    struct State;
    static std::shared_ptr<State> opened(const std::string& file, bool to_write);
    explicit Store(std::shared_ptr<State> state);
    std::shared_ptr<State> state_;
};

/// The newest layout of the tables that this program knows, as in SQLite's user_version.
int newest_store_version() noexcept;

} // namespace inkturn
