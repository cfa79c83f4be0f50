#pragma once

#include <cstdint>
#include <stdexcept>
#include <string>
#include <utility>

namespace inkturn {

/// Work that was refused or failed. The message says what is wrong and where. What to do next depends on the
/// program, which puts it into words from kind(), remedy() and about().
class Error : public std::runtime_error {
  public:
    enum class Kind : std::uint8_t {
        invalid,    ///< what was given is wrong in itself, or doesn't fit what it belongs to
        not_found,  ///< what was named is not there
        conflict,   ///< what is on file, or the date, stands in the way
        misused,    ///< a call at a time or with arguments that its contract rules out
        busy,       ///< another program is using the file: the same call may work later
        unwritable, ///< the file can be read but not written
        unreadable, ///< the file can't be opened, read or written, or is not a store that this program knows
        damaged     ///< what the file holds contradicts itself
    };

    /// What would help; in brackets, what about() holds.
    enum class Remedy : std::uint8_t {
        none,
        use_name_meant,        ///< the one that was probably meant (that name)
        give_all_marks,        ///< enter the parts left out, or say what becomes of them
        give_other_paper_id,   ///< or remove the paper of this id first
        show_paper,            ///< see its parts (the paper's id)
        see_sitting,           ///< see the candidate's sittings, this one among them
        list_sittings,         ///< see which there are
        amend_sitting,         ///< correct the one on file
        mark_or_remove_script, ///< enter its marks once it is handed in, or drop it (its id)
        resume_or_mark_script, ///< go on with it, or enter its marks (its id)
        see_retry_ids,         ///< see how they are written
        list_retries,          ///< see what is open
        undo_retry,            ///< undo it (its id)
        see_retry_rule,        ///< see which misses make a retry, or change that
        undo_retry_first,      ///< undo it before anything else (its id)
        give_day_time,         ///< ask for another day, or give this one more time (the date)
        take_back_paper,       ///< take back what was decided about a paper (its id)
        take_back_topic,       ///< the same of a topic (its name)
        list_fact_topics,      ///< see the topics of the facts on file
        see_fact,              ///< see the facts, this one among them
        show_sheet,            ///< see its rows (its number)
        undo_sheet_log,        ///< undo the log (the sheet's number)
        undo_sheet_log_first,  ///< undo the log before anything else (the sheet's number)
        see_exam,              ///< see the exams, this one among them
        remove_award,          ///< take it off file first (its name)
        remove_boundary_set,   ///< take it off file first (its number)
        list_awards,           ///< see which there are
        list_boundary_sets,    ///< see which there are
        list_classes,          ///< see which there are
        list_members,          ///< see who is in it (the class's name)
        list_lessons,          ///< see which there are
    };

    explicit Error(const std::string& message, Kind kind = Kind::invalid, Remedy remedy = Remedy::none,
                   std::string about = {})
        : std::runtime_error(message), kind_(kind), remedy_(remedy), about_(std::move(about)) {}

    Kind kind() const noexcept { return kind_; }
    Remedy remedy() const noexcept { return remedy_; }
    const std::string& about() const noexcept { return about_; }

    /// The same, with `where` put in front of the message.
    Error within(const std::string& where) const { return Error(where + what(), kind_, remedy_, about_); }

  private:
    Kind kind_;
    Remedy remedy_;
    std::string about_;
};

/// A failure of the store. The message names the operation and the file.
class StoreError : public Error {
  public:
    StoreError(const std::string& operation, const std::string& file, const std::string& what, Kind kind)
        : Error(operation + " '" + file + "': " + what, kind),
          operation_(operation),
          file_(file),
          why_(what) {}

    const std::string& operation() const noexcept { return operation_; } ///< such as `reading marks from`
    const std::string& file() const noexcept { return file_; }           ///< as it was given to Store::open()
    const std::string& why() const noexcept { return why_; }             ///< the message without these

  private:
    std::string operation_;
    std::string file_;
    std::string why_;
};

} // namespace inkturn
