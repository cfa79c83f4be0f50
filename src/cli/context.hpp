#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/store/store.hpp"

#include <functional>
#include <iosfwd>
#include <memory>
#include <string>
#include <vector>

namespace inkturn {

/// What every command is given: streams, and the global options as typed.
struct Context {
    std::istream& in;
    std::ostream& out; ///< results
    std::ostream& err; ///< messages and progress

    std::string store{};     ///< --store, INKTURN_STORE; empty: in the XDG data folder
    std::string candidate{}; ///< --candidate, INKTURN_CANDIDATE; empty: me
    std::string today{};     ///< --today, INKTURN_TODAY; empty: the local date
    bool no_colour = false;
    bool json = false; ///< --json

    /// Set while the command line is parsed, called after it.
    std::function<void(const Context&)> run{};

    Day date_today() const;
    /// A date as typed for an option; today where nothing was typed.
    Day date_of(const std::string& text) const;

    Store store_to_read() const;
    Store store_to_write() const;

    /// Throws Error where there is no such paper.
    static std::shared_ptr<const Paper> paper_on_file(const Store& store, const std::string& id);

    /// The candidate whom a command that writes is about.
    std::string candidate_code() const;
    /// The candidate whom a command that reads is about; an Error where one was named who is not on file.
    Candidate candidate_on_file(const Store& store) const;
    /// The candidate of a sitting; an Error where there is no such sitting or it is somebody else's than the
    /// one named.
    Candidate candidate_of(const Store& store, SittingId sitting) const;

    /// The first line of what people read, in bold where the terminal shows it.
    std::string heading(const std::string& text) const;

    /// Writes the document given where --json was typed, else has `print` write for people.
    void answer(const std::function<std::string()>& document, const std::function<void()>& print) const;

    /// Asks on the terminal; without one, an Error that names the option that answers.
    bool confirmed(const std::string& question) const;
};

/// A mistake in the command line: exit 2. A command says what is wrong, without its own name and a full stop;
/// these and where to look are added.
class UsageError : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// A file to read, or standard input where its name is `-`. Throws Error where it can't be read, is a folder
/// or empty.
class InputFile {
  public:
    InputFile(const std::string& name, std::istream& standard_input);
    ~InputFile();
    std::istream& stream() const { return *stream_; }
    std::size_t size() const { return size_; } ///< bytes; 0: not known
    const std::string& name() const { return name_; }

  private:
    std::string name_;
    std::unique_ptr<std::istream> file_;
    std::istream* stream_;
    std::size_t size_ = 0;
};

} // namespace inkturn
