#pragma once

#include "cli/defaults.hpp"
#include "cli/files_read.hpp"
#include "inkturn/base/day.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/store/store.hpp"

#include <functional>
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// What every command gets: streams, and the global options as typed.
struct Context {
    std::istream& in;
    std::ostream& out; ///< results
    std::ostream& err; ///< messages and progress

    std::string store{};     ///< --store, INKTURN_STORE; empty: in the XDG data folder
    std::string candidate{}; ///< --candidate, INKTURN_CANDIDATE; empty: see candidate_code()
    std::string today{};     ///< --today, INKTURN_TODAY; empty: the local date
    bool no_colour = false;
    bool quiet = false; ///< --quiet: no progress
    bool json = false;  ///< --json

    std::string typed{}; ///< what to type after the program's name to get the same

    /// The files that the command reads: none of its outputs may take the place of one.
    std::shared_ptr<FilesRead> files_read = std::make_shared<FilesRead>();
    /// Whether a change of the store was made.
    std::shared_ptr<bool> stored = std::make_shared<bool>(false);

    /// What the person's own file states, for what was not typed.
    std::shared_ptr<const Defaults> defaults = std::make_shared<const Defaults>();
    /// Whether the candidate is the one whom that file names.
    std::shared_ptr<bool> candidate_by_default = std::make_shared<bool>(false);

    /// Set while the command line is parsed; called after it, before `run`: takes up what the file of
    /// defaults states for options that were not typed.
    std::vector<std::function<void(const Context&)>> settle{};
    /// Set while the command line is parsed, called after it.
    std::function<void(const Context&)> run{};

    Day date_today() const;
    /// A date as typed for an option; today if nothing was typed. A weekday is the next one.
    Day date_of(const std::string& text) const;
    /// The same for an exam: a day that is_far_off() is asked about on a terminal, and noted elsewhere.
    Day date_of_exam(const std::string& text) const;
    /// The same for a lesson, or for work to hand in: a day that is_far_ahead() is questioned likewise.
    Day date_ahead(const std::string& text, bool is_stored) const;
    /// A date of what has happened: a weekday is the last one.
    Day date_passed(const std::string& text) const;
    /// The same for what is recorded as done that day: one that is_long_ago() is asked about on a terminal,
    /// and noted elsewhere. Throws Error if it was a slip.
    Day date_done(const std::string& text) const;
    /// Questions a stated duration likewise that is far from what papers of so many marks have.
    void question_duration(const Paper& paper) const;

    Store store_to_read() const;
    Store store_to_write() const;
    std::string store_file() const; ///< whether it is there or not

    /// The paper of this id, or else the one whose id alone begins so. Throws Error if there is none, or
    /// several begin so.
    static std::shared_ptr<const Paper>
    paper_on_file(const Store& on_file, const std::string& id,
                  const std::string& remedy = "'inkturn paper list' lists the papers");
    /// For what can't be undone by hand: the whole id has to be typed.
    static std::shared_ptr<const Paper> paper_by_whole_id(const Store& on_file, const std::string& id);

    /// The candidate, for a command that writes: the one named, else the one of the file of defaults, else
    /// me.
    std::string candidate_code() const;
    /// What keeps to the candidate in the next command: ` --candidate CODE` if it was typed, else nothing.
    std::string same_candidate() const;
    /// The line that names the next command, with that.
    std::string next(const std::string& command) const {
        return "Next: inkturn " + command + same_candidate() + '\n';
    }
    /// The candidate, for a command that reads. Throws Error if the one named on the command line or in the
    /// environment is not on file.
    Candidate candidate_on_file(const Store& on_file) const;
    /// The candidate of a sitting. Throws Error if there is no such sitting, or if it is not by the candidate
    /// named.
    Candidate candidate_of(const Store& on_file, SittingId sitting) const;

    /// The times that the file of defaults states for its candidate, for as long as that one is not on file;
    /// they are to be stored with the first record.
    std::optional<StatedTimes> times_by_default(const Store& on_file, const std::string& code) const;
    /// Tells on standard error what was taken from the file of defaults.
    void tell_default(Default setting, const std::string& what) const;

    /// Whether standard output takes styles, and nobody asked for none.
    bool takes_styles() const;
    /// A heading, in bold if the terminal can show it.
    std::string heading(const std::string& text) const;

    /// Writes the document if --json was typed; otherwise calls `print`, which writes for people.
    void answer(const std::function<std::string()>& document, const std::function<void()>& print) const;

    /// Asks about a doubt on a terminal, and notes it elsewhere. Throws Error with what to do `again` if it
    /// was a slip. `is_stored`: whether 'undo' would take it back.
    void question(const std::string& doubt, const std::string& ask, const std::string& again,
                  bool is_stored = true) const;

    /// Asks on the terminal. Without one, throws an Error that names the option to use instead.
    bool confirmed(const std::string& question) const;

  private:
    Occasion occasion() const;
};

/// For the end of a message about a name that is not on file: `; did you mean pure-a?`, or what to do
/// instead.
std::string meant(const std::string& typed, const std::vector<std::string>& names,
                  const std::string& else_do);

/// The topics of the papers that a candidate sat.
std::vector<std::string> topics_sat(const Candidate& candidate);

/// A mistake on the command line: exit 2. A command says only what is wrong; its name, a full stop and where
/// to look are added.
class UsageError : public Error {
  public:
    explicit UsageError(const std::string& message) : Error(message) {}
};

/// A file to read, or standard input if its name is `-`. Throws Error if it is a folder or can't be read.
class InputFile {
  public:
    InputFile(const std::string& name, const Context& context);
    ~InputFile();
    std::istream& stream() const { return *stream_; }
    std::optional<std::size_t> size() const { return size_; } ///< bytes, if known
    const std::string& name() const { return name_; }

  private:
    std::string name_;
    std::unique_ptr<std::istream> file_;
    std::istream* stream_;
    std::optional<std::size_t> size_;
};

} // namespace inkturn
