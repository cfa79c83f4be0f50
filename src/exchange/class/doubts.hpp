#pragma once

#include "inkturn/base/problem.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace inkturn {

/// What may be meant otherwise than it is read, in the order in which it is listed.
enum class DoubtKind : std::uint8_t {
    encoding,        ///< bytes that say another encoding than the option
    subject,         ///< no paper or exam has it
    topic,           ///< one of a list of topics that is nearly another one of it
    new_class,       ///< a class that is not on file, named almost as one that is
    new_paper,       ///< the same of a paper
    date,            ///< more than a year back
    max_row,         ///< a row that may hold the maxima or be a candidate's
    no_candidate,    ///< a row such as Mean
    nothing_tried,   ///< a row with - in every cell
    absent_remark,   ///< a row of zeros beside a remark such as absent
    sum,             ///< a column that looks like the sum of others
    column,          ///< a column of an unknown name
    code_like,       ///< a code like another but for zeros, case, look or what can't be seen
    code_in_class,   ///< a code that another class has too
    scientific_code, ///< 1.2E+05
    name,            ///< a code that looks like a name
    same_marks,      ///< the same marks on another day
    sat_before,      ///< other marks on another day
    absent_on_file,  ///< absent from a sitting that is on file
    extra_time,      ///< other than on file
    known_code,      ///< a code that has to be on file, and is but for what code_like names
    early,           ///< a re-attempt before its window opens
    nothing_retried  ///< a re-attempt with - in every part
};
constexpr std::size_t doubt_kinds = 23;

/// What is doubted where --encoding contradicts the file.
constexpr const char* valid_utf8_doubt =
    "the file is valid UTF-8: read as windows-1252, each accented letter becomes two other signs. Leave "
    "--encoding out";

/// What settles a doubt: a word to type, and what is done then.
struct DoubtAnswer {
    const char* name;
    const char* does;
};

/// The answer that goes on with what is read, and the other one if there is any (else its name is null).
struct DoubtAnswers {
    DoubtAnswer as_read;
    DoubtAnswer otherwise;
};
const DoubtAnswers& answers_to(DoubtKind kind);

/// The words that settle doubts of these kinds, in the kinds' order; of all if there are none.
std::vector<std::string> words_that_settle(const std::vector<DoubtKind>& kinds);

struct FileDoubt {
    DoubtKind kind;
    Problem at; ///< place and message
};

/// The doubts about a file, and the answers given beforehand.
class FileDoubts {
  public:
    FileDoubts() = default;
    /// Throws Error where a name answers none of these kinds (all if there are none), or both answers to one
    /// doubt are given.
    explicit FileDoubts(const std::vector<std::string>& accepted, const std::vector<DoubtKind>& kinds = {});

    /// Doubts what is at a place, unless that kind was answered.
    void raise(DoubtKind kind, Problem at);
    /// Whether the other answer was given; without one the file is read as if it were not.
    bool is_otherwise(DoubtKind kind) const { return given(kind) == Given::otherwise; }
    bool is_open(DoubtKind kind) const { return given(kind) == Given::none; }

    /// Those not answered: by kind, then as they were found; of each kind the first ones.
    std::vector<FileDoubt> open() const;
    std::size_t count(DoubtKind kind) const { return counts_[static_cast<std::size_t>(kind)]; }
    bool empty() const { return doubts_.empty(); }

    static constexpr std::size_t max_of_kind = 50;

  private:
    enum class Given : std::uint8_t { none, as_read, otherwise };
    Given given(DoubtKind kind) const { return given_[static_cast<std::size_t>(kind)]; }

    std::array<Given, doubt_kinds> given_{};
    std::array<std::size_t, doubt_kinds> counts_{};
    std::vector<FileDoubt> doubts_;
};

} // namespace inkturn
